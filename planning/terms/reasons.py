"""Names of the rules behind a step: the `why` of an answer is a list of these."""

from enum import StrEnum


class Reason(StrEnum):
    """A rule that had a say in a step, a flag or a start. Each has a sentence for people elsewhere."""

    # As planned
    AS_PLANNED = "as_planned"
    NOTHING_OWED = "nothing_owed"

    # Less time
    SHORTER_TIME = "shorter_time"
    SAME_EASE = "same_ease"
    STRETCH_ALONE = "stretch_alone"
    EFFORT_BY_TWO = "effort_by_two"
    LOAD_PARITY = "load_parity"

    # Not sure, misses, effort
    NOT_SURE = "not_sure"
    SMALLEST_VERSION = "smallest_version"
    TWO_MISSES = "two_misses"
    THREE_OF_FIVE_MISSED = "three_of_five_missed"
    TOO_HARD_TWICE = "too_hard_twice"
    TOO_EASY_WEEK = "too_easy_week"
    ASKED_EASIER = "asked_easier"
    ASKED_HARDER = "asked_harder"
    GROWTH_LIMIT = "growth_limit"
    BAD_NIGHT = "bad_night"
    LOW_DAY = "low_day"
    BEYOND_PLAN = "beyond_plan"
    COACH_ASKED = "coach_asked"

    # Move
    MOVED_AS_ASKED = "moved_as_asked"
    MOVED_TO_FREE_DAY = "moved_to_free_day"
    MORE_IMPORTANT_STAYS = "more_important_stays"
    HARD_DAYS_APART = "hard_days_apart"
    RUN_DAYS_APART = "run_days_apart"
    WITHIN_THE_WEEK = "within_the_week"
    DAY_IS_OVER = "day_is_over"

    # Coming back
    SHORT_GAP = "short_gap"
    GAP_OF_A_WEEK = "gap_of_a_week"
    GAP_OF_TWO_WEEKS = "gap_of_two_weeks"
    GAP_OF_FOUR_WEEKS = "gap_of_four_weeks"
    FEVER_WAIT = "fever_wait"
    AFTER_FEVER = "after_fever"

    # Weather
    WEATHER_FINE = "weather_fine"
    HEAT_CAUTION = "heat_caution"
    HEAT_EXTREME_CAUTION = "heat_extreme_caution"
    HEAT_DANGER = "heat_danger"
    HEAT_EXTREME_DANGER = "heat_extreme_danger"
    HEAT_ONE_BAND_STRICTER = "heat_one_band_stricter"
    COLD_CAUTION = "cold_caution"
    COLD_WARNING = "cold_warning"
    FROSTBITE = "frostbite"
    AIR_SENSITIVE = "air_sensitive"
    AIR_UNHEALTHY = "air_unhealthy"
    AIR_VERY_UNHEALTHY = "air_very_unhealthy"
    AIR_HAZARDOUS = "air_hazardous"

    # Body: green
    SORENESS_NORMAL = "soreness_normal"
    SORENESS_GREEN = "soreness_green"
    PAIN_SAFE = "pain_safe"
    SKIN_OR_CRAMP = "skin_or_cramp"
    USUAL_LEVEL = "usual_level"

    # Body: amber
    PAIN_AMBER = "pain_amber"
    PAIN_NO_NUMBER = "pain_no_number"
    SAME_THROUGHOUT = "same_throughout"
    NEXT_MORNING = "next_morning"
    GONE_BY_MORNING = "gone_by_morning"
    RISING_WEEKS = "rising_weeks"
    TWO_AMBERS = "two_ambers"
    SORENESS_TOO_LONG = "soreness_too_long"
    PAINKILLER = "painkiller"
    CRAMP_AGAIN = "cramp_again"
    MAYBE_BONE = "maybe_bone"

    # Body: red
    ONE_MOMENT = "one_moment"
    SWELLING = "swelling"
    LIMP = "limp"
    NO_WEIGHT = "no_weight"
    PAIN_RED = "pain_red"
    WORSE_ON_THE_WAY = "worse_on_the_way"
    NUMBNESS = "numbness"
    GIVES_WAY = "gives_way"
    BONE_SPOT = "bone_spot"
    GROIN_OR_HIP = "groin_or_hip"
    CALF_VEIN = "calf_vein"
    TENDON_TORN = "tendon_torn"
    KNEE_LOCKED = "knee_locked"
    HOT_JOINT = "hot_joint"
    DIABETIC_FOOT = "diabetic_foot"
    BACK_SIGNS = "back_signs"
    REST_OR_NIGHT = "rest_or_night"
    CHEST_PART = "chest_part"
    QUINOLONE = "quinolone"
    STANDING_RED = "standing_red"
