"""Body, weight and fuel against published values."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.progress import weight_trend
from planning.progress.body import Range, bmi_class, carbohydrate_g, least_intake_kcal, resting_kcal
from planning.progress.weight import (
    Weighing,
    WeightCaution,
    lasting_change_kg,
    mean_kg,
    slope_kg_week,
    smoothed_kg,
)
from planning.terms.choices import Sex

DAY = date(2026, 3, 2)
WEEK = [100.0, 99.4, 100.6, 99.8, 99.2, 99.9, 99.0]


def weighings(values: list[float], every: int = 1) -> list[Weighing]:
    return [Weighing(DAY + timedelta(days=every * number), kg) for number, kg in enumerate(values)]


@pytest.mark.parametrize(
    ("kg", "cm", "age", "sex", "low", "high"),
    [
        (95, 165, 42, Sex.FEMALE, 1610.25, 1610.25),
        (110, 178, 38, Sex.MALE, 2027.5, 2027.5),
        (100, 170, 50, Sex.FEMALE, 1651.5, 1651.5),
        (100, 170, 50, None, 1651.5, 1817.5),
    ],
)
def test_resting_energy(kg: float, cm: float, age: int, sex: Sex | None, low: float, high: float) -> None:
    """Mifflin et al. 1990, Am J Clin Nutr 51:241 (from memory); sex not said: a range of 166."""
    assert resting_kcal(kg, cm, age, sex) == Range(low, high)


@pytest.mark.parametrize(
    ("bmi", "name"),
    [
        (18.49, "underweight"),
        (18.5, "normal"),
        (24.99, "normal"),
        (81 / 1.8**2, "overweight"),
        (29.96, "overweight"),
        (30.0, "class_1"),
        (95 / 1.65**2, "class_1"),
        (110 / 1.78**2, "class_1"),
        (35.0, "class_2"),
        (40.0, "class_3"),
    ],
)
def test_classes_of_the_body_mass_index_before_rounding(bmi: float, name: str) -> None:
    """World Health Organization (from memory); 81 kg at 180 cm is exactly 25."""
    assert bmi_class(bmi) == name


def test_trend_of_one_week_of_readings() -> None:
    """Worked numbers; 7-day mean or a smoothing of 0.1 a day: common practice, no source."""
    week = weighings(WEEK)
    assert mean_kg(week) == pytest.approx(99.700, abs=0.001)
    assert smoothed_kg(week) == pytest.approx(99.816, abs=0.001)
    assert smoothed_kg(week, 0.25) == pytest.approx(99.610, abs=0.001)
    assert slope_kg_week(week) == pytest.approx(-0.850, abs=0.001)


def test_missing_days_are_skipped() -> None:
    assert smoothed_kg(weighings(WEEK, every=3)) == smoothed_kg(weighings(WEEK))


@pytest.mark.parametrize(
    ("per_week", "weeks", "caution"),
    [(0.9, 6, False), (1.0, 6, True), (1.5, 6, True), (1.0, 4, False), (1.5, 2, False)],
)
def test_a_kilogram_a_week_for_three_weeks_is_too_fast_the_first_two_weeks_excepted(
    per_week: float, weeks: int, caution: bool
) -> None:
    """Centers for Disease Control: 0.45-0.91 kg a week; the exception is common practice."""
    values = [110 - per_week * number / 7 for number in range(7 * weeks + 1)]
    trend = weight_trend(weighings(values), 170)
    assert trend is not None
    assert (WeightCaution.FAST_LOSS in trend.cautions) is caution


def test_water_lost_in_the_first_two_weeks_is_no_caution() -> None:
    values = [110 - 0.4 * number for number in range(14)] + [104.8 - 0.05 * number for number in range(21)]
    trend = weight_trend(weighings(values), 170)
    assert trend is not None
    assert trend.cautions == ()


@pytest.mark.parametrize(
    ("kg", "slope", "caution"), [(59, -0.02, False), (57, -0.02, True), (57, 0.02, False), (53, 0.02, True)]
)
def test_a_low_body_mass_index_is_a_caution(kg: float, slope: float, caution: bool) -> None:
    """WHO (from memory): below 18.5; below 20 while it falls: common practice. At 170 cm: 53.5 and 57.8 kg."""
    trend = weight_trend(weighings([kg + slope * number for number in range(8)]), 170)
    assert trend is not None
    assert (WeightCaution.LOW_BMI in trend.cautions) is caution


@given(st.lists(st.floats(40, 200), min_size=1, max_size=60))
def test_a_trend_lies_between_the_lowest_and_the_highest_reading(values: list[float]) -> None:
    trend = weight_trend(weighings(values), None)
    assert trend is not None
    assert min(values) - 1e-6 <= trend.kg <= max(values) + 1e-6


def test_without_readings_there_is_no_trend_and_with_one_no_slope() -> None:
    assert weight_trend([], 170) is None
    assert weight_trend(weighings([90.0]), 170) == weight_trend(weighings([90.0]), None)
    assert slope_kg_week(weighings([90.0])) is None


@pytest.mark.parametrize(("days", "kg"), [(91, -1.59), (182, -2.92), (365, -5.00), (730, -7.50)])
def test_a_lasting_change_of_240_kcal_a_day_levels_off(days: int, kg: float) -> None:
    """Hall et al. 2011, Lancet 378:826: 24 kcal a day per kg, half in a year; the later points from one exponential."""
    assert lasting_change_kg(-240, days) == pytest.approx(kg, abs=0.01)


def test_the_curve_is_no_straight_line_and_ends_at_ten_kilograms() -> None:
    assert lasting_change_kg(-240, 730) > 2 * lasting_change_kg(-240, 365)
    assert lasting_change_kg(-240, 36500) == pytest.approx(-10, abs=0.01)


@pytest.mark.parametrize(("minutes", "grams"), [(45, None), (59, None), (60, (30, 60)), (150, (75, 150))])
def test_carbohydrate_for_an_outing(minutes: float, grams: tuple[float, float] | None) -> None:
    """Jeukendrup 2014, Sports Med 44 Suppl 1:S25: 30-60 g an hour from an hour on, whatever the body weight."""
    assert carbohydrate_g(minutes) == (grams and Range(*grams))


@pytest.mark.parametrize(("sex", "kcal"), [(Sex.FEMALE, 1200), (Sex.MALE, 1500), (None, 1500)])
def test_the_floor_of_intake(sex: Sex | None, kcal: int) -> None:
    """Common in NHLBI guidance (from memory)."""
    assert least_intake_kcal(sex) == kcal
