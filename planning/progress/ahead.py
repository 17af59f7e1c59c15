"""What of a plan is still to be climbed, and how much of the last weeks was done: by whole weeks, never by a day."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from planning.progress.review import monday_of, week_numbers
from planning.terms.choices import Purpose, WeekKind
from planning.terms.entry import Entry
from planning.terms.plan import Plan, Week

LOOK_BACK = 8
"""Weeks back to which the last weeks are looked for; older ones say little of now (common practice, no source)."""

TRAINED = frozenset({WeekKind.START, WeekKind.BUILD, WeekKind.EASIER, WeekKind.HOLD})
"""Kinds of weeks of which none comes after the last taper has begun."""


@dataclass(frozen=True, slots=True)
class Ahead:
    """*weeks*: whole weeks from next Monday on up to the taper; *steps*: how many of them have to be climbed."""

    weeks: int
    steps: int


def still_ahead(plan: Plan, today: date) -> Ahead:
    """What lies between now and the last taper of *plan*, or its end if it has none.

    A step is a week of kind build whose longest session is longer than that of every week to come before it. What makes
    somebody ready is the long session, so weeks that hold or ease ask for no step, nor do those that repeat a length.
    The plan was made from what really happened, so it begins where the person stands.
    """
    coming = [each for each in plan.weeks if each.monday > today]
    end = max((place for place, each in enumerate(coming, start=1) if each.kind in TRAINED), default=0)
    longest, steps = 0, 0
    for week in coming[:end]:
        steps += week.kind is WeekKind.BUILD and _longest(week) > longest
        longest = max(longest, _longest(week) if week.kind is WeekKind.BUILD else 0)
    return Ahead(end, steps)


def kept(plan: Plan, entries: Iterable[Entry], today: date) -> tuple[float, ...]:
    """Part of the planned minutes that was done in each of the last whole weeks with a session, oldest first.

    The week of *today* is not over, and week 0 is none.
    """
    log, lengths = tuple(entries), {each.on: each.minutes for each in plan.sessions}
    now = monday_of(today)
    first = now - timedelta(weeks=LOOK_BACK)
    weeks = (each for each in plan.weeks if each.number and first <= each.monday < now and each.seconds)
    return tuple(week_numbers(log, lengths, each.monday).minutes / each.minutes for each in weeks)


def _longest(week: Week) -> int:
    """Seconds of its longest session, the race left out."""
    return max((each.seconds for each in week.sessions if each.purpose is not Purpose.RACE), default=0)
