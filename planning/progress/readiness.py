"""Chance of being ready on the date, by drawing the weeks to come from the person's own last weeks, many times over."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from random import Random

from planning.facts import load

TABLE = load("readiness")


class Odds(StrEnum):
    """The chance in words; a number alone would promise too much."""

    LIKELY = "likely"
    EVEN = "even"
    UNLIKELY = "unlikely"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class Readiness:
    """The chance in words, and the band it lies in (0 to 1): had one more week gone badly, had one more gone well."""

    odds: Odds
    low: float
    high: float


NOT_KNOWN = Readiness(Odds.NOT_KNOWN, 0.0, 1.0)


def readiness(kept: Sequence[float], weeks_left: int, steps_needed: int, seed: int) -> Readiness:
    """Chance that *steps_needed* steps are climbed within *weeks_left* weeks.

    *kept*: part of the planned minutes that was done in each week so far, 0 to 1, oldest first; the last four are drawn
    from. *seed*: of the random numbers; the same seed gives the same answer.
    """
    weeks = tuple(kept[-TABLE["weeks_looked_at"] :])
    if len(weeks) < TABLE["weeks_looked_at"]:
        return NOT_KNOWN
    low = _chance((*weeks, 0.0), weeks_left, steps_needed, Random(seed))
    high = _chance((*weeks, 1.0), weeks_left, steps_needed, Random(seed))
    return Readiness(_in_words((low + high) / 2), low, high)


def _chance(weeks: tuple[float, ...], weeks_left: int, steps_needed: int, random: Random) -> float:
    moves = [_move(each) for each in weeks]
    runs = TABLE["runs"]
    ready = sum(_climbed(random.choices(moves, k=weeks_left)) >= steps_needed for _ in range(runs))
    return ready / float(runs)


def _move(kept: float) -> int:
    """A week as a step up, a week held, or a step back."""
    if kept >= TABLE["climb_from"]:
        return 1
    return -1 if kept < TABLE["fall_below"] else 0


def _climbed(moves: Sequence[int]) -> int:
    """Steps climbed at the end; nobody falls below where they stand today."""
    height = 0
    for each in moves:
        height = max(0, height + each)
    return height


def _in_words(chance: float) -> Odds:
    if chance >= TABLE["likely"]:
        return Odds.LIKELY
    return Odds.EVEN if chance >= TABLE["even"] else Odds.UNLIKELY
