"""Running: how it enters, how it grows, and on which days it may stand."""

import itertools
from collections.abc import Iterator
from datetime import date

from planning.limits.care import is_heavy, is_over_30
from planning.limits.ceilings import grow_run, grow_run_week
from planning.limits.record import RUN, Outing
from planning.limits.rule import Case, Rule
from planning.terms.choices import Purpose

Places = Iterator[tuple[date, float, float]]
STRIDE = 20
STRIDES = 6 * STRIDE
"""Seconds of slow jogging that a week of walking may hold from week 3 on, below BMI 35 (common practice)."""
FIRST_RUNNING = 14 * 60
"""Seconds of running in the first running week above BMI 30: under 3 km at any speed below 12.8 km/h
(Nielsen et al. 2014, Int J Sports Phys Ther 9:338)."""


def first_running(case: Case) -> Outing | None:
    """The outing that makes its week one with running: more than strides; None if there is no such week."""
    record, done = case.record, dict.fromkeys(case.record.runs, 0)
    for each in record.outings:
        if each.run:
            number = record.number(each.on)
            done[number] += each.run
            if each.rep > STRIDE or done[number] > STRIDES:
                return each
    return None


def may_enter(case: Case, number: int) -> bool:
    """Two weeks before *number* held walks of 30 minutes on three days, or on all days if fewer are given."""
    wanted = min(3, len(case.profile.days))
    walks: dict[int, set[int]] = {}
    for each in case.record.outings:
        if each.walks_thirty and case.record.number(each.on) < number:
            walks.setdefault(case.record.number(each.on), set()).add(each.on)
    return sum(len(days) >= wanted for days in walks.values()) >= 2


def runs_too_soon(case: Case) -> Places:
    """Running enters after two weeks of 30-minute walks, or from the start for somebody who can jog."""
    first = None if case.profile.jog_min else first_running(case)
    if first is None or may_enter(case, case.record.number(first.on)):
        return
    on = date.fromordinal(first.on)
    if on >= case.since:
        yield on, case.record.number(first.on), 0


def strides_too_soon(case: Case) -> Places:
    """Before running enters up to 6 x 20 s a week, from week 3 on, below BMI 35."""
    if case.profile.jog_min:
        return
    first = first_running(case)
    for session, outing in case.training:
        number = case.record.number(outing.on)
        if first and number >= case.record.number(first.on):
            return
        if outing.run and (number < 3 or is_heavy(case.profile) or outing.rep > STRIDE):
            yield session.on, outing.rep, STRIDE


def run_grows_too_fast(case: Case) -> Places:
    """Running of a session stays within 10 % or 3 minutes above the best of the 30 days before."""
    for session, outing in case.training:
        if not outing.run or case.record.is_small_step(outing.on, outing.run, RUN, grow_run):
            continue
        allowed = grow_run(case.record.best_run(outing.on))
        if outing.run > allowed:
            yield session.on, outing.run, allowed


def run_week_grows_too_fast(case: Case) -> Places:
    """Running of a week stays within 30 % or 10 minutes above the higher of the two weeks before."""
    for week in case.weeks:
        allowed = grow_run_week(case.record.run_week(week.number, case.first_day(week)))
        total = case.record.runs.get(week.number, 0)
        if total > allowed and case.ahead(week)[1]:
            yield week.monday, total, allowed


def runs_on_days_in_a_row(case: Case) -> Places:
    """No running on days in a row, for nobody: stricter than needed below BMI 30, under 60, after 12 weeks."""
    races = [each.on.toordinal() for each in case.sessions if each.purpose is Purpose.RACE and each.run_seconds]
    days = sorted([*races, *[each.on for each in case.record.outings if each.run]])
    for before, after in itertools.pairwise(days):
        if after - before < 2 and after >= case.since.toordinal():
            yield date.fromordinal(after), after - before, 2


def first_running_week_too_far(case: Case) -> Places:
    """Above BMI 30 the first running week holds under 3 km of running."""
    first = next((number for number, seconds in sorted(case.record.runs.items()) if seconds), None)
    if first is None or not is_over_30(case.profile):
        return
    total = case.record.runs[first]
    for week in case.weeks:
        if week.number == first and total > FIRST_RUNNING and case.ahead(week)[1]:
            yield week.monday, total, FIRST_RUNNING


NIELSEN = "Nielsen et al. 2014, JOSPT 44:739"
RULES = (
    Rule("run_entry", "two weeks of walking first: common practice, no source", runs_too_soon),
    Rule("strides", "common practice, no source", strides_too_soon),
    Rule("run_growth", "Frandsen et al. 2025, Br J Sports Med 59:1203", run_grows_too_fast),
    Rule("run_week_growth", NIELSEN, run_week_grows_too_fast),
    Rule("run_days", "a rest day between: common practice, no source", runs_on_days_in_a_row),
    Rule("first_running", "Nielsen et al. 2014, Int J Sports Phys Ther 9:338", first_running_week_too_far),
)
