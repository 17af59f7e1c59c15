"""The careful side of what is known of a person: what was not said counts as the side that asks for more care."""

from planning.terms.person import Profile

HEAVY = 35
"""From this BMI (kg/m2) on growth is slower and no strides are planned."""
OVER = 30
"""Above this BMI running starts under 3 km a week (Nielsen et al. 2014, Int J Sports Phys Ther 9:338)."""


def is_over_30(profile: Profile) -> bool:
    """BMI over 30, or unknown."""
    return profile.bmi is None or profile.bmi > OVER


def is_heavy(profile: Profile) -> bool:
    """BMI of 35 or more, or unknown."""
    return profile.bmi is None or profile.bmi >= HEAVY


def can_walk_twenty(profile: Profile) -> bool:
    """Surely walks 20 minutes without stopping."""
    return profile.walk_min >= 20
