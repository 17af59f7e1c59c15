"""How far a thing may grow, in exact whole seconds: floats would turn an exact 10 % into a breach (5.5 / 5.0 > 1.1)."""

from planning.terms.person import Profile

LOOK_BACK = 30
"""Days in which the longest session counts: one 30 days ago does, one 31 days ago does not
(Frandsen et al. 2025, Br J Sports Med 59:1203)."""
FIRST_SESSION = 20 * 60
"""Seconds that everybody may be asked for in the first days (common practice, no source)."""
FIRST_WEEK = 100 * 60
"""Seconds that everybody may be asked for in the first week (common practice, no source)."""
MOST_DAYS = 4
"""Outings a week: more add tiredness before they add fitness (common practice, no source)."""


def grow_session(best: int) -> int:
    """Longest session, in seconds, above *best* seconds: 10 % or 5 minutes more (Frandsen et al. 2025)."""
    return best + max(best // 10, 5 * 60)


def grow_week(best: int) -> int:
    """Largest week, in seconds, above *best* seconds: 10 % or 10 minutes more (common practice, no source)."""
    return best + max(best // 10, 10 * 60)


def grow_run(best: int) -> int:
    """Most running in one session, in seconds, above *best*: 10 % or 3 minutes more (Frandsen et al. 2025)."""
    return best + max(best // 10, 3 * 60)


def grow_run_week(best: int) -> int:
    """Most running in a week, in seconds, above *best*: 30 % or 10 minutes (Nielsen et al. 2014, JOSPT 44:739)."""
    return best + max(best * 3 // 10, 10 * 60)


def seconds_of(minutes: float) -> int:
    """Whole seconds in *minutes*, rounded down."""
    return int(minutes * 60)


def first_session(profile: Profile) -> int:
    """Longest session of the first days in seconds."""
    return max(FIRST_SESSION, seconds_of(profile.longest_min))


def first_week(profile: Profile) -> int:
    """Largest first week in seconds: what everybody can, or a usual week and 10 %."""
    usual = seconds_of(profile.week_min)
    return max(FIRST_WEEK, usual + usual // 10)
