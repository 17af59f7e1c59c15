"""How far beyond the longest of 30 days, and when pain is an injury: published bounds."""

from datetime import date, timedelta

import pytest

from planning.progress.guidance import is_running_injury, meets_minimum, moderate_minutes
from planning.progress.spike import Spike, longest_before, spike

TODAY = date(2026, 3, 31)


@pytest.mark.parametrize(
    ("metres", "found"),
    [
        (6000, Spike.REFERENCE),
        (6600, Spike.REFERENCE),
        (6610, Spike.SMALL),
        (7800, Spike.SMALL),
        (7810, Spike.MODERATE),
        (12000, Spike.MODERATE),
        (12100, Spike.LARGE),
    ],
)
def test_classes_of_a_session_after_six_kilometres(metres: int, found: Spike) -> None:
    """Frandsen et al. 2025, Br J Sports Med 59:1203."""
    assert spike(metres, 6000) is found


@pytest.mark.parametrize(("metres", "longest"), [(5500, 5000), (11000, 10000), (4400, 4000), (7700, 7000)])
def test_exactly_a_tenth_more_stays_reference(metres: int, longest: int) -> None:
    """Floats would put 5.5 / 5.0 - 1 above 0.1."""
    assert spike(metres, longest) is Spike.REFERENCE


@pytest.mark.parametrize(("days_ago", "counts"), [(0, False), (1, True), (30, True), (31, False)])
def test_thirty_days_ago_counts_and_thirty_one_does_not(days_ago: int, counts: bool) -> None:
    longest = longest_before([(TODAY - timedelta(days=days_ago), 6000)], TODAY)
    assert (longest is not None) is counts
    assert (spike(6000, longest) is Spike.NO_BASELINE) is not counts


@pytest.mark.parametrize(
    ("days", "missed", "seen", "injury"),
    [(0, 2, False, False), (0, 3, False, True), (7, 1, False, True), (6, 1, False, False), (1, 0, True, True)],
)
def test_when_pain_is_a_running_injury(days: int, missed: int, seen: bool, injury: bool) -> None:
    """Yamato et al. 2015, JOSPT 45:375: 7 days, 3 sessions in a row, or a professional."""
    assert is_running_injury(days, missed, saw_professional=seen) is injury


@pytest.mark.parametrize(
    ("moderate", "vigorous", "like", "meets"), [(90, 30, 150, True), (149, 0, 149, False), (0, 75, 150, True)]
)
def test_the_minimum_of_a_week(moderate: float, vigorous: float, like: float, meets: bool) -> None:
    """WHO 2020 (PMC7719906): a vigorous minute counts twice."""
    assert (moderate_minutes(moderate, vigorous), meets_minimum(moderate, vigorous)) == (like, meets)
