"""What became of somebody, week by week."""

from dataclasses import dataclass


@dataclass(slots=True)
class OneWeek:
    """One week of one person. *planned*: sessions that were sent; *going*: had not given up at the end of it."""

    minutes: float = 0
    done: int = 0
    planned: int = 0
    nudges: int = 0
    grave: int = 0
    going: bool = True


@dataclass(frozen=True, slots=True)
class Life:
    """The weeks of one person."""

    number: int
    weeks: tuple[OneWeek, ...]
