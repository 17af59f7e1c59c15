"""What has to be said with a plan: names, no sentences."""

from datetime import date
from enum import StrEnum

from planning.plan.dates import FARTHEST_KM, ONE_DAY_KM
from planning.plan.frame import Frame
from planning.plan.paces import meets_cutoff
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


def screening_of(profile: Profile) -> tuple[str, ...]:
    """Why somebody may not start yet; empty if they may."""
    screen = profile.screen
    if profile.cleared or not (screen.signs or (screen.disease and not screen.active)):
        return ()
    return (Warn.SEE_DOCTOR, Warn.SIGNS if screen.signs else Warn.DISEASE)


def warn(frame: Frame, race: Race | None, fits: bool, earliest: date | None, expected: int) -> tuple[str, ...]:
    """The names of all that has to be said."""
    profile = frame.profile
    screen = profile.screen
    far = race is not None and race.km > FARTHEST_KM
    one = frame.count == 1 and (race is None or race.km > ONE_DAY_KM)
    late = race is not None and not meets_cutoff(expected, race.cutoff_min)
    rows = (
        (Warn.PREGNANT, screen.pregnant),
        (Warn.RUN_AFTER_CLEARANCE, screen.disease and not profile.cleared),
        (Warn.ONE_DAY, one),
        (Warn.TOO_FAR, far),
        (Warn.CUTOFF, late),
        (Warn.TOO_NEAR, not fits and earliest is not None),
        (Warn.NEVER, not fits and earliest is None),
        (Warn.SIZE_UNKNOWN, profile.bmi is None),
    )
    return tuple(name for name, holds in rows if holds)
