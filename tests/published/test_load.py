"""Training load against worked numbers and numpy."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.progress import load
from planning.terms.choices import Activity
from planning.terms.entry import Entry, Status

MIXED = [60.0, 0.0, 75.0, 0.0, 60.0, 0.0, 120.0]
EVEN = [100.0] * 6 + [0.0]
JUMP = [100.0] * 21 + [150.0] * 7
MONDAY = date(2026, 3, 2)


@pytest.mark.parametrize(("effort", "minutes", "units"), [(4, 30, 120), (3, 15, 45), (0, 0, 0)])
def test_session_load_is_effort_times_minutes_done(effort: float, minutes: float, units: float) -> None:
    """Foster et al. 2001, J Strength Cond Res 15:109; 15 done of 25 planned count as 15."""
    assert load.session_load(effort, minutes) == units


@pytest.mark.parametrize(
    ("loads", "total", "monotony", "strain"), [(MIXED, 315, 0.965, 303.9), (EVEN, 600, 2.268, 1360.7)]
)
def test_week_monotony_and_strain(loads: list[float], total: float, monotony: float, strain: float) -> None:
    """Foster 1998, MSSE 30:1164 (from memory), with the sample deviation."""
    assert load.week_load(loads) == total
    assert load.monotony(loads) == pytest.approx(monotony, abs=0.001)
    assert load.strain(loads) == pytest.approx(strain, abs=0.1)


def test_seven_equal_days_have_no_monotony() -> None:
    assert load.monotony([50.0] * 7) is None
    assert load.strain([50.0] * 7) is None


def test_rolling_ratios_coupled_and_uncoupled() -> None:
    """Worked numbers: 21 days of 100, then 7 of 150."""
    assert load.ratio_coupled(JUMP) == pytest.approx(1.3333, abs=0.0001)
    assert load.ratio_uncoupled(JUMP) == pytest.approx(1.5, abs=0.0001)


def test_smoothed_loads() -> None:
    """Williams et al. 2017, Br J Sports Med 51:209: factors 0.25 and 0.068966, seeded with the first day."""
    assert load.smoothed(JUMP, 7) == pytest.approx(143.326, abs=0.001)
    assert load.smoothed(JUMP, 28) == pytest.approx(119.680, abs=0.001)
    assert load.ratio_smoothed(JUMP) == pytest.approx(1.1976, abs=0.0001)


@pytest.mark.parametrize(("seed", "acute", "chronic"), [(None, 23.184, 28.651), (0.0, 23.168, 21.890)])
def test_the_seed_of_smoothing_matters(seed: float | None, acute: float, chronic: float) -> None:
    """Worked numbers: the same runner, seeded with the first load or with a day of nothing before it."""
    loads = [50.0, 0, 50, 0, 50, 0, 0] * 3 + [80.0, 0, 80, 0, 80, 0, 0]
    assert load.smoothed(loads, 7, seed) == pytest.approx(acute, abs=0.001)
    assert load.smoothed(loads, 28, seed) == pytest.approx(chronic, abs=0.001)
    assert (load.ratio_coupled(loads), load.ratio_uncoupled(loads)) == (
        pytest.approx(1.391, abs=0.001),
        pytest.approx(1.600, abs=0.001),
    )


months = st.lists(st.floats(0, 600), min_size=28, max_size=60)


@given(months)
def test_numpy_gives_the_same(loads: list[float]) -> None:
    days = np.array(loads)
    assert load.week_load(loads) == pytest.approx(float(days[-7:].sum()))
    if days[-28:].mean() > 0.1:
        assert load.ratio_coupled(loads) == pytest.approx(float(days[-7:].mean() / days[-28:].mean()))
    if days[-7:].std(ddof=1) > 0.1:
        assert load.monotony(loads) == pytest.approx(float(days[-7:].mean() / days[-7:].std(ddof=1)))


@given(months)
def test_a_coupled_ratio_is_never_above_four(loads: list[float]) -> None:
    ratio = load.ratio_coupled(loads)
    assert ratio is None or ratio <= 4 + 1e-9


def test_constant_loads_have_a_ratio_of_one() -> None:
    loads = [70.0] * 40
    ratios = (load.ratio_coupled(loads), load.ratio_uncoupled(loads), load.ratio_smoothed(loads))
    assert ratios == (pytest.approx(1), pytest.approx(1), pytest.approx(1))


@pytest.mark.parametrize("loads", [[50.0] * 27, [0.0] * 28, [None, *[50.0] * 27], [*[50.0] * 27, None], []])
def test_without_enough_history_there_is_no_ratio(loads: list[float | None]) -> None:
    """Common practice, no source: chronic 0, fewer than 28 days, or a day of which nobody knows."""
    assert (load.ratio_coupled(loads), load.ratio_smoothed(loads)) == (None, None)


def test_a_rest_day_is_nothing_and_a_silent_day_is_unknown() -> None:
    """Common practice, no source."""
    entries = (
        Entry(MONDAY, kind=Activity.WALK, minutes=20, effort=3),
        Entry(MONDAY, kind=Activity.STRETCH, minutes=5),
        Entry(MONDAY + timedelta(days=1), Status.MISSED),
        Entry(MONDAY + timedelta(days=2), Status.NO_WORD),
        Entry(MONDAY + timedelta(days=3), kind=Activity.WALK, minutes=20),
    )
    quiet = frozenset({MONDAY + timedelta(days=4)})
    assert load.daily_loads(entries, MONDAY, MONDAY + timedelta(days=5), quiet) == (60, 0, None, None, None, 0)


def test_a_week_with_a_day_of_which_nobody_knows_has_no_sum() -> None:
    assert load.week_load([*MIXED[:6], None]) is None
