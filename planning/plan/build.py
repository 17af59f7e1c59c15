"""The whole way from no base to the race, joined from its parts; it ends in the check of every limit."""

from datetime import date

from planning.errors import LimitBroken
from planning.limits import check
from planning.limits.ceilings import first_week
from planning.limits.racing import longest_wanted
from planning.limits.record import Outing
from planning.plan.aim import Way, WeekAim, ground_of
from planning.plan.dates import SPARE_DAYS, Readiness, expects, first_fit, longest_of, ready_for
from planning.plan.frame import Frame, draw_frame
from planning.plan.goal import Goal, peak_week, race_goal, week_of
from planning.plan.onward import outings_of, week_aim
from planning.plan.paces import meets_cutoff
from planning.plan.race_day import draw_race_day, race_session
from planning.plan.running import Trend
from planning.plan.tail import after_race, before_race, draw_quotas
from planning.plan.warnings import screening_of, warn
from planning.plan.write import write_week
from planning.terms.choices import WeekKind
from planning.terms.person import Profile, Race
from planning.terms.plan import Plan, Session, Week

HALF_KM = 21.0975
STEP_KM = 10
AFTER_EARLIEST = 14
"""Days of the plan beyond the earliest race, when none was chosen."""
LONGEST_WAY = 12
"""Weeks of a plan that leads to no race at all."""


def week_zero(way: Way) -> WeekAim:
    """The days up to the first Monday: as many sessions as the first 100 minutes leave room for beside week 1.

    A race that near gets the days before its eve alone.
    """
    frame, race = way.frame, way.goal.race
    left = (first_week(frame.profile) // 60 - frame.minutes * frame.count) // frame.minutes
    last = frame.monday if race is None else race - 1
    days = [each for each in frame.used if frame.begin <= frame.day(0, each) < last][: max(0, left)]
    outings = outings_of(way, ground_of(way, 0), dict.fromkeys(days, frame.minutes), Trend.GROWING)
    return WeekAim(0, WeekKind.START, outings)


def walk_way(way: Way) -> Way:
    """All weeks to the goal and the one after it, or to the last week asked for."""
    goal, frame = way.goal, way.frame
    if frame.begin < frame.monday:
        way.take(week_zero(way))
    peak = goal.stop if goal.peak is None else goal.peak
    for number in range(1, min(peak, goal.stop) + 1):
        way.take(week_aim(way, number))
    if goal.race is not None:
        quotas = draw_quotas(way)
        for number in range(max(1, peak + 1), goal.stop):
            way.take(before_race(way, number, quotas))
        way.take(after_race(way, goal.stop))
    return way


def write_weeks(way: Way, races: tuple[Session, ...] = ()) -> tuple[Week, ...]:
    """All weeks written out; week 0 is left out when it holds no session."""
    weeks = [write_week(way.frame, each, races) for each in way.weeks]
    return tuple(each for each in weeks if each.number or each.sessions)


def longest_before(way: Way, goal: Goal) -> Outing | None:
    """The longest outing of the four weeks before the race: what was rehearsed."""
    race = goal.race or 0
    return longest_of(tuple(each for each in way.record.outings if race - 28 <= each.on < race))


def walk_to(frame: Frame, race: Race, ready: Readiness) -> tuple[Way, Outing | None]:
    """The way to *race* and the longest session on it, walked again with a longer one if the first is too short."""
    aim = ready.aim
    while True:
        goal = race_goal(frame, race, aim)
        way = walk_way(Way(frame, goal, frame.record()))
        long = longest_before(way, goal)
        wanted = -(-longest_wanted(expects(frame, race.km, long), race.mode) // 60)
        if ready.week is None or (goal.peak or 0) < ready.week or wanted <= aim:
            return way, long
        aim = wanted


def plan_for_race(frame: Frame, race: Race) -> Plan:
    """The plan that ends with *race* and the week after it."""
    ready = ready_for(frame, race)
    way, long = walk_to(frame, race, ready)
    expected = expects(frame, race.km, long)
    enough = long is not None and long.seconds >= longest_wanted(expected, race.mode)
    peak = peak_week(frame, race.on.toordinal())
    in_time = ready.week is not None and peak >= ready.week
    fits = in_time and enough and meets_cutoff(expected, race.cutoff_min)
    earliest = None if ready.week is None else date.fromordinal(first_fit(frame, ready.week) + SPARE_DAYS)
    at = frame.at[race.on.weekday()]
    races = (race_session(race.on, at, expected, long),)
    return Plan(
        who=frame.profile.who,
        begin=frame.profile.begin,
        may_start=True,
        fits=fits,
        earliest_race=earliest,
        weeks=write_weeks(way, races),
        race_day=draw_race_day(race, expected, long),
        warnings=warn(frame, race, fits, earliest, expected),
    )


def open_goal(frame: Frame) -> Readiness:
    """The farthest distance that this person's days allow: a half marathon, else 10 km."""
    half = Race(frame.profile.begin, HALF_KM)
    ready = ready_for(frame, half)
    return ready if ready.week is not None else ready_for(frame, Race(frame.profile.begin, STEP_KM))


def plan_without_race(frame: Frame) -> Plan:
    """The plan up to two weeks past the earliest sensible race."""
    ready = open_goal(frame)
    if ready.week is None:
        earliest, stop = None, LONGEST_WAY
    else:
        earliest = first_fit(frame, ready.week) + SPARE_DAYS
        stop = week_of(frame.profile, earliest + AFTER_EARLIEST)
    way = walk_way(Way(frame, Goal(aim=ready.aim, stop=stop), frame.record()))
    return Plan(
        who=frame.profile.who,
        begin=frame.profile.begin,
        may_start=True,
        fits=True,
        earliest_race=None if earliest is None else date.fromordinal(earliest),
        weeks=write_weeks(way),
        warnings=warn(frame, None, True, None, 0),
    )


def build_plan(profile: Profile) -> Plan:
    """The whole plan for *profile*, from its first day to the week after the race.

    Every limit holds in it: `LimitBroken` would be a fault of this package, never of the profile.
    """
    barred = screening_of(profile)
    if barred:
        return Plan(profile.who, profile.begin, False, False, None, (), warnings=barred)
    frame = draw_frame(profile)
    plan = plan_for_race(frame, profile.race) if profile.race else plan_without_race(frame)
    breaches = check(plan, profile)
    if breaches:
        raise LimitBroken(breaches)
    return plan
