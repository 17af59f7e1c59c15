"""A session on another day of its week: nothing hard on days in a row, nothing doubled up, the more important stays."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, time, timedelta

from planning.step.cap import Cap, under
from planning.terms.choices import Purpose
from planning.terms.person import DayTime
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Moved

IMPORTANCE = (Purpose.EASY, Purpose.BRISK, Purpose.LONG, Purpose.RACE)
"""Which session stays where two meet, the least important first."""

HARD = frozenset({Purpose.LONG, Purpose.BRISK, Purpose.RACE})
WALKED = Cap(runs=False, effort=3)


@dataclass(frozen=True, slots=True)
class _Wish:
    """A move to be judged: all other sessions, the one to move, and what the person and the rules allow."""

    others: tuple[Session, ...]
    which: Session
    given: dict[int, time]
    today: date
    runs_in_a_row: bool


def move(
    sessions: tuple[Session, ...],
    which: Session,
    to: date,
    at: time | None,
    given_days: tuple[DayTime, ...],
    today: date,
    *,
    runs_in_a_row: bool = False,
) -> Moved:
    """*which* of *sessions* on the day *to*, at *at* or the usual time of that day.

    *sessions*: those of the week and of the days next to it; *given_days*: usual days and times; *runs_in_a_row*:
    whether running on days in a row is open to this person. Where its day forbids running it is walked; where it may
    not lie at all it goes to the nearest free one of the usual days; if none fits it is dropped.
    """
    others = tuple(each for each in sessions if each.on != which.on)
    given = {int(each.day): each.at for each in given_days}
    wish = _Wish(others, which, given, today, runs_in_a_row)
    if to < today:
        return Moved(None, (which,), (Reason.DAY_IS_OVER,))
    if to != which.on and _monday(to) != _monday(which.on):
        return Moved(None, (which,), (Reason.WITHIN_THE_WEEK,))
    return _onto(wish, to, at) or _elsewhere(wish, to) or Moved(None, (which,), (Reason.HARD_DAYS_APART,))


def _onto(wish: _Wish, to: date, at: time | None) -> Moved | None:
    """The move to the wished day; None where something hard next to it forbids it."""
    there = [each for each in wish.others if each.on == to]
    if any(_rank(each) > _rank(wish.which) for each in there):
        return Moved(None, (wish.which,), (Reason.MORE_IMPORTANT_STAYS,))
    placed = _placed(wish, to, at)
    if placed is None:
        return None
    session, why = placed
    stays = (Reason.MORE_IMPORTANT_STAYS,) if there else ()
    return Moved(session, tuple(there), (Reason.MOVED_AS_ASKED, *why, *stays))


def _elsewhere(wish: _Wish, to: date) -> Moved | None:
    """The nearest usual day of that week that is still to come and holds nothing; None if there is none."""
    taken = {each.on for each in wish.others} | {to, wish.which.on}
    week = [_monday(to) + timedelta(days=number) for number in range(7)]
    free = [day for day in week if day >= wish.today and day not in taken and day.weekday() in wish.given]
    for day in sorted(free, key=lambda day: (abs((day - to).days), day)):
        placed = _placed(wish, day, None)
        if placed:
            return Moved(placed[0], (), (Reason.HARD_DAYS_APART, Reason.MOVED_TO_FREE_DAY, *placed[1]))
    return None


def _placed(wish: _Wish, day: date, at: time | None) -> tuple[Session, tuple[Reason, ...]] | None:
    """The session on that day, walked where running or a brisk one may not lie; None where it is long and may not."""
    default = wish.which.at if day == wish.which.on else wish.given.get(day.weekday(), wish.which.at)
    session = replace(wish.which, on=day, at=at or default)
    if session.on == wish.which.on:
        return session, ()
    near = [each for each in wish.others if abs((each.on - day).days) == 1]
    hard = session.purpose in HARD and _any_hard(near)
    runs = session.run_seconds > 0 and not wish.runs_in_a_row and any(each.run_seconds for each in near)
    if hard and session.purpose is not Purpose.BRISK:
        return None
    if not (hard or runs):
        return session, ()
    return _walked(session), (Reason.HARD_DAYS_APART,) * hard + (Reason.RUN_DAYS_APART,) * runs


def _walked(session: Session) -> Session:
    """*session* without running; a brisk one becomes an easy one."""
    return under(session, WALKED)


def _any_hard(sessions: Iterable[Session]) -> bool:
    return any(each.purpose in HARD for each in sessions)


def _rank(session: Session) -> int:
    return IMPORTANCE.index(session.purpose)


def _monday(on: date) -> date:
    return on - timedelta(days=on.weekday())
