"""The weeks of a whole way in order, from the first day or from today on."""

from dataclasses import dataclass, field

from planning.limits.ceilings import first_week, grow_week
from planning.limits.record import Outing
from planning.limits.rule import measure
from planning.plan.aim import Way, WeekAim, ground_of
from planning.plan.frame import Frame
from planning.plan.goal import Goal
from planning.plan.happened import Happened
from planning.plan.milestone import take_in
from planning.plan.onward import outings_of, week_aim
from planning.plan.running import Trend
from planning.plan.tail import after_race, before_race, draw_quotas
from planning.terms.choices import WeekKind
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
        way.kinds = {each.number: each.kind for each in happened.before.weeks if each.number < first}
    for number in range(first, goal.stop + 1):
        for race in milestones:
            if way.record.number(race.on.toordinal()) == number and not (
                is_tail(goal, number) or take_in(way, race, number)
            ):
                journey.left.append(race)
        way.take(still_open(journey, next_week(way, number), happened))
    known = {each.on.toordinal() for each in journey.left} | set(way.races)
    journey.left += [each for each in milestones if each.on.toordinal() not in known and not is_over(each, happened)]
    return journey


def is_over(race: Race, happened: Happened | None) -> bool:
    """The race lies before all that may still change."""
    return happened is not None and race.on.toordinal() < happened.cut


def is_tail(goal: Goal, number: int) -> bool:
    """The week lies after the longest session."""
    return goal.peak is not None and number > goal.peak


def still_open(journey: Journey, week: WeekAim, happened: Happened | None) -> WeekAim:
    """What of *week* may still change: days from the cut on, with the changes that people made."""
    if happened is None:
        return week
    way = journey.way
    outings = {each.on: each for each in week.outings if each.on >= happened.cut}
    for each in happened.fixed:
        if way.record.number(each.on.toordinal()) == week.number:
            outings.pop(each.on.toordinal(), None)
        if each.session and way.record.number(each.session.on.toordinal()) == week.number:
            outings[each.session.on.toordinal()] = measure(each.session)
            journey.chosen[each.session.on.toordinal()] = each.session
    room = room_left(way, week.number)
    kept: list[Outing] = []
    for on in sorted(outings):
        outing = calmed(way, outings[on], kept, on in journey.chosen)
        if outing.seconds <= room or on in journey.chosen:
            kept.append(outing)
            room -= outing.seconds
    return WeekAim(week.number, week.kind, tuple(kept))


def room_left(way: Way, number: int) -> int:
    """Seconds that week *number* may still hold after what was done in it."""
    if number < 2:
        return first_week(way.frame.profile) - sum(way.record.totals.get(each, 0) for each in (0, 1))
    ground = ground_of(way, number)
    most = first_week(way.frame.profile) if ground.anew else grow_week(ground.highest)
    return most - way.record.totals.get(number, 0)


def calmed(way: Way, outing: Outing, kept: list[Outing], chosen: bool) -> Outing:
    """*outing* without running if the day before held some."""
    last = kept[-1] if kept else way.record.outings[-1] if way.record.outings else None
    if chosen or not outing.run or last is None or not last.run or outing.on - last.on > 1:
        return outing
    return Outing(outing.on, outing.seconds, 0, 0, outing.bout, outing.long)
