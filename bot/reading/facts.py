"""What one reply says: the facts, each with the span of text that it came from."""

from dataclasses import dataclass
from datetime import date, datetime, time
from enum import StrEnum
from typing import NamedTuple

from planning.terms.choices import Activity, Alarm, Danger, Mood, Part
from planning.terms.choices import Weekday as Weekday
from planning.terms.entry import Complaint


class Asked(StrEnum):
    """The open questions that change how a bare reply is read."""

    EFFORT = "effort"
    SURE = "sure"
    PAIN = "pain"
    WEIGHT = "weight"
    TIME = "time"
    DONE = "done"


class PartOfDay(StrEnum):
    """Parts of a day that a reply can name."""

    MORNING = "morning"
    LUNCH = "lunch"
    AFTERNOON = "afternoon"
    EVENING = "evening"


class Want(StrEnum):
    """Something that the sender asks the bot for."""

    WHY = "why"
    EASIER = "easier"
    HARDER = "harder"
    TODAY = "today"
    WEEK = "week"
    COACH = "coach"
    HELP = "help"
    PAUSE = "pause"
    RESUME = "resume"
    LEAVE = "leave"
    DATA = "data"
    UNDO = "undo"
    CLEARED = "cleared"
    REVIEW = "review"
    """How the last four weeks went. On the wire a key of its own: `wants` there knows the words above."""


@dataclass(frozen=True, slots=True)
class Did:
    """One thing done. *on* is None when it was today; *share* is 0 to 1, only when no amount was said."""

    kind: Activity
    minutes: float | None = None
    km: float | None = None
    share: float | None = None
    on: date | None = None
    doubtful: bool = False
    """The amount is hard to believe: ask back, don't store."""


@dataclass(frozen=True, slots=True)
class MoveTo:
    """Where the session is to go: a local date, with a time or a part of the day if one was said."""

    on: date
    at: time | None = None
    part: PartOfDay | None = None


@dataclass(frozen=True, slots=True)
class Off:
    """Days off, both ends inclusive. *first* None: from today; *last* None: open."""

    first: date | None = None
    last: date | None = None


@dataclass(frozen=True, slots=True)
class Tally:
    """A count of sessions for a challenge."""

    done: int
    of: int | None = None


@dataclass(frozen=True, slots=True)
class Weather:
    """Conditions outside: temperature in C, relative humidity in %, wind in km/h, US air quality index."""

    c: float | None = None
    humidity: float | None = None
    wind_kmh: float | None = None
    aqi: float | None = None
    ice: bool | None = None
    """Ice underfoot."""


@dataclass(frozen=True, slots=True)
class Habit:
    """Days or times for good: weekdays (empty: the same days) and a local time (None: the same time)."""

    days: tuple[Weekday, ...] = ()
    at: time | None = None


@dataclass(frozen=True, slots=True)
class PastDanger:
    """A danger sign of the last 14 days that is over, with its local date."""

    code: Danger
    on: date


class Span(NamedTuple):
    """A piece of the text, end exclusive: the key of the fact that it gave and the name of the rule that fired."""

    start: int
    end: int
    key: str
    rule: str


class Reading(NamedTuple):
    """All that one reply says. What was not said is empty, False or None."""

    text: str
    at: datetime
    did: tuple[Did, ...] = ()
    missed: bool = False
    missed_day: date | None = None
    effort: float | None = None
    body: tuple[Complaint, ...] = ()
    clear: tuple[Part, ...] = ()
    danger: tuple[Danger, ...] = ()
    ill: bool = False
    fever: bool = False
    have_min: float | None = None
    later_min: float | None = None
    later_at: time | None = None
    move_to: MoveTo | None = None
    off: Off | None = None
    weight_kg: float | None = None
    mood: Mood | None = None
    sure: float | None = None
    tally: Tally | None = None
    wants: Want | None = None
    stuck: bool = False
    weather: Weather | None = None
    place: str | None = None
    place_until: date | None = None
    """The last day there, if one was said."""
    correct: bool = False
    well: bool = False
    habit: Habit | None = None
    past_danger: tuple[PastDanger, ...] = ()
    alarm: tuple[Alarm, ...] = ()
    loss: bool = False
    """Somebody close has died."""
    slept_h: float | None = None
    """Hours of last night's sleep; a bad night without a number counts as `BAD_NIGHT_H`."""
    low_day: bool = False
    """A day on which the body takes less: night shift, hangover, period."""
    no_time: bool = False
    """No time for it today, and no minutes named."""
    spans: tuple[Span, ...] = ()
    unread: tuple[str, ...] = ()
