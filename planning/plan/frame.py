"""What of a person shapes every week: which days, how fast things may grow, where it all starts."""

from dataclasses import dataclass
from datetime import time
from itertools import combinations

from planning.limits.care import can_walk_twenty, is_heavy, is_over_30
from planning.limits.ceilings import MOST_DAYS, first_session, first_week
from planning.limits.record import Record
from planning.limits.rule import empty_record
from planning.limits.start import first_bout
from planning.safety.screen import screen
from planning.terms.choices import RaceMode
from planning.terms.person import Profile

WEEKENDS_FIRST = (6, 5, 0, 4, 3, 2, 1)
"""Weekdays in order of liking for the long session."""
FIRST_MINUTES = 20
MOST_AT_FIRST = 60
"""Minutes of one session in week 1 at most, whatever was done before (common practice, no source)."""
BOUT_ENDS = 15 * 60
"""Seconds of walking in one go from which on standing rests are left out."""


@dataclass(frozen=True, slots=True)
class Frame:
    """The fixed frame of one person's plan. Weekdays are numbers, Monday 0.

    *used*: weekdays with a session, in order; *runs*: those that may hold running; *order*: the used ones, most
    important first; *minutes*: a session of week 1; *bout*: walking between rests in seconds, 0 without rests;
    *percent*: how much the long session grows; *run_step*: how much running a session may add, seconds; *over_30*,
    *heavy*: BMI over 30, from 35 on.
    """

    profile: Profile
    begin: int
    monday: int
    used: tuple[int, ...]
    long: int
    runs: tuple[int, ...]
    order: tuple[int, ...]
    at: tuple[time, ...]
    minutes: int
    bout: int
    percent: int
    run_step: int
    may_run: bool
    may_grow: bool
    over_30: bool
    heavy: bool

    @property
    def count(self) -> int:
        """Sessions in a full week."""
        return len(self.used)

    def record(self, now: int = 0) -> Record:
        """The empty record of this person; days before *now* (ordinal) will be what really happened."""
        return empty_record(self.profile, self.count, now)

    def day(self, number: int, weekday: int) -> int:
        """Ordinal of *weekday* in week *number*."""
        return self.monday + (number - 1) * 7 + weekday


def _apart(days: tuple[int, ...]) -> bool:
    return all((b - a) % 7 not in (1, 6) for a, b in combinations(days, 2))


def _gaps(days: tuple[int, ...]) -> tuple[int, ...]:
    turns = zip(days, (*days[1:], days[0] + 7), strict=True)
    return tuple(sorted(b - a for a, b in turns))


def choose_long(given: tuple[int, ...]) -> int:
    """Weekday of the long session: the weekend if it is given, else the day with the most room."""
    return min(
        given, key=lambda day: (day < 5, sum((day + step) % 7 in given for step in (1, 6)), WEEKENDS_FIRST.index(day))
    )


def choose_runs(used: tuple[int, ...], long: int) -> tuple[int, ...]:
    """Up to three weekdays for running, the long one among them, never two in a row."""
    sets = [days for size in (1, 2, 3) for days in combinations(used, size) if long in days and _apart(days)]
    return max(sets, key=lambda days: (len(days), _gaps(days)))


def choose_days(given: tuple[int, ...], long: int) -> tuple[int, ...]:
    """The weekdays that get a session: all given ones, or the four that lie best."""
    if len(given) <= MOST_DAYS:
        return given
    sets = [days for days in combinations(given, MOST_DAYS) if long in days]
    eve = (long - 1) % 7
    return max(sets, key=lambda days: (len(choose_runs(days, long)), eve not in days, _gaps(days)))


def first_minutes(profile: Profile, count: int) -> int:
    """Minutes of each session in week 1: 20, or what is usual for this person."""
    if not can_walk_twenty(profile):
        return FIRST_MINUTES
    usual = int(profile.week_min) // count
    most = min(first_session(profile) // 60, first_week(profile) // 60 // count, MOST_AT_FIRST, int(profile.walk_min))
    return max(FIRST_MINUTES, min(usual, most))


def walks_only(profile: Profile) -> bool:
    """No running is planned: by choice, or until a clinician has said more than moderate effort is fine."""
    by_choice = profile.race is not None and profile.race.mode is RaceMode.WALK
    return by_choice or profile.screen.pregnant or not screen(profile.screen, profile.cleared).vigorous


def draw_frame(profile: Profile) -> Frame:
    """The frame of *profile*."""
    at = dict(sorted((int(each.day), each.at) for each in profile.days))
    given = tuple(at)
    long = choose_long(given)
    used = choose_days(given, long)
    runs = choose_runs(used, long)
    record = empty_record(profile, len(used))
    over_30, heavy = is_over_30(profile), is_heavy(profile)
    return Frame(
        profile=profile,
        begin=record.begin,
        monday=record.monday,
        used=used,
        long=long,
        runs=runs,
        order=(long, *(each for each in runs if each != long), *(each for each in used if each not in runs)),
        at=tuple(at.get(each, at[given[0]]) for each in range(7)),
        minutes=first_minutes(profile, len(used)),
        bout=0 if can_walk_twenty(profile) else first_bout(profile.walk_min),
        percent=8 if heavy or not can_walk_twenty(profile) else 10,
        run_step=120 if over_30 else 180,
        may_run=not walks_only(profile),
        may_grow=profile.cleared or not profile.screen.pregnant,
        over_30=over_30,
        heavy=heavy,
    )
