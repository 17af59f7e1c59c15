"""Where the way leads: the race, the longest session it asks for, and the week in which that stands."""

from dataclasses import dataclass

from planning.limits.racing import PEAK_DAYS, longest_allowed
from planning.limits.rule import first_monday
from planning.plan.frame import Frame
from planning.terms.choices import RaceMode
from planning.terms.person import Profile, Race

GAP = 4
"""Minutes that every session stays under the longest one before its week comes."""
PEAK_FIRST, PEAK_LAST = 24, 18
"""Days before the race between which the longest session is put: some three weeks (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Goal:
    """*race*: ordinal of its day, None without one; *peak*: number of the week with the longest session, 0 or less if
    the race is too near for one; *aim*: minutes of that session; *steady*: no weeks of holding, as the organiser's
    limit asks for all the running that can be learnt; *scouting*: only to find out how long the way is, so that every
    week may be one of the last; *stop*: number of the last week.
    """

    aim: int
    steady: bool = False
    scouting: bool = False
    race: int | None = None
    peak: int | None = None
    stop: int = 0


def top_minutes(profile: Profile) -> int:
    """Minutes that no session goes beyond."""
    return longest_allowed(profile.race.mode if profile.race else RaceMode.RUN_WALK) // 60


def week_of(profile: Profile, on: int) -> int:
    """Number of the week that holds the ordinal *on*."""
    return (on - first_monday(profile.begin).toordinal()) // 7 + 1


def peak_week(frame: Frame, race: int) -> int:
    """Week whose long day lies some three weeks before *race*, or week 1 if that alone lies before the taper."""
    if frame.day(1, frame.used[-1]) < race - PEAK_DAYS[0] <= frame.day(2, frame.long):
        return 1
    latest = race - PEAK_LAST
    return week_of(frame.profile, latest - (latest - frame.monday - frame.long) % 7)


def race_goal(frame: Frame, race: Race, aim: int, steady: bool) -> Goal:
    """The goal for a *race* that asks for a longest session of *aim* minutes. *steady*: see `Goal`."""
    on = race.on.toordinal()
    return Goal(
        aim=aim,
        steady=steady or (race.cutoff_min is not None and frame.may_run),
        race=on,
        peak=peak_week(frame, on),
        stop=week_of(frame.profile, on) + 1,
    )
