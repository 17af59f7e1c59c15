"""The shape of a profile as people write it, checked field by field by pydantic."""

import re
from datetime import date, time
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field
from pydantic_core import PydanticCustomError

from planning.calendar import known_zone
from planning.terms.choices import RaceMode, Sex, Share, Units, Weekday

DAY_NAMES = tuple(each.name.lower() for each in Weekday)
CLOCK = re.compile(r"([01]\d|2[0-3]):([0-5]\d)", re.ASCII)
DAY = re.compile(r"\d{4}-\d{2}-\d{2}", re.ASCII)
FIRST_YEAR, LAST_YEAR = 2000, 2100


def _wrong(text: str) -> PydanticCustomError:
    return PydanticCustomError("said", "{text}", {"text": text})


def read_time(value: object) -> time:
    """A local time of day, written "07:00"."""
    if isinstance(value, time):
        return value
    if not isinstance(value, str) or not CLOCK.fullmatch(value):
        raise _wrong(f'{quote(value)} is no time; write "07:00"')
    return time.fromisoformat(value)


def read_date(value: object) -> date:
    """A local day, written "2026-03-02"."""
    example = 'write a day like "2026-03-02"'
    if not isinstance(value, str) or not DAY.fullmatch(value):
        raise _wrong(f"{quote(value)} is no date; {example}")
    try:
        on = date.fromisoformat(value)
    except ValueError:
        raise _wrong(f"{quote(value)} is no day of the calendar; {example}") from None
    if not FIRST_YEAR <= on.year <= LAST_YEAR:
        raise _wrong(f"{quote(value)} is too far away; write a year from {FIRST_YEAR} to {LAST_YEAR}")
    return on


def read_zone(value: object) -> str:
    """A time zone by its name in the IANA database."""
    if not isinstance(value, str) or not known_zone(value):
        raise _wrong(f'{quote(value)} is no time zone; write a name like "Europe/London"')
    return value


def quote(value: object) -> str:
    """*value* as it would stand in JSON, cut short."""
    if isinstance(value, str):
        return f'"{value}"' if len(value) <= 40 else f'"{value[:40]}..."'
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, list | dict):
        return "a list" if isinstance(value, list) else "an object"
    return str(value)[:40]


def _no_blank(value: str) -> str:
    if not value.strip():
        raise _wrong("is blank; write a name")
    return value


def _number(value: object) -> object:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise _wrong(f"{quote(value)} is no number")
    return value


Clock = Annotated[time, BeforeValidator(read_time)]
Day = Annotated[date, BeforeValidator(read_date)]
Zone = Annotated[str, BeforeValidator(read_zone)]
Name = Annotated[str, Field(min_length=1, max_length=200), AfterValidator(_no_blank)]
Minutes = Annotated[float, BeforeValidator(_number), Field(ge=0, le=600)]
WeekMinutes = Annotated[float, BeforeValidator(_number), Field(ge=0, le=3000)]
Km = Annotated[float, BeforeValidator(_number), Field(ge=1, le=100)]
Cutoff = Annotated[int, Field(ge=10, le=1440, strict=True)]
YesNo = Annotated[bool, Field(strict=True)]


class Said(BaseModel):
    """No unknown keys, no infinite numbers."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)


class SaidRace(Said):
    """A race."""

    date: Day
    km: Km
    mode: RaceMode = RaceMode.RUN_WALK
    cutoff_min: Cutoff | None = None


class SaidMilestone(Said):
    """A shorter race on the way."""

    date: Day
    km: Km


class SaidScreen(Said):
    """Answers to the pre-participation questions."""

    active: YesNo = False
    disease: YesNo = False
    signs: YesNo = False
    pregnant: YesNo = False


class SaidDays(Said):
    """Days of the week with the time of the message."""

    mon: Clock | None = None
    tue: Clock | None = None
    wed: Clock | None = None
    thu: Clock | None = None
    fri: Clock | None = None
    sat: Clock | None = None
    sun: Clock | None = None


class SaidRunner(Said):
    """A runner's profile as it is written."""

    who: Name
    tz: Zone
    days: SaidDays
    begin: Day
    role: Literal["runner"] = "runner"
    called: Annotated[str, Field(max_length=200)] = ""
    coach: Name | None = None
    walk_min: Minutes = 0
    jog_min: Minutes = 0
    week_min: WeekMinutes = 0
    longest_min: Minutes = 0
    race: SaidRace | None = None
    milestones: Annotated[list[SaidMilestone], Field(max_length=20)] = []
    age: Annotated[int, Field(ge=18, le=100, strict=True)] | None = None
    sex: Sex | None = None
    height_cm: Annotated[float, BeforeValidator(_number), Field(ge=100, le=250)] | None = None
    weight_kg: Annotated[float, BeforeValidator(_number), Field(ge=25, le=400)] | None = None
    units: Units = Units.KM
    weight_talk: YesNo = False
    screen: SaidScreen = SaidScreen()
    cleared: YesNo = False
    bed: Clock | None = None
    wake: Clock | None = None
    nudge: Clock | None = None
    country: Annotated[str, Field(pattern=r"^[A-Z]{2}$")] | None = None
    shares: list[Share] = [Share.LOG, Share.BODY]


class SaidCoach(Said):
    """A coach's profile as it is written."""

    who: Name
    role: Literal["coach"]
    called: Annotated[str, Field(max_length=200)] = ""
    tz: Zone
    deputy: Name | None = None


def known_keys(model: type[BaseModel]) -> str:
    """The keys that *model* knows, for an error line."""
    return ", ".join(model.model_fields)


def parts(model: type[BaseModel]) -> dict[str, Any]:
    """The models of the nested objects by key."""
    found = {"race": SaidRace, "milestones": SaidMilestone, "screen": SaidScreen, "days": SaidDays}
    return found if model is SaidRunner else {}
