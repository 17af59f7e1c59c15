"""Published yardsticks for a week and for a stop, for the coach: never a verdict said to the runner."""

WEEK_MINUTES = 150
RESTRICTED_DAYS = 7
MISSED_IN_A_ROW = 3


def moderate_minutes(moderate: float, vigorous: float) -> float:
    """Minutes of a week, a vigorous one counting as two moderate ones. Source: WHO 2020 (PMC7719906)."""
    return moderate + 2 * vigorous


def meets_minimum(moderate: float, vigorous: float) -> bool:
    """Whether a week reaches 150 moderate minutes or their like; any amount is better than none. Source: WHO 2020."""
    return moderate_minutes(moderate, vigorous) >= WEEK_MINUTES


def is_running_injury(restricted_days: int, missed_in_a_row: int, *, saw_professional: bool = False) -> bool:
    """Whether pain of the legs counts as an injury: running restricted for 7 days or 3 sessions in a row, or shown to a
    professional. Source: Yamato et al. 2015, Journal of Orthopaedic & Sports Physical Therapy 45:375.
    """
    return saw_professional or restricted_days >= RESTRICTED_DAYS or missed_in_a_row >= MISSED_IN_A_ROW
