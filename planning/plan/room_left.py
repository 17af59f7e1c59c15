"""What a day of a plan may hold after what really happened before it: in its week, by itself, after an illness."""

from bisect import bisect_left
from dataclasses import dataclass
from statistics import median

from planning.limits.ceilings import FIRST_SESSION, first_week, grow_run_week, grow_session, grow_week
from planning.limits.record import WHOLE, Record
from planning.limits.running import FIRST_RUNNING
from planning.plan.aim import Way
from planning.plan.lengths import LEAST
from planning.safety.illness import Illness, gentle_seconds, percent_back

USUAL = 4
"""Outings before an illness whose middle length is the usual one."""


@dataclass(frozen=True, slots=True)
class Left:
    """Seconds, and seconds of running, that a week may hold."""

    seconds: int
    run: int


def week_most(way: Way, number: int, start: int) -> Left:
    """What week *number* may hold in all. *start*: its first day with an outing."""
    record = way.record
    run = grow_run_week(record.run_week(number, start))
    first = not any(seconds for week, seconds in record.runs.items() if week < number)
    if first and way.frame.over_30:
        run = min(run, FIRST_RUNNING)
    if number < 2:
        return Left(first_week(way.frame.profile), run)
    return Left(max(record.week_again(start), grow_week(record.highest_week(number, start))), run)


def left_of(way: Way, number: int, most: Left) -> Left:
    """What is left of the *most* that week *number* may hold; weeks 0 and 1 share theirs."""
    totals = way.record.totals
    done = totals.get(number, 0) + (totals.get(0, 0) if number == 1 else 0)
    return Left(most.seconds - done, most.run - way.record.runs.get(number, 0))


def longest_of_day(way: Way, on: int) -> int:
    """Seconds that a session on the day *on* may have by what was done before it; no growth on the first day back, nor
    while pain, a fever or too much work asks for walking alone."""
    record, off = way.record, way.off
    longest = record.longest(on)
    grown = longest if record.left(on) < WHOLE or off.keeps(on) else grow_session(longest)
    most = max(record.session_again(on), grown)
    well = off.well_since(on)
    if well is not None:
        most = min(most, step_back(record, well), gentle_seconds(Illness.FEVER if off.eases(on) else Illness.COMMON))
    return most


def step_back(record: Record, well: int) -> int:
    """Most seconds of a session in the first days from the day *well* on, when an illness is over: a part of a usual
    one before it, in whole minutes; ten minutes are asked for again if they were done."""
    done = [each.seconds for each in record.outings[: bisect_left(record.days_out, well)]][-USUAL:]
    usual = int(median(done)) if done else FIRST_SESSION
    return max(usual * percent_back() // 100, min(usual, LEAST * 60)) // 60 * 60
