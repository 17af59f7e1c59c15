"""What is proposed after one event: the step, and the words around it."""

from dataclasses import dataclass
from enum import StrEnum

from planning.terms.plan import Segment, Session, in_minutes
from planning.terms.reasons import Reason


class Allowance(StrEnum):
    """How far effort may rise when a session has to be shorter.

    `BY_TWO`: by at most 2, to at most 5. `PARITY`: until minutes x effort is what it was, to at most 7;
    `PARITY_TO_SIX`: the same, to at most 6.
    """

    NONE = "none"
    BY_TWO = "by_two"
    PARITY = "parity"
    PARITY_TO_SIX = "parity_to_six"


@dataclass(frozen=True, slots=True)
class Step:
    """A session to do instead of another, and the names of the rules that made it so."""

    session: Session
    why: tuple[Reason, ...] = ()


@dataclass(frozen=True, slots=True)
class Rescue:
    """The rest of a session that is going badly, minute by minute."""

    left_seconds: int
    segments: tuple[Segment, ...]

    @property
    def left_min(self) -> float:
        """What is left, in minutes."""
        return in_minutes(self.left_seconds)


@dataclass(frozen=True, slots=True)
class Moved:
    """A session on another day or time; None when it is dropped. *dropped*: all that fell out, itself included."""

    session: Session | None
    dropped: tuple[Session, ...] = ()
    why: tuple[Reason, ...] = ()


@dataclass(frozen=True, slots=True)
class Ceiling:
    """The most that a session may hold by the limits of growth, in seconds: all of it, and its running."""

    seconds: int
    run_seconds: int = 0


@dataclass(frozen=True, slots=True)
class Conditions:
    """Weather: temperature in C, relative humidity in %, wind in km/h at 10 m, US air quality index. None: not said.

    *pm25*: 24-hour mean of fine dust in ug/m3; *ozone_ppm*: 8-hour mean; *wbgt_c*: measured wet-bulb globe temperature.
    """

    c: float | None = None
    humidity: float | None = None
    wind_kmh: float | None = None
    aqi: float | None = None
    pm25: float | None = None
    ozone_ppm: float | None = None
    wbgt_c: float | None = None


class WeatherDo(StrEnum):
    """What the weather leaves of a session."""

    GO = "go"
    SHORTEN = "shorten"
    EARLIER_OR_INDOORS = "earlier_or_indoors"
    NOT = "not"


@dataclass(frozen=True, slots=True)
class WeatherStep:
    """A session in that weather. *felt_c*: heat index or wind chill in C, None where neither was looked at."""

    do: WeatherDo
    session: Session
    why: tuple[Reason, ...]
    felt_c: float | None = None
