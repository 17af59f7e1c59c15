"""Heart rate, only for those who ask, never with beta-blockers: the talk test comes first, and no limit rests on it."""

from dataclasses import dataclass

from planning.facts import load

TABLE = load("heart")


@dataclass(frozen=True, slots=True)
class HeartRange:
    """Beats a minute, lowest and highest; the maximum behind it is known to 10 or so."""

    low: float
    high: float


def tanaka(age: float) -> float:
    """Highest heart rate by age: 208 - 0.7 x age. Source: Tanaka et al. 2001, JACC 37:153."""
    return 208 - 0.7 * age


def karvonen(rest: float, highest: float, share: float) -> float:
    """Heart rate at a *share* (0 to 1) of the reserve from *rest* to *highest*; not the same share of the highest."""
    return rest + share * (highest - rest)


def easy_range(age: int, rest: float | None, *, beta_blocker: bool) -> HeartRange | None:
    """Range of moderate effort: 40-59 % of the reserve, or 64-76 % of the highest without a resting rate.

    None with beta-blockers: they hold the heart down, so a number would mislead. Source: ACSM (reserve from memory).
    """
    if beta_blocker:
        return None
    highest = tanaka(age)
    if rest is None:
        low, high = (share * highest for share in TABLE["moderate_of_highest"])
    else:
        low, high = (karvonen(rest, highest, share) for share in TABLE["moderate_of_reserve"])
    return HeartRange(low, high)
