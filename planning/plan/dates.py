"""How long the way takes: the first week that is ready for a race, and the dates that follow from it."""

from dataclasses import dataclass

from planning.limits.racing import longest_wanted
from planning.limits.record import Outing
from planning.plan.aim import Way
from planning.plan.frame import Frame
from planning.plan.goal import GAP, PEAK_LAST, Goal, top_minutes
from planning.plan.happened import Happened
from planning.plan.onward import week_aim
from planning.plan.paces import expected_minutes, meets_cutoff, usual_paces
from planning.terms.choices import RaceMode, WeekKind
from planning.terms.person import Race

MOST_WEEKS = 160
SURE = 103
"""Percent of the expected time that counts for being ready: runs come in whole repeats, a few seconds more or less."""
STANDSTILL = 9
"""Weeks without any growth after which more weeks change nothing."""
SPARE_DAYS = 28
"""Four weeks in hand for illness, holidays and bad weather (common practice, no source)."""
ONE_DAY_KM = 10
"""With one day a week no race beyond this distance is prepared for (common practice, no source)."""
FARTHEST_KM = 22
"""Races beyond a half marathon are out of reach of these limits."""


@dataclass(frozen=True, slots=True)
class Readiness:
    """*week*: number of the first week that holds a session long enough for *km*, None if never; *aim*: its minutes.

    *steady*: it is running that makes it enough, no longer session: weeks of holding would lose it.
    """

    week: int | None
    aim: int
    km: float
    steady: bool = False


def is_too_far(frame: Frame, km: float) -> bool:
    """No number of weeks makes this distance safe: beyond the half marathon, or too far for one day a week."""
    return km > FARTHEST_KM or (frame.count == 1 and km > ONE_DAY_KM)


def expects(frame: Frame, km: float, long: Outing | None) -> int:
    """Expected race minutes after the *long* session, with its share of running."""
    run, seconds = (long.run, long.seconds) if long else (0, 0)
    return expected_minutes(km, usual_paces(frame.profile), run, seconds)


def longest_of(outings: tuple[Outing, ...]) -> Outing | None:
    """The longest of the *outings*."""
    return max(outings, key=lambda each: each.seconds, default=None)


def readiness(
    frame: Frame, km: float, mode: RaceMode, cutoff_min: int | None, happened: Happened | None = None
) -> Readiness:
    """When the way is long enough for *km*: with long sessions of half a week if that will do, else of 60 %."""
    half = scout(frame, Race(frame.profile.begin, km, mode, cutoff_min), happened, False)
    return half if half.week else scout(frame, Race(frame.profile.begin, km, mode, cutoff_min), happened, True)


def scout(frame: Frame, race: Race, happened: Happened | None, late: bool) -> Readiness:
    """Walk the way without a race date, from the first day or from next week on, until it is long enough for *race*.

    *late*: every week may be one of the last eight, with the larger share for its long session.
    """
    km, mode, cutoff_min = race.km, race.mode, race.cutoff_min
    goal = Goal(aim=top_minutes(frame.profile) + GAP, steady=True, scouting=late, peak=MOST_WEEKS)
    way = Way(frame, goal, frame.record())
    first = 1
    if happened:
        way.record.add(happened.outings)
        first = max(1, way.record.number(happened.cut + 6))
    best, still, aim = (0, 0), 0, 0
    for number in range(first, first + MOST_WEEKS):
        week = week_aim(way, number)
        way.take(week)
        long = longest_of(week.outings)
        if long is None or week.kind is WeekKind.EASIER:
            continue
        expected = expects(frame, km, long)
        if number > 1 and long.seconds >= longest_wanted(expected * SURE // 100, mode):
            aim = aim or max(long.seconds // 60, frame.minutes + GAP)
            if meets_cutoff(expected, cutoff_min):
                return Readiness(number, aim, km, steady=long.seconds <= best[0])
        now = (long.seconds, long.run if aim else 0)
        still = 0 if now > best else still + 1
        best = max(best, now)
        if still > STANDSTILL:
            break
    return Readiness(None, aim or best[0] // 60, km)


def first_fit(frame: Frame, week: int) -> int:
    """Ordinal of the first race day after a longest session in *week*."""
    return frame.day(week, frame.long) + PEAK_LAST
