"""Who the plan is for."""

from dataclasses import dataclass
from datetime import date, time

from planning.terms.choices import RaceMode, Role, Sex, Share, Units, Weekday


@dataclass(frozen=True, slots=True)
class DayTime:
    """A weekday that the person gave, and the local time at which they want the message."""

    day: Weekday
    at: time


@dataclass(frozen=True, slots=True)
class Race:
    """A race: local date, distance in km, how it is covered, the organiser's limit in minutes if there is one."""

    on: date
    km: float
    mode: RaceMode = RaceMode.RUN_WALK
    cutoff_min: int | None = None


@dataclass(frozen=True, slots=True)
class Screen:
    """Answers to the pre-participation questions.

    *active*: planned moderate activity of 30 min on 3 days a week for the last 3 months; *disease*: known heart,
    metabolic or kidney disease; *signs*: signs or symptoms of it; *pregnant*: now, or a birth within 12 months.
    """

    active: bool = False
    disease: bool = False
    signs: bool = False
    pregnant: bool = False


COACH_BEGIN = date(2000, 1, 1)
"""A coach has no first day; the field has to hold one."""


@dataclass(frozen=True, slots=True)
class Profile:
    """What is known of a person before the first day.

    *walk_min*, *jog_min*: minutes that the person can surely do without stopping; *week_min*: minutes of a usual recent
    week; *longest_min*: longest outing of the last 30 days. What was not said is None where that matters, and then
    counts as the careful side.
    """

    who: str
    tz: str
    days: tuple[DayTime, ...]
    begin: date
    role: Role = Role.RUNNER
    called: str = ""
    coach: str | None = None
    walk_min: float = 0
    jog_min: float = 0
    week_min: float = 0
    longest_min: float = 0
    race: Race | None = None
    milestones: tuple[Race, ...] = ()
    age: int | None = None
    sex: Sex | None = None
    height_cm: float | None = None
    weight_kg: float | None = None
    units: Units = Units.KM
    weight_talk: bool = False
    screen: Screen = Screen()
    cleared: bool = False
    bed: time | None = None
    wake: time | None = None
    nudge: time | None = None
    country: str | None = None
    shares: frozenset[Share] = frozenset({Share.LOG, Share.BODY})
    deputy: str | None = None
    """Of a coach: who stands in when a grave message isn't seen."""
    away: date | None = None
    """Of a coach: the last local day away."""

    @property
    def bmi(self) -> float | None:
        """Body mass index in kg/m2, unrounded; None when height or weight was not said."""
        if self.height_cm is None or self.weight_kg is None:
            return None
        return self.weight_kg / (self.height_cm / 100) ** 2


def coach_profile(who: str, tz: str, called: str, deputy: str | None = None) -> Profile:
    """A coach: no days, no plan."""
    return Profile(who, tz, (), COACH_BEGIN, role=Role.COACH, called=called, deputy=deputy)
