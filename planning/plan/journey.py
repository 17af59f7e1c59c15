"""The weeks of a whole way in order, from the first day or from today on."""

from planning.limits.ceilings import first_week
from planning.plan.aim import Way, WeekAim, ground_of
from planning.plan.frame import Frame
from planning.plan.goal import Goal
from planning.plan.happened import Happened
from planning.plan.milestone import keep_eve_free, keep_free_around, look_ahead, take_in
from planning.plan.onward import outings_of, week_aim
from planning.plan.pasts import last_days, past_weeks, raced_before
from planning.plan.running import Trend
from planning.plan.still_open import still_open
from planning.plan.tail import after_race, before_race, draw_quotas
from planning.terms.choices import WeekKind
from planning.terms.person import Race


def week_zero(way: Way) -> WeekAim:
    """The days up to the first Monday: as many sessions as the first 100 minutes leave room for beside week 1.

    A race that near gets the days before its eve alone.
    """
    frame, race = way.frame, way.goal.race
    left = (first_week(frame.profile) // 60 - frame.minutes * frame.count) // frame.minutes
    last = frame.monday if race is None else race - 1
    ground = ground_of(way, 0)
    days = [each for each in sorted(ground.open) if frame.begin <= frame.day(0, each) < last][: max(0, left)]
    return WeekAim(0, WeekKind.START, outings_of(way, ground, dict.fromkeys(days, frame.minutes), Trend.GROWING))


def next_week(way: Way, number: int) -> WeekAim:
    """Week *number*, whichever part of the way it belongs to."""
    goal = way.goal
    if number < 1:
        return week_zero(way)
    if goal.race is None or goal.peak is None or number <= min(goal.peak, goal.stop - 1):
        return week_aim(way, number)
    return before_race(way, number, draw_quotas(way)) if number < goal.stop else after_race(way, number)


def travel(frame: Frame, goal: Goal, milestones: tuple[Race, ...], happened: Happened | None = None) -> Way:
    """All weeks to the *goal*; after what has *happened*, only those that may still change."""
    way = Way(frame, goal, frame.record(happened.cut if happened else 0))
    first = 0 if frame.begin < frame.monday else 1
    if happened:
        first = max(first, way.record.number(happened.cut))
        way.record.add(happened.outings)
        way.off = happened.off
        past = past_weeks(happened)
        way.kinds = {each.number: each.kind for each in past if each.number < first}
        for raced in raced_before(happened):
            keep_free_around(way, raced)
        way.paused = happened.paused(frame.monday)
        way.planned = {each.number: each.seconds for each in past}
        way.stood = last_days(past)
    for number in range(first, goal.stop + 1):
        look_ahead(way, milestones, number)
        for race in milestones:
            keep_eve_free(way, race, number)
            if way.record.number(race.on.toordinal()) == number and not (
                is_tail(goal, number) or take_in(way, race, number)
            ):
                way.left.append(race)
        week = next_week(way, number)
        if happened:
            way.note(still_open(way, week, happened))
        else:
            way.take(week)
    known = {each.on.toordinal() for each in way.left} | set(way.races)
    way.left += [each for each in milestones if each.on.toordinal() not in known | way.raced]
    return way


def is_tail(goal: Goal, number: int) -> bool:
    """The week lies after the longest session."""
    return goal.peak is not None and number > goal.peak
