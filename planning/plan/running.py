"""How much of a week is run: when running enters, which rung of the ladder, how many seconds on which day."""

from dataclasses import dataclass

from planning.limits.care import is_heavy, is_over_30
from planning.limits.ceilings import grow_run_week, seconds_of
from planning.limits.record import Record
from planning.limits.running import FIRST_RUNNING, STRIDE, STRIDES
from planning.plan.aim import WINDOW, lately
from planning.plan.frame import Frame
from planning.plan.ladder import FIRST_RUN, fit_runs, ladder, rung_of

MAIN_DAYS = 3
LAST_RUNG_FIRST_WEEKS = 2
"""Weeks without a climb for somebody who jogs from the start."""


@dataclass(frozen=True, slots=True)
class RunDose:
    """Running of one week: most seconds of a session, seconds of one run, on which weekdays."""

    most: int
    rep: int
    days: tuple[int, ...]


NONE = RunDose(0, 0, ())


def walked_enough(frame: Frame, record: Record, number: int) -> bool:
    """Both weeks before held walks of 30 minutes on three days, or on all if fewer are given."""
    wanted = min(MAIN_DAYS, frame.count)
    weeks = (number - 1, number - 2)
    recent = [each for each in record.back(frame.day(number, 0), 14) if each.walks_thirty]
    return (
        all(sum(record.number(each.on) == week for each in recent) >= wanted for week in weeks if week > 0)
        and number > 2
    )


def first_rep(jog: int) -> int:
    """Seconds of the first run: half of what the person can surely jog, at least the first rung."""
    return ladder()[max(0, rung_of(max(FIRST_RUN, jog // 2)))].run


def next_rep(frame: Frame, record: Record, number: int, growing: bool) -> int:
    """Seconds of one run in this week: the rung that was held, or the next one."""
    jog = seconds_of(frame.profile.jog_min)
    held = max((each.rep for each in lately(record, frame.day(number, 0)) if each.rep > STRIDE), default=0)
    if not held:
        return first_rep(jog if number <= 4 else 0)
    slow = is_over_30(frame.profile) and number % 2
    climbs = growing and not slow and number > LAST_RUNG_FIRST_WEEKS
    return ladder()[min(rung_of(held) + climbs, len(ladder()) - 1)].run


def run_dose(frame: Frame, record: Record, number: int, kind_growth: int, days: tuple[int, ...]) -> RunDose:
    """What may be run in week *number* on *days*. *kind_growth*: 1 growing, 0 holding, -1 easier."""
    jog = seconds_of(frame.profile.jog_min)
    jog = jog if jog >= FIRST_RUN else 0
    monday = frame.day(number, 0)
    recent = lately(record, monday)
    best = max((each.run for each in recent), default=0)
    fresh = all(each.rep <= STRIDE for each in recent)
    said = jog if monday - frame.begin < WINDOW else 0
    if not (frame.may_run and days) or (fresh and not said and not walked_enough(frame, record, number)):
        return NONE
    base = max(best, said)
    week = record.run_week(number)
    if number <= 1:
        most, week = said, grow_run_week(week)
    elif kind_growth > 0:
        most, week = base + max(base // 10, frame.run_step), grow_run_week(week)
    else:
        most, week = (base if kind_growth == 0 else base * 3 // 4), max(week, STRIDES)
    if is_over_30(frame.profile) and (fresh or number <= 1):
        week = min(week, FIRST_RUNNING)
    most = min(most, week // len(days))
    rep = next_rep(frame, record, number, kind_growth > 0)
    if most < FIRST_RUN:
        return NONE
    return RunDose(most, rep if rep <= most else ladder()[rung_of(most)].run, days)


def run_of(dose: RunDose, weekday: int, seconds: int) -> tuple[int, int]:
    """Seconds of running and of one run in the session of *seconds* on *weekday*."""
    if weekday not in dose.days:
        return 0, 0
    count = fit_runs(seconds, dose.rep, dose.most)
    return (count * dose.rep, dose.rep) if count else (0, 0)


def strides_day(frame: Frame, record: Record, number: int, lengths: dict[int, int]) -> int | None:
    """Weekday of a walk with six short jogs before running enters: the fourth, so that the others stay plain."""
    if any(each.rep > STRIDE for each in lately(record, frame.day(number, 0))):
        return None
    if number < MAIN_DAYS or frame.count <= MAIN_DAYS or is_heavy(frame.profile) or not frame.may_run:
        return None
    day = frame.order[-1]
    return day if lengths.get(day, 0) >= 10 else None
