"""Heat, cold and air against published values and reference libraries."""

import pytest
from pythermalcomfort.models import heat_index_rothfusz, wind_chill_temperature

from planning.facts import load
from planning.safety import weather
from tests.published import table

TABLE = table("weather")


@pytest.mark.parametrize(("f", "humidity", "expected"), TABLE["heat_index_f"])
def test_heat_index_as_the_weather_prediction_center_prints_it(f: float, humidity: float, expected: float) -> None:
    assert weather.heat_index_f(f, humidity) == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize(("c", "humidity", "expected"), TABLE["heat_index_c"])
def test_heat_index_in_celsius(c: float, humidity: float, expected: float) -> None:
    assert weather.heat_index_c(c, humidity) == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize("c", [27.5, 30, 33, 36, 40, 44])
@pytest.mark.parametrize("humidity", [20, 40, 60, 80])
def test_heat_index_agrees_with_pythermalcomfort(c: float, humidity: float) -> None:
    """It rounds to 0.1 and leaves the two adjustments of the Weather Prediction Center out: none of them falls here."""
    ours, theirs = weather.heat_index_c(c, humidity), heat_index_rothfusz(tdb=c, rh=humidity).hi
    assert ours == pytest.approx(theirs, abs=0.06)


@pytest.mark.parametrize(("f", "band"), [(89.9, 80), (90, 90), (102.9, 90), (103.0, 103), (124.9, 103), (125, 125)])
def test_bands_of_the_heat_index_begin_where_the_chart_says(f: float, band: float) -> None:
    """National Weather Service chart (from memory): 80, 90, 103, 125 F."""
    assert max(row["from_f"] for row in load("weather")["heat"] if f >= row["from_f"]) == band


@pytest.mark.parametrize(("f", "mph", "exact", "printed"), TABLE["wind_chill_f"])
def test_wind_chill_of_the_national_weather_service(f: float, mph: float, exact: float, printed: int) -> None:
    chill = weather.wind_chill_f(f, mph)
    assert chill == pytest.approx(exact, abs=0.1)
    assert round(chill) == printed


@pytest.mark.parametrize(("c", "kmh", "expected"), TABLE["wind_chill_c"])
def test_wind_chill_by_the_metric_twin(c: float, kmh: float, expected: float) -> None:
    assert weather.wind_chill_c(c, kmh) == pytest.approx(expected, abs=0.01)
    assert weather.wind_chill_c(c, kmh) == pytest.approx(wind_chill_temperature(c, kmh).wct, abs=0.06)


@pytest.mark.parametrize(("f", "mph"), [(50.1, 20), (70, 30), (20, 2.9), (20, 0)])
def test_outside_its_range_wind_chill_is_the_temperature_of_the_air(f: float, mph: float) -> None:
    """National Weather Service 2001: 50 F and below, 3 mph and above."""
    assert weather.wind_chill_f(f, mph) == f
    assert weather.wind_chill_c(weather.to_c(f), mph * 1.609344) == pytest.approx(weather.to_c(f))


def test_at_the_edges_of_its_range_wind_chill_is_still_worked_out() -> None:
    """National Weather Service 2001: at 50 F and at 3 mph."""
    assert weather.wind_chill_f(50, 20) < 50
    assert weather.wind_chill_f(20, 3) < 20


@pytest.mark.parametrize(("ug_m3", "expected"), TABLE["aqi_pm25"])
def test_air_quality_index_of_fine_dust_in_force_since_2024(ug_m3: float, expected: int) -> None:
    assert weather.aqi_pm25(ug_m3) == expected


@pytest.mark.parametrize(("ppm", "expected"), TABLE["aqi_ozone"])
def test_air_quality_index_of_ozone_rounds_half_up(ppm: float, expected: int) -> None:
    assert weather.aqi_ozone(ppm) == expected


def test_the_index_is_that_of_the_worst_pollutant() -> None:
    assert weather.aqi(weather.aqi_pm25(20), weather.aqi_ozone(0.078), None) == 126
    assert weather.aqi(None) is None
    assert weather.aqi_pm25(-1) is None
