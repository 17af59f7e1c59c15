"""How the way meets its race: the longest session before it, and the first date on which that is enough."""

from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache

from planning.limits.racing import longest_wanted
from planning.limits.record import Outing
from planning.plan.aim import Way
from planning.plan.dates import Readiness, expects, first_fit, is_too_far, longest_of, readiness
from planning.plan.frame import Frame, draw_frame
from planning.plan.goal import Goal, race_goal
from planning.plan.happened import Happened
from planning.plan.journey import travel
from planning.plan.paces import meets_cutoff
from planning.terms.choices import RaceMode
from planning.terms.person import Profile, Race

REHEARSED = 28
"""Days before the race whose longest session says what was rehearsed."""
LATER = 4
"""Weeks by which the first race date may lie behind the one that was scouted."""


@dataclass(frozen=True, slots=True)
class Arrival:
    """How a journey meets its race: the longest session before it, expected minutes, and whether that is enough."""

    way: Way
    long: Outing | None
    expected: int
    enough: bool


def arrive(frame: Frame, race: Race, goal: Goal, milestones: tuple[Race, ...], happened: Happened | None) -> Arrival:
    """The journey to *race* by the way to its *goal*."""
    way = travel(frame, goal, milestones, happened)
    on = race.on.toordinal()
    long = longest_of(tuple(each for each in way.record.outings if on - REHEARSED <= each.on < on))
    expected = expects(frame, race.km, long)
    return Arrival(way, long, expected, long is not None and long.seconds >= longest_wanted(expected, race.mode))


def best_arrival(
    frame: Frame, race: Race, ready: Readiness, milestones: tuple[Race, ...], happened: Happened | None
) -> Arrival:
    """The journey that meets *race* best: with a longer longest session if the first is too short, and without the
    shorter races if they cost too much."""
    goal = race_goal(frame, race, ready.aim, ready.steady)
    found = arrive(frame, race, goal, milestones, happened)
    while ready.week is not None and not found.enough:
        wanted = -(-longest_wanted(found.expected, race.mode) // 60)
        if wanted <= goal.aim:
            break
        goal = replace(goal, aim=wanted)
        found = arrive(frame, race, goal, milestones, happened)
    if found.enough or not found.way.races or ready.week is None:
        return found
    plain = arrive(frame, race, goal, (), happened)
    plain.way.left.extend(milestones)
    return plain if plain.enough else found


def meets(found: Arrival, race: Race) -> bool:
    """The longest session is long enough, and the organiser's limit leaves room."""
    return found.enough and meets_cutoff(found.expected, race.cutoff_min)


@lru_cache(maxsize=1024)
def ready(profile: Profile, km: float, mode: RaceMode, cutoff_min: int | None) -> Readiness:
    """When this person is ready for a race of *km*; kept, as every re-plan asks again.

    The way to a race differs a little from the one that was scouted (easier weeks lie around the longest session): the
    first date that is tried and fits counts.
    """
    frame = draw_frame(profile)
    found = readiness(frame, km, mode, cutoff_min)
    if is_too_far(frame, km) or not frame.may_grow or found.week is None:
        return Readiness(None, found.aim, km)
    for week in range(found.week, found.week + LATER):
        later = replace(found, week=week)
        race = Race(date.fromordinal(first_fit(frame, week)), km, mode, cutoff_min)
        if meets(best_arrival(frame, race, later, (), None), race):
            return later
    return found


def ready_for(frame: Frame, race: Race) -> Readiness:
    """When this person is ready for the distance, mode and limit of *race*, wherever its date lies."""
    return ready(frame.profile, race.km, race.mode, race.cutoff_min)
