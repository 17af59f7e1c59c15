"""How long the race takes: walking and jogging speeds by BMI, and the share of running that was rehearsed."""

from dataclasses import dataclass

from planning.limits.care import is_over_30
from planning.terms.person import Profile

SLOW_END = 115
QUICK_END = 90
"""Percent of the expected time: an honest band for somebody who has never covered the distance (common practice)."""
SPARE_FOR_CUTOFF = 110
"""Percent of the slow end that the organiser's limit has to leave (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Paces:
    """Speeds in metres an hour."""

    walk: int
    jog: int


def usual_paces(profile: Profile) -> Paces:
    """Comfortable speeds of beginners: walking 4.5 to 5.4 km/h, jogging 6 to 8 (from memory); people with a BMI over 30
    ran 1.7 km/h slower than those under 25 (Bertelsen et al. 2018, JOSPT 48:873)."""
    if is_over_30(profile):
        return Paces(4_700, 6_400)
    if profile.bmi is not None and profile.bmi < 25:
        return Paces(5_200, 8_100)
    return Paces(5_000, 7_600)


def expected_minutes(km: float, paces: Paces, run: int, total: int) -> int:
    """Whole minutes for *km* when *run* of *total* seconds are run, rounded up; exact, as in whole numbers."""
    total = total or 1
    speed = paces.walk * total + (paces.jog - paces.walk) * run
    return -(-round(km * 10_000) * 6 * total // speed)


def band(expected: int) -> tuple[int, int]:
    """Quick and slow end in whole minutes."""
    return expected * QUICK_END // 100, -(-expected * SLOW_END // 100)


def meets_cutoff(expected: int, cutoff_min: int | None) -> bool:
    """The slow end of the band and 10 % fit within the organiser's limit."""
    return cutoff_min is None or band(expected)[1] * SPARE_FOR_CUTOFF <= cutoff_min * 100
