"""The answers of a survey that is still going on.

It stands beside what is known of a person, and not among the questions, because all that is known holds it.
"""

from dataclasses import dataclass
from datetime import date, datetime, time
from enum import StrEnum

from planning.terms.choices import RaceMode, Role, Units, Weekday
from planning.terms.person import Race


class Step(StrEnum):
    """Questions of the survey, in the order in which they are asked. Not all of them are asked of everybody."""

    START = "start"
    CALLED = "called"
    PLACE = "place"
    PLACE_CHECK = "place_check"
    DAYS = "days"
    TIMES = "times"
    WALK = "walk"
    JOG = "jog"
    WEEK = "week"
    LONGEST = "longest"
    RACE = "race"
    RACE_DAY = "race_day"
    SUMMARY = "summary"
    CONSENT = "consent"
    ACTIVE = "active"
    DISEASE = "disease"
    SIGNS = "signs"
    PREGNANT = "pregnant"
    AGE = "age"
    ADULT = "adult"
    SIZE = "size"
    HEIGHT = "height"
    WEIGHT = "weight"
    ANY_SIGN = "any_sign"
    LEAVE = "leave"


@dataclass(frozen=True, slots=True)
class Draft:
    """What was answered so far. *step*: the open question; *answered*: those that are done, also the skipped ones.

    *place*: name of the city as understood, *place_sure*: False while the clock has to be looked at first. *times* is
    as long as *days*, or empty while they are open; *at*: a time that was said before the days. *race_month*: first day
    of the month of a race whose day is open. *consent*: to the keeping of health answers, *consent_at*: UTC instant of
    it. All below *consent_at* is None until then, and again once consent is taken back. *coach*: whose code was sent;
    *role*: what it opened.
    """

    step: Step = Step.START
    answered: tuple[Step, ...] = ()
    coach: str | None = None
    role: Role = Role.RUNNER
    called: str = ""
    tz: str | None = None
    place: str = ""
    place_sure: bool = True
    country: str | None = None
    days: tuple[Weekday, ...] = ()
    times: tuple[time, ...] = ()
    at: time | None = None
    begin: date | None = None
    walk_min: float = 0
    jog_min: float = 0
    week_min: float = 0
    longest_min: float = 0
    race_km: float | None = None
    race_on: date | None = None
    race_month: date | None = None
    race_mode: RaceMode = RaceMode.RUN_WALK
    cutoff_min: int | None = None
    milestones: tuple[Race, ...] = ()
    units: Units = Units.KM
    consent: bool | None = None
    consent_at: datetime | None = None
    active: bool | None = None
    disease: bool | None = None
    signs: bool | None = None
    pregnant: bool | None = None
    age: int | None = None
    height_cm: float | None = None
    weight_kg: float | None = None
