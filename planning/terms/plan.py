"""A plan and its parts. Lengths are whole seconds inside, so that sums are exact; `minutes` is for people and JSON."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time

from planning.terms.choices import Do, Purpose, WeekKind

COUNTED = frozenset({Do.WALK, Do.RUN, Do.REST, Do.CROSS})
"""What adds up to the minutes of a session; stretch is counted apart."""


def in_minutes(seconds: int) -> float:
    """*seconds* as minutes: a whole number where it is one."""
    return seconds // 60 if seconds % 60 == 0 else seconds / 60


@dataclass(frozen=True, slots=True)
class Segment:
    """One stretch of one activity within a session."""

    do: Do
    seconds: int

    @property
    def minutes(self) -> float:
        """Length in minutes."""
        return in_minutes(self.seconds)


def total_seconds(segments: Iterable[Segment], *kinds: Do) -> int:
    """Seconds of the *segments* of these *kinds*, of all kinds if none is named."""
    return sum([each.seconds for each in segments if not kinds or each.do in kinds])


@dataclass(frozen=True, slots=True)
class Session:
    """One day's outing: local date and time of the message, segments in order, then what comes after them.

    *effort*: lowest and highest wished rating on the CR-10 session scale. Without segments it is the stretch alone.
    """

    on: date
    at: time
    purpose: Purpose
    effort: tuple[int, int]
    segments: tuple[Segment, ...]
    after: tuple[Segment, ...] = ()

    @property
    def seconds(self) -> int:
        """Length without what comes after it."""
        return total_seconds(self.segments, *COUNTED)

    @property
    def minutes(self) -> float:
        """Length in minutes without what comes after it."""
        return in_minutes(self.seconds)

    @property
    def run_seconds(self) -> int:
        """Seconds of running."""
        return total_seconds(self.segments, Do.RUN)


@dataclass(frozen=True, slots=True)
class Strength:
    """A short strength session at home: names of its moves."""

    on: date
    seconds: int
    moves: tuple[str, ...]

    @property
    def minutes(self) -> float:
        """Length in minutes."""
        return in_minutes(self.seconds)


@dataclass(frozen=True, slots=True)
class Week:
    """A week from Monday to Sunday. Number 0 holds the days before the first Monday."""

    number: int
    monday: date
    kind: WeekKind
    sessions: tuple[Session, ...]
    strength: tuple[Strength, ...] = ()

    @property
    def seconds(self) -> int:
        """Walk, run and rest of the week, the race left out."""
        return sum(each.seconds for each in self.sessions if each.purpose is not Purpose.RACE)

    @property
    def minutes(self) -> float:
        """Walk, run and rest minutes of the week, the race left out."""
        return in_minutes(self.seconds)

    @property
    def run_seconds(self) -> int:
        """Seconds of running in the week, the race left out."""
        return sum(each.run_seconds for each in self.sessions if each.purpose is not Purpose.RACE)


@dataclass(frozen=True, slots=True)
class Split:
    """Where the clock should stand at a distance on race day."""

    km: float
    minutes: float


@dataclass(frozen=True, slots=True)
class RaceDay:
    """The run-walk plan of race day. Times in minutes; carbohydrate in grams an hour, None where none is needed."""

    expected_min: float
    band_min: tuple[float, float]
    splits: tuple[Split, ...]
    run_seconds: int
    walk_seconds: int
    carbohydrate_g_per_hour: tuple[int, int] | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """The whole way. `fits`: the race can be met safely; `earliest_race`: first date that fits with spare weeks."""

    who: str
    begin: date
    may_start: bool
    fits: bool
    earliest_race: date | None
    weeks: tuple[Week, ...]
    race_day: RaceDay | None = None
    warnings: tuple[str, ...] = ()

    @property
    def sessions(self) -> tuple[Session, ...]:
        """All sessions in order of date."""
        return tuple(session for week in self.weeks for session in week.sessions)
