"""The whole way from no base to the race, joined from its parts; it ends in the check of every limit."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from planning.errors import LimitBroken
from planning.limits import NO_PAST, Past, check
from planning.plan.aim import Way
from planning.plan.arrive import best_arrival, meets, ready_for
from planning.plan.dates import SPARE_DAYS, Readiness, first_fit, readiness
from planning.plan.frame import Frame, draw_frame
from planning.plan.goal import Goal, week_of
from planning.plan.happened import Happened
from planning.plan.journey import travel
from planning.plan.pasts import join_past
from planning.plan.race_day import draw_race_day, race_session
from planning.plan.warnings import Found, Warn, screening_of, warn
from planning.plan.write import write_races, write_week
from planning.terms.choices import RaceMode
from planning.terms.person import Profile, Race
from planning.terms.plan import Plan, Session, Week

HALF_KM = 21.0975
STEP_KM = 10
AFTER_EARLIEST = 14
"""Days of the plan beyond the earliest race, when none was chosen."""
LONGEST_WAY = 12
"""Weeks of a plan that leads to no race at all."""


def write_weeks(way: Way, race: Session | None, happened: Happened | None) -> tuple[Week, ...]:
    """All weeks written out after the past ones; week 0 is left out when it holds no session."""
    races = (*write_races(way), *([race] if race else []))
    weeks = [write_week(way, each, races) for each in way.weeks]
    if happened:
        weeks = join_past(happened, weeks)
    return tuple(each for each in weeks if each.number or each.sessions)


def earliest_for(frame: Frame, ready: Readiness, happened: Happened | None) -> date | None:
    """The first sensible race date, with weeks to spare; later than at first if the way has lost time."""
    if ready.week is None:
        return None
    first = date.fromordinal(first_fit(frame, ready.week) + SPARE_DAYS)
    if happened is None or happened.as_planned:
        return first if happened is None else happened.before.earliest_race or first
    race = frame.profile.race
    km, mode, cutoff = (race.km, race.mode, race.cutoff_min) if race else (ready.km, RaceMode.RUN_WALK, None)
    now = readiness(frame, km, mode, cutoff, happened)
    later = [] if now.week is None else [date.fromordinal(first_fit(frame, now.week) + SPARE_DAYS)]
    return max([first, happened.before.earliest_race or first, *later])


def plan_for_race(frame: Frame, race: Race, happened: Happened | None = None) -> Plan:
    """The plan that ends with *race* and the week after it."""
    ready = ready_for(frame, race)
    found = best_arrival(frame, race, ready, frame.profile.milestones, happened)
    goal = found.way.goal
    kept = happened is not None and happened.before.fits
    in_time = ready.week is not None and (kept or (goal.peak or 0) >= ready.week)
    fits = in_time and meets(found, race)
    earliest = happened.before.earliest_race if fits and happened else earliest_for(frame, ready, happened)
    session = race_session(race.on, frame.at[race.on.weekday()], found.expected, found.long)
    return Plan(
        who=frame.profile.who,
        begin=frame.profile.begin,
        may_start=True,
        fits=fits,
        earliest_race=earliest,
        weeks=write_weeks(found.way, session, happened),
        race_day=draw_race_day(race, found.expected, found.long),
        warnings=warn(frame, Found(race, fits, earliest, found.expected, bool(found.way.left))),
    )


def open_goal(frame: Frame) -> Readiness:
    """The farthest distance that this person's days allow: a half marathon, else 10 km."""
    half = ready_for(frame, Race(frame.profile.begin, HALF_KM))
    return half if half.week is not None else ready_for(frame, Race(frame.profile.begin, STEP_KM))


def plan_without_race(frame: Frame, happened: Happened | None = None) -> Plan:
    """The plan up to two weeks past the earliest sensible race."""
    ready = open_goal(frame)
    earliest = earliest_for(frame, ready, happened)
    stop = week_of(frame.profile, earliest.toordinal() + AFTER_EARLIEST) if earliest else LONGEST_WAY
    if happened:
        now = week_of(frame.profile, happened.cut)
        stop = stop if now <= stop else now + 2
    way = travel(frame, Goal(aim=ready.aim, stop=stop), frame.profile.milestones, happened)
    return Plan(
        who=frame.profile.who,
        begin=frame.profile.begin,
        may_start=True,
        fits=True,
        earliest_race=earliest,
        weeks=write_weeks(way, None, happened),
        warnings=warn(frame, Found(None, True, earliest, 0, bool(way.left))),
    )


def build_plan(profile: Profile) -> Plan:
    """The whole plan for *profile*, from its first day to the week after the race.

    Every limit holds in it. Should one ever be broken, the next more careful plan is given instead, with a warning.
    """
    barred = screening_of(profile)
    if barred:
        return Plan(profile.who, profile.begin, False, profile.race is None, None, (), warnings=barred)
    plans = (plan_in(frame) for frame in more_and_more_careful(draw_frame(profile)))
    return first_safe(plans, profile, NO_PAST) or nothing_planned(profile)


def plan_in(frame: Frame, happened: Happened | None = None) -> Plan:
    """The plan of one frame, not yet checked."""
    race = frame.profile.race
    return plan_for_race(frame, race, happened) if race else plan_without_race(frame, happened)


def more_and_more_careful(frame: Frame) -> tuple[Frame, ...]:
    """*frame*, then walking alone, then walking that does not grow."""
    walking = replace(frame, may_run=False)
    return frame, walking, replace(walking, may_grow=False)


def first_safe(plans: Iterable[Plan], profile: Profile, past: Past) -> Plan | None:
    """The first of *plans*, the least careful first, that keeps every limit; a later one says so."""
    for index, plan in enumerate(plans):
        try:
            checked = keeping_limits(plan, profile, past)
        except LimitBroken:
            continue
        return replace(checked, warnings=(*checked.warnings, Warn.KEPT_SMALL)) if index else checked
    return None


def keeping_limits(plan: Plan, profile: Profile, past: Past) -> Plan:
    """*plan* as it is. Raises `LimitBroken` if it breaks a limit."""
    breaches = check(plan, profile, past)
    if breaches:
        raise LimitBroken(breaches)
    return plan


def nothing_planned(profile: Profile) -> Plan:
    """The plan that is always safe: no session, until somebody has looked."""
    return Plan(profile.who, profile.begin, True, profile.race is None, None, (), warnings=(Warn.KEPT_SMALL,))
