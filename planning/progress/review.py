"""Four weeks in numbers: never day against day, and nothing that was planned, only what was done."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from planning.terms.choices import Activity
from planning.terms.entry import Entry, Status
from planning.terms.plan import Session

WEEKS = 4
OUTINGS = frozenset({Activity.WALK, Activity.RUN, Activity.RUN_WALK, Activity.SESSION, Activity.CROSS, None})
"""What counts as a session; the stretch and strength are counted apart."""


@dataclass(frozen=True, slots=True)
class WeekNumbers:
    """What one week from Monday to Sunday held: minutes, days with a session, minutes of the longest, strength."""

    monday: date
    minutes: float
    sessions: int
    longest_min: float
    strength: int


@dataclass(frozen=True, slots=True)
class Review:
    """Four weeks, oldest first, and how they differ from the four before; *change*: None if nothing was logged then."""

    weeks: tuple[WeekNumbers, ...]
    change: WeekNumbers | None

    @property
    def minutes(self) -> float:
        """Minutes of the four weeks."""
        return sum(each.minutes for each in self.weeks)

    @property
    def sessions(self) -> int:
        """Sessions of the four weeks."""
        return sum(each.sessions for each in self.weeks)


def review(entries: Iterable[Entry], planned: Iterable[Session], today: date) -> Review:
    """The four weeks that end with the week of *today*.

    *planned*: sessions of those weeks, for the minutes of "all of it" or "half of it". In the middle of a week the four
    weeks before are cut on the same weekday, so that a week that is not over yet looks like no loss.
    """
    log, lengths = tuple(entries), {each.on: each.minutes for each in planned}
    then = today - timedelta(weeks=WEEKS)
    now = _weeks_to(today, log, lengths)
    before = _weeks_to(then, tuple(each for each in log if each.on <= then), lengths)
    return Review(now, _change(before, now) if any(each.sessions for each in before) else None)


def _weeks_to(today: date, log: tuple[Entry, ...], lengths: dict[date, float]) -> tuple[WeekNumbers, ...]:
    """The four weeks that end with the week of *today*, oldest first."""
    mondays = [monday_of(today) - timedelta(weeks=back) for back in range(WEEKS - 1, -1, -1)]
    return tuple(week_numbers(log, lengths, monday) for monday in mondays)


def monday_of(on: date) -> date:
    """Monday of the week of *on*."""
    return on - timedelta(days=on.weekday())


def week_numbers(entries: Iterable[Entry], lengths: dict[date, float], monday: date) -> WeekNumbers:
    """What the week from *monday* held. *lengths*: minutes planned by date."""
    week = [each for each in entries if each.status is Status.DONE and 0 <= (each.on - monday).days < 7]
    days: dict[date, float] = {}
    for each in week:
        if each.kind in OUTINGS:
            days[each.on] = days.get(each.on, 0.0) + minutes_done(each, lengths)
    strength = sum(each.kind is Activity.STRENGTH for each in week)
    return WeekNumbers(monday, sum(days.values()), len(days), max(days.values(), default=0.0), strength)


def minutes_done(entry: Entry, lengths: dict[date, float]) -> float:
    """Minutes of *entry*, by the planned length where only a share was said; 0 where nobody knows."""
    if entry.minutes is not None:
        return entry.minutes
    planned = lengths.get(entry.planned_on or entry.on, 0.0)
    return planned * (1.0 if entry.share is None else entry.share)


def _change(before: tuple[WeekNumbers, ...], now: tuple[WeekNumbers, ...]) -> WeekNumbers:
    """Sum of the four weeks now less that of the four before; of the longest, the difference of the longest."""
    return WeekNumbers(
        now[0].monday,
        sum(each.minutes for each in now) - sum(each.minutes for each in before),
        sum(each.sessions for each in now) - sum(each.sessions for each in before),
        max(each.longest_min for each in now) - max(each.longest_min for each in before),
        sum(each.strength for each in now) - sum(each.strength for each in before),
    )
