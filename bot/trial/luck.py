"""The draws of one person and one day, all made beforehand: whatever the bot says, the day brings the same luck."""

from dataclasses import dataclass, fields
from datetime import date
from random import Random


@dataclass(frozen=True, slots=True)
class Luck:
    """Numbers from 0 to 1, one for each thing that can happen; *pick*: which of several ways it is said."""

    weather: float
    go: float
    late: float
    amount: float
    tells: float
    owns_up: float
    effort: float
    aches: float
    ache: float
    ill: float
    danger: float
    doubt: float
    nudged: float
    answers: float
    quits: float
    returns: float
    pick: float


def luck_of(seed: int, number: int, day: date) -> Luck:
    """The luck of person *number* on that day, the same whenever it is asked for."""
    random = Random(f"{seed}:{number}:{day.toordinal()}")
    return Luck(*(random.random() for _ in fields(Luck)))
