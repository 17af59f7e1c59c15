"""Forecasts, paces and heart rates against published values."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.plan.paces import SPARE_FOR_CUTOFF
from planning.progress import from_hard_effort, from_log
from planning.progress.forecast import TABLE, Against, Forecast, against, logged_kmh, pace, per_mile, riegel
from planning.progress.heart import HeartRange, easy_range, karvonen, tanaka
from planning.terms.choices import Activity
from planning.terms.entry import Entry

HALF = 21.0975
TODAY = date(2026, 3, 4)
SECOND = 1 / 60


def clock(text: str) -> float:
    """ "h:mm:ss" or "mm:ss" in minutes."""
    minutes = 0.0
    for part in text.split(":"):
        minutes = minutes * 60 + float(part)
    return minutes / 60


@pytest.mark.parametrize(
    ("per_km", "half"), [("7:00", "2:27:41"), ("8:00", "2:48:47"), ("8:30", "2:59:20"), ("10:00", "3:30:58")]
)
def test_paces_of_a_half_marathon(per_km: str, half: str) -> None:
    """Half marathon 21.0975 km; within a second of either."""
    assert clock(per_km) * HALF == pytest.approx(clock(half), abs=SECOND)
    assert pace(clock(half), HALF) == pytest.approx(clock(per_km), abs=SECOND)


@pytest.mark.parametrize(("limit", "per_km"), [("3:00:00", "8:32"), ("3:30:00", "9:57"), ("4:00:00", "11:23")])
def test_the_pace_that_a_time_limit_asks_for(limit: str, per_km: str) -> None:
    assert pace(clock(limit), HALF) == pytest.approx(clock(per_km), abs=SECOND)


def test_a_pace_by_the_mile() -> None:
    """Mile 1.609344 km exactly: 8:00/km is 12:52."""
    assert per_mile(8) == pytest.approx(clock("12:52"), abs=SECOND)


@pytest.mark.parametrize(
    ("km", "time", "to_km", "expected"),
    [
        (10, "60:00", HALF, "2:12:23"),
        (5, "30:00", 10, "1:02:33"),
        (5, "30:00", HALF, "2:18:00"),
        (5, "40:00", HALF, "3:04:00"),
        (10, "90:00", HALF, "3:18:35"),
    ],
)
def test_riegel(km: float, time: str, to_km: float, expected: str) -> None:
    """Riegel 1981, American Scientist 69:285, exponent 1.06."""
    assert riegel(clock(time), km, to_km) == pytest.approx(clock(expected), abs=SECOND)


def test_doubling_the_distance_multiplies_the_time() -> None:
    """Riegel 1981: 2.0849."""
    assert riegel(30, 5, 10) / 30 == pytest.approx(2.0849, abs=0.0001)


def test_the_slow_end_for_those_who_have_run_ten_kilometres() -> None:
    """Vickers & Vertosick 2016, BMC Sports Sci Med Rehabil 8:26; exponent 1.15 is common practice: 2:21:35."""
    found = from_hard_effort(60, 10, HALF, longest_km=12)
    assert (found.expected_min, found.slow_min) == (
        pytest.approx(clock("2:12:23"), abs=SECOND),
        pytest.approx(clock("2:21:35"), abs=SECOND),
    )


@given(st.floats(20, 60), st.floats(3, 20), st.floats(0, 20))
def test_a_forecast_is_a_band_and_wider_for_those_who_have_not_gone_far(
    minutes: float, km: float, longest: float
) -> None:
    far, near = (from_hard_effort(minutes, km, HALF, each) for each in (max(longest, 10.0), longest))
    assert near.quick_min < near.expected_min < near.slow_min
    assert near.slow_min - near.quick_min >= far.slow_min - far.quick_min - 1e-6


def outings(kind: Activity, kmh: float, count: int, km: float = 4.0) -> list[Entry]:
    return [
        Entry(TODAY - timedelta(days=2 * number), kind=kind, km=km, minutes=km / kmh * 60) for number in range(count)
    ]


def test_a_forecast_from_logged_speeds_mixes_them_by_the_share_of_running() -> None:
    """1:1 at 7 and 5 km/h is 3:31 for a half."""
    log = outings(Activity.WALK, 5, 4) + outings(Activity.RUN, 7, 4)
    found = from_log(log, HALF, TODAY, run_share=0.5)
    assert found is not None
    assert found.expected_min == pytest.approx(clock("3:31:00"), abs=1)
    assert found.wide


def test_two_outings_are_not_enough_for_a_forecast() -> None:
    assert from_log(outings(Activity.WALK, 5, 2), HALF, TODAY) is None


def test_what_is_older_than_eight_weeks_does_not_count() -> None:
    old = [Entry(TODAY - timedelta(weeks=8), kind=Activity.WALK, km=4, minutes=48)] * 5
    assert from_log(old, HALF, TODAY) is None


@pytest.mark.parametrize(("km", "minutes"), [(5, 20), (3, 5), (1, 60)])
def test_speeds_that_no_beginner_walks_are_left_out(km: float, minutes: float) -> None:
    """Walk-to-run change at about 7.2 km/h (from memory): 5 km in 20 minutes is 15 km/h."""
    assert logged_kmh([Entry(TODAY, kind=Activity.WALK, km=km, minutes=minutes)] * 5, Activity.WALK) is None


def test_those_who_have_covered_ten_kilometres_get_a_narrower_band() -> None:
    short = outings(Activity.WALK, 5, 4)
    near, far = (from_log(short + outings(Activity.WALK, 5, 1, km), HALF, TODAY) for km in (4.0, 10.0))
    assert near is not None
    assert far is not None
    assert (near.wide, far.wide) == (True, False)
    assert near.slow_min - near.quick_min > far.slow_min - far.quick_min


@pytest.mark.parametrize(("age", "highest"), [(25, 190.5), (40, 180.0), (55, 169.5)])
def test_highest_heart_rate_by_age(age: int, highest: float) -> None:
    """Tanaka et al. 2001, JACC 37:153."""
    assert tanaka(age) == pytest.approx(highest)


@pytest.mark.parametrize(("share", "beats"), [(0.40, 114), (0.59, 134.9), (0.60, 136), (0.89, 167.9)])
def test_share_of_the_heart_rate_reserve(share: float, beats: float) -> None:
    """Karvonen; highest 180, at rest 70."""
    assert karvonen(70, 180, share) == pytest.approx(beats)


def test_70_percent_of_the_highest_is_not_70_percent_of_the_reserve() -> None:
    assert (round(0.7 * 180), round(karvonen(70, 180, 0.7))) == (126, 147)


def test_with_beta_blockers_there_is_no_heart_rate() -> None:
    """Beta-blockers lower the rate (from memory); the talk test stays: Persinger et al. 2004, MSSE 36:1632."""
    assert easy_range(40, 70, beta_blocker=True) is None
    assert easy_range(40, 70, beta_blocker=False) == HeartRange(pytest.approx(114), pytest.approx(134.9))
    assert easy_range(40, None, beta_blocker=False) == HeartRange(pytest.approx(115.2), pytest.approx(136.8))


@pytest.mark.parametrize(
    ("cutoff_min", "stands"),
    [(220, Against.INSIDE), (219, Against.CLOSE), (180, Against.CLOSE), (179, Against.OVER), (60, Against.OVER)],
)
def test_a_forecast_against_the_limit_of_the_organiser(cutoff_min: int, stands: Against) -> None:
    """The slow end and a tenth inside the limit, as for a plan that fits (common practice, no source)."""
    assert TABLE["cutoff"]["spare"] == SPARE_FOR_CUTOFF
    assert against(Forecast(180, 170, 200, wide=False), cutoff_min) is stands


@given(st.floats(30, 400), st.floats(1, 2), st.integers(30, 600))
def test_more_time_never_makes_it_closer(expected: float, band: float, cutoff_min: int) -> None:
    order = [Against.OVER, Against.CLOSE, Against.INSIDE]
    found = Forecast(expected, expected / band, expected * band, wide=True)
    assert order.index(against(found, cutoff_min)) <= order.index(against(found, cutoff_min + 5))
