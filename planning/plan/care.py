"""What goes with a session beside its minutes: stretches by part of the body, rehearsals, skin and feet. Names only."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cache

from planning.facts import load
from planning.plan.race_day import FOOD_FROM
from planning.terms.choices import Part, Purpose
from planning.terms.plan import Plan, Session

REHEARSAL_DAYS = 56
"""Days before the race in which long sessions rehearse it (common practice, no source)."""
LONG_DAY = 60 * 60
"""Seconds on foot from which on skin and feet want care (common practice, no source)."""


class Care(StrEnum):
    """What to mind on one day."""

    REHEARSE_KIT = "rehearse_kit"
    REHEARSE_FOOD = "rehearse_food"
    SKIN = "skin"
    FEET = "feet"


@dataclass(frozen=True, slots=True)
class Beside:
    """What goes with one session: what to mind, and which stretches close it."""

    care: tuple[Care, ...]
    stretches: tuple[Part, ...]


@cache
def stretches_after(kind: str) -> tuple[Part, ...]:
    """Parts of the body to stretch after a session of this *kind*: walk, long or run."""
    return tuple(Part(each) for each in load("stretches")["after"][kind])


def race_of(plan: Plan) -> date | None:
    """Day of the race that the plan leads to."""
    if plan.race_day is None:
        return None
    return max((each.on for each in plan.sessions if each.purpose is Purpose.RACE), default=None)


def beside(session: Session, race: date | None) -> Beside:
    """What goes with *session* on the way to the *race*."""
    long = session.purpose is Purpose.LONG
    near = long and race is not None and 0 < (race - session.on).days <= REHEARSAL_DAYS
    rows = (
        (Care.REHEARSE_KIT, near),
        (Care.REHEARSE_FOOD, near and session.seconds >= FOOD_FROM * 60),
        (Care.SKIN, session.seconds >= LONG_DAY),
        (Care.FEET, session.seconds >= LONG_DAY),
    )
    kind = "long" if long else "run" if session.run_seconds else "walk"
    return Beside(tuple(name for name, holds in rows if holds), stretches_after(kind))
