"""The weeks of a whole way in order, from the first day or from today on."""

from dataclasses import dataclass, field

from planning.limits.ceilings import (
    FIRST_SESSION,
    FIRST_WEEK,
    first_week,
    grow_run,
    grow_run_week,
    grow_session,
    grow_week,
)
from planning.limits.record import Outing
from planning.limits.rule import measure
from planning.plan.aim import Way, WeekAim, ground_of
from planning.plan.frame import Frame
from planning.plan.goal import Goal
from planning.plan.happened import Happened
from planning.plan.milestone import take_in
from planning.plan.off import Off
from planning.plan.onward import is_due_easier, outings_of, week_aim
from planning.plan.pasts import past_weeks
from planning.plan.running import Trend
from planning.plan.tail import after_race, before_race, draw_quotas
from planning.terms.choices import Purpose, WeekKind
from planning.terms.person import Race
from planning.terms.plan import Session


@dataclass(slots=True)
class Journey:
    """A way with what was changed on it: sessions by ordinal that people *chose*, races that were *left* out."""

    way: Way
    chosen: dict[int, Session] = field(default_factory=dict)
    left: list[Race] = field(default_factory=list)


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


def travel(frame: Frame, goal: Goal, milestones: tuple[Race, ...], happened: Happened | None = None) -> Journey:
    """All weeks to the *goal*; after what has *happened*, only those that may still change."""
    way = Way(frame, goal, frame.record(happened.cut if happened else 0))
    journey = Journey(way)
    first = 0 if frame.begin < frame.monday else 1
    if happened:
        first = max(first, way.record.number(happened.cut))
        way.record.add(happened.outings)
        way.off = happened.off
        past = past_weeks(happened)
        way.kinds = {each.number: each.kind for each in past if each.number < first}
        way.raced = frozenset(raced_before(happened))
        way.planned = {each.number: each.seconds for each in past}
    for number in range(first, goal.stop + 1):
        for race in milestones:
            keep_eve_free(way, race, number)
            if way.record.number(race.on.toordinal()) == number and not (
                is_tail(goal, number) or take_in(way, race, number)
            ):
                journey.left.append(race)
        week = next_week(way, number)
        if happened:
            way.note(still_open(journey, week, happened))
        else:
            way.take(week)
    known = {each.on.toordinal() for each in journey.left} | set(way.races)
    journey.left += [each for each in milestones if each.on.toordinal() not in known | way.raced]
    return journey


def raced_before(happened: Happened) -> list[int]:
    """Ordinals of the races that are over."""
    races = [each.on.toordinal() for each in happened.before.sessions if each.purpose is Purpose.RACE]
    return [each for each in races if each < happened.cut]


def keep_eve_free(way: Way, race: Race, number: int) -> None:
    """No running and no long session at the end of week *number* when *race* is on the Monday after it."""
    eve = race.on.toordinal() - 1
    if eve == way.frame.day(number, 6) and not is_due_easier(way, number):
        way.off = Off(way.off.closed, (*way.off.walking, (eve, eve)))
        way.barred = (*way.barred, eve)


def is_tail(goal: Goal, number: int) -> bool:
    """The week lies after the longest session."""
    return goal.peak is not None and number > goal.peak


def still_open(journey: Journey, week: WeekAim, happened: Happened) -> WeekAim:
    """What of *week* may still change: days from the cut on, with the changes that people made; put on record."""
    way = journey.way
    outings = {each.on: each for each in week.outings if each.on >= happened.cut}
    for each in happened.fixed:
        if way.record.number(each.on.toordinal()) == week.number:
            outings.pop(each.on.toordinal(), None)
        if each.session and way.record.number(each.session.on.toordinal()) == week.number:
            outings[each.session.on.toordinal()] = measure(each.session)
            journey.chosen[each.session.on.toordinal()] = each.session
    kept: list[Outing] = []
    for on in sorted(outings):
        left = left_for(way, week.number, on)
        outing = outings[on] if on in journey.chosen else clamped(way, outings[on], left)
        if outing.seconds:
            kept.append(outing)
            way.record.add([outing])
    return WeekAim(week.number, week.kind, tuple(kept))


@dataclass(frozen=True, slots=True)
class Left:
    """Seconds, and seconds of running, that a week may still hold."""

    seconds: int
    run: int


def left_for(way: Way, number: int, on: int) -> Left:
    """What week *number* may still hold on the day *on*, after what is on record of it."""
    record = way.record
    done, run = record.totals.get(number, 0), record.runs.get(number, 0)
    if number < 2:
        done = sum(record.totals.get(each, 0) for each in (0, 1))
        return Left(first_week(way.frame.profile) - done, grow_run_week(record.run_week(number, on)) - run)
    start = next((each for each in record.days_out[-7:] if each >= way.frame.day(number, 0)), on)
    most = FIRST_WEEK if record.is_new_start(start) else grow_week(record.highest_week(number, start))
    return Left(most - done, grow_run_week(record.run_week(number, start)) - run)


def clamped(way: Way, outing: Outing, left: Left) -> Outing:
    """*outing* within what the days before it leave: shorter if the plan was not kept, walked after a day with runs."""
    record = way.record
    longest = FIRST_SESSION if record.is_new_start(outing.on) else grow_session(record.longest(outing.on))
    most = min(longest, left.seconds)
    seconds = outing.seconds if outing.seconds <= most else max(0, most // 60 * 60)
    last = record.outings[-1] if record.outings else None
    tired = last is not None and last.run > 0 and outing.on - last.on <= 1
    whole = seconds == outing.seconds and outing.run <= min(left.run, grow_run(record.best_run(outing.on)))
    if outing.run and whole and not tired:
        return outing
    return Outing(outing.on, seconds, 0, 0, outing.bout, outing.long)
