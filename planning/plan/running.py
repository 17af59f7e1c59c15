"""How much of a week is run: when running enters, which rung of the ladder, how many seconds on which day."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import IntEnum
from functools import cache

from planning.limits.ceilings import grow_run_week
from planning.limits.running import FIRST_RUNNING, STRIDE, STRIDES
from planning.plan.aim import Ground
from planning.plan.frame import Frame
from planning.plan.ladder import FIRST_RUN, fit_runs, ladder, rung_of

MAIN_DAYS = 3
NEARLY = 90
"""Percent of the running that there is room for that are as good as all of it."""
NO_CLIMB = 2
"""Weeks without a climb for somebody who jogs from the start."""


class Trend(IntEnum):
    """Which way a week goes."""

    EASIER = -1
    LEVEL = 0
    GROWING = 1


@dataclass(frozen=True, slots=True)
class RunDose:
    """Running of one week: most seconds of a session, seconds of one run, on which weekdays."""

    most: int
    rep: int
    days: tuple[int, ...]


NONE = RunDose(0, 0, ())


def first_rep(jog: int) -> int:
    """Seconds of the first run: half of what the person can surely jog, at least the first rung."""
    return ladder()[max(0, rung_of(max(FIRST_RUN, jog // 2)))].run


def next_rep(frame: Frame, ground: Ground, trend: Trend) -> int:
    """Seconds of one run in this week: the rung that was held, or the next one."""
    if ground.rep <= STRIDE:
        return first_rep(ground.jog)
    slow = frame.over_30 and ground.number % 2
    climbs = trend is Trend.GROWING and not slow and ground.number > NO_CLIMB
    return ladder()[min(max(0, rung_of(ground.rep)) + climbs, len(ladder()) - 1)].run


def most_running(frame: Frame, ground: Ground, trend: Trend, said: int) -> tuple[int, int]:
    """Most seconds of running in a session and in the week. *said*: what can surely be jogged, 0 once it is too old."""
    base = max(ground.best, said)
    if ground.number <= 1:
        session, week = max(FIRST_RUN, said // 2), grow_run_week(ground.runs)
    elif trend is Trend.GROWING:
        session, week = base + max(base // 10, frame.run_step), grow_run_week(ground.runs)
    else:
        session, week = (base if trend is Trend.LEVEL else base * 3 // 4), max(ground.runs, STRIDES)
    if ground.best:
        session = min(session, max(ground.best * 2, ground.best + frame.run_step))
    if ground.tried is not None:
        session = min(session, ground.tried * NEARLY // 100)
    if frame.over_30 and (ground.rep <= STRIDE or ground.number <= 1):
        week = min(week, FIRST_RUNNING)
    return session, week


def run_dose(frame: Frame, ground: Ground, trend: Trend, days: tuple[int, ...]) -> RunDose:
    """What may be run in a week on *days*."""
    said = ground.jog if ground.jog >= FIRST_RUN else 0
    fresh = ground.rep <= STRIDE
    if not (frame.may_run and days) or (fresh and not said and not ground.walks):
        return NONE
    session, week = most_running(frame, ground, trend, said)
    most = min(session, week // len(days))
    if most < FIRST_RUN:
        return NONE
    rep = next_rep(frame, ground, trend)
    return RunDose(most, rep if rep <= most else ladder()[rung_of(most)].run, days)


def run_of(dose: RunDose, weekday: int, seconds: int) -> tuple[int, int]:
    """Seconds of running and of one run in the session of *seconds* on *weekday*."""
    if weekday not in dose.days:
        return 0, 0
    count = fit_runs(seconds, dose.rep, dose.most)
    return (count * dose.rep, dose.rep) if count > 1 else fullest_runs(seconds, dose.rep, dose.most)


@cache
def fullest_runs(seconds: int, rep: int, most: int) -> tuple[int, int]:
    """Seconds of running and of one run where a run of *rep* seconds fits once at most into a session of *seconds*: the
    longest runs up to that long that use most of *most*."""
    fits = [(fit_runs(seconds, each.run, most) * each.run, each.run) for each in ladder()[: rung_of(rep) + 1]]
    enough = max(max(fits)[0] * NEARLY // 100, 1)
    return max([each for each in fits if each[0] >= enough], key=lambda each: each[1], default=(0, 0))


def strides_day(frame: Frame, ground: Ground, lengths: Mapping[int, int]) -> int | None:
    """Weekday of a walk with six short jogs before running enters: the fourth, so that the others stay plain."""
    early = ground.number < MAIN_DAYS or ground.rep > STRIDE or ground.outings < 2 * MAIN_DAYS
    if early or frame.count <= MAIN_DAYS or frame.heavy or not frame.may_run:
        return None
    day = frame.order[-1]
    return day if lengths.get(day, 0) >= 10 else None
