"""How far a session goes beyond the longest of the 30 days before: it raises no ceiling, and may call for rest days."""

from collections.abc import Iterable
from datetime import date
from enum import StrEnum

WINDOW_DAYS = 30
REST_HOURS = 48
"""Hours without running after far more than was planned. Common practice, no source."""


class Spike(StrEnum):
    """Classes of one session's distance against the longest of the 30 days before."""

    NO_BASELINE = "no_baseline"
    REFERENCE = "reference"
    SMALL = "small"
    MODERATE = "moderate"
    LARGE = "large"


def longest_before(days: Iterable[tuple[date, int]], on: date) -> int | None:
    """Longest of the 30 days before *on*: one 30 days ago counts, one 31 days ago not. *days*: each with its length."""
    lengths = [length for day, length in days if 0 < (on - day).days <= WINDOW_DAYS and length > 0]
    return max(lengths, default=None)


def spike(length: int, longest: int | None) -> Spike:
    """Class of a session of *length* (whole metres or seconds) after one of *longest* at most.

    Bounds: up to 10 %, 30 %, 100 % more, each inclusive; counted in whole numbers, since 5.5 / 5.0 - 1 is above 0.1.
    Source: Frandsen et al. 2025, British Journal of Sports Medicine 59:1203, of experienced runners.
    """
    if longest is None:
        return Spike.NO_BASELINE
    for percent, found in ((110, Spike.REFERENCE), (130, Spike.SMALL), (200, Spike.MODERATE)):
        if 100 * length <= percent * longest:
            return found
    return Spike.LARGE
