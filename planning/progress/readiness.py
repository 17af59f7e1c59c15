"""Chance of being ready on the date, by drawing the weeks to come from the person's own last weeks, many times over."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import accumulate
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
    if steps_needed <= 0 or weeks_left < steps_needed:
        return float(steps_needed <= 0)
    runs = TABLE["runs"]
    moves = _drawn([_move(each) for each in weeks], runs * weeks_left, random)
    starts = range(0, runs * weeks_left, weeks_left)
    ready = sum(_climbed(moves[start : start + weeks_left]) >= steps_needed for start in starts)
    return ready / float(runs)


def _move(kept: float) -> int:
    """A week as a step up, a week held, or a step back."""
    if kept >= TABLE["climb_from"]:
        return 1
    return -1 if kept < TABLE["fall_below"] else 0


def _drawn(moves: Sequence[int], count: int, random: Random) -> Sequence[int]:
    """*count* of the *moves*, each as likely as the others.

    All at once, a byte for each: the last bytes, which would make the first moves likelier, are left out.
    """
    fair = 256 // len(moves) * len(moves)
    table = bytes(moves[byte % len(moves)] % 256 for byte in range(256))
    found = b""
    while len(found) < count:
        found += random.randbytes(count).translate(table, bytes(range(fair, 256)))
    return memoryview(found).cast("b").tolist()


def _climbed(moves: Sequence[int]) -> int:
    """Steps climbed at the end; nobody falls below where they stand today."""
    heights = list(accumulate(moves))
    return heights[-1] - min(0, min(heights))


def _in_words(chance: float) -> Odds:
    if chance >= TABLE["likely"]:
        return Odds.LIKELY
    return Odds.EVEN if chance >= TABLE["even"] else Odds.UNLIKELY
