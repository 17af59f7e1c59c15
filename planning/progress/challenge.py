"""A group's challenge: what each has done of it, and when it closes. Nobody is ranked: only counts leave here."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from enum import StrEnum

from planning.calendar import instant
from planning.progress.review import OUTINGS
from planning.terms.choices import Activity
from planning.terms.entry import Entry, Status

CLOSES = time(20)
"""Local time of the coach on the last day."""


class Counted(StrEnum):
    """What a challenge counts. Sessions and the like are counted by days, so that nobody doubles up for it."""

    SESSIONS = "sessions"
    WALKS = "walks"
    RUNS = "runs"
    STRENGTH = "strength"
    STRETCHES = "stretches"
    MINUTES = "minutes"
    KM = "km"


BY_DAY = {
    Counted.SESSIONS: OUTINGS,
    Counted.WALKS: frozenset({Activity.WALK}),
    Counted.RUNS: frozenset({Activity.RUN, Activity.RUN_WALK}),
    Counted.STRENGTH: frozenset({Activity.STRENGTH}),
    Counted.STRETCHES: frozenset({Activity.STRETCH}),
}


@dataclass(frozen=True, slots=True)
class GoalPart:
    """So many of something."""

    count: float
    of: Counted


@dataclass(frozen=True, slots=True)
class Goal:
    """What a challenge asks for, from the day it was set to its last day, both inclusive.

    *shared*: all together; else each for themselves.
    """

    parts: tuple[GoalPart, ...]
    first: date
    last: date
    shared: bool = False


@dataclass(frozen=True, slots=True)
class Tally:
    """How far one person is, part by part. *together*: what all have done of it; *is_done*: by this person, or of a
    shared one by all; *people_done*: how many have finished; of a shared one, how many have a part in it.
    """

    done: tuple[float, ...]
    of: tuple[float, ...]
    together: tuple[float, ...]
    is_done: bool
    people_done: int


def closes_at(goal: Goal, coach_tz: str) -> datetime:
    """The UTC instant at which *goal* closes: 20:00 of its last day, coach's time."""
    return instant(goal.last, CLOSES, coach_tz)


def done_of(goal: Goal, entries: Iterable[Entry]) -> tuple[float, ...]:
    """How much of each part these *entries* make."""
    log = [each for each in entries if each.status is Status.DONE and goal.first <= each.on <= goal.last]
    return tuple(_count(part.of, log) for part in goal.parts)


def tally(goal: Goal, logs: Mapping[str, Iterable[Entry]], who: str) -> Tally:
    """Where *who* stands. *logs*: entries of each who agreed that they count, by person."""
    done = {person: done_of(goal, entries) for person, entries in logs.items()}
    wanted = tuple(part.count for part in goal.parts)
    together = tuple(map(sum, zip(*done.values(), strict=True))) or (0.0,) * len(wanted)
    mine = done.get(who, (0.0,) * len(wanted))
    people = sum(any(each) if goal.shared else _reaches(each, wanted) for each in done.values())
    return Tally(mine, wanted, together, _reaches(together if goal.shared else mine, wanted), people)


def _count(of: Counted, log: list[Entry]) -> float:
    if of is Counted.MINUTES:
        return sum(each.minutes or 0.0 for each in log if each.kind in OUTINGS)
    if of is Counted.KM:
        return sum(each.km or 0.0 for each in log if each.kind in OUTINGS)
    return len({each.on for each in log if each.kind in BY_DAY[of]})


def _reaches(done: tuple[float, ...], wanted: tuple[float, ...]) -> bool:
    return all(have >= want for have, want in zip(done, wanted, strict=True))
