"""What has to be said with a plan: names, no sentences."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from planning.plan.dates import FARTHEST_KM, ONE_DAY_KM
from planning.plan.frame import Frame
from planning.plan.paces import meets_cutoff
from planning.safety.screen import screen
from planning.terms.person import Profile, Race


class Warn(StrEnum):
    """Things to be said with a plan."""

    SEE_DOCTOR = "see_doctor"
    SIGNS = "signs"
    DISEASE = "disease"
    RUN_AFTER_CLEARANCE = "run_after_clearance"
    PREGNANT = "pregnant"
    TOO_NEAR = "too_near"
    NEVER = "never"
    ONE_DAY = "one_day"
    TOO_FAR = "too_far"
    CUTOFF = "cutoff"
    MILESTONE_LEFT_OUT = "milestone_left_out"
    SIZE_UNKNOWN = "size_unknown"
    FIXED_TRIMMED = "fixed_trimmed"
    RED_FLAG = "red_flag"
    KEPT_SMALL = "kept_small"


def screening_of(profile: Profile) -> tuple[str, ...]:
    """Why somebody may not start yet; empty if they may."""
    if screen(profile.screen, profile.cleared).may_start:
        return ()
    return (Warn.SEE_DOCTOR, Warn.SIGNS if profile.screen.signs else Warn.DISEASE)


@dataclass(frozen=True, slots=True)
class Found:
    """What planning found: the race, whether it fits, the earliest date, expected minutes, races left out."""

    race: Race | None
    fits: bool
    earliest: date | None
    expected: int
    left_out: bool


def warn(frame: Frame, found: Found) -> tuple[str, ...]:
    """The names of all that has to be said."""
    profile, race = frame.profile, found.race
    late = race is not None and not meets_cutoff(found.expected, race.cutoff_min)
    rows = (
        (Warn.PREGNANT, profile.screen.pregnant),
        (Warn.RUN_AFTER_CLEARANCE, not screen(profile.screen, profile.cleared).vigorous),
        (Warn.ONE_DAY, frame.count == 1 and (race is None or race.km > ONE_DAY_KM)),
        (Warn.TOO_FAR, race is not None and race.km > FARTHEST_KM),
        (Warn.CUTOFF, late),
        (Warn.TOO_NEAR, not found.fits and found.earliest is not None),
        (Warn.NEVER, not found.fits and found.earliest is None),
        (Warn.MILESTONE_LEFT_OUT, found.left_out),
        (Warn.SIZE_UNKNOWN, profile.bmi is None),
    )
    return tuple(name for name, holds in rows if holds)
