"""Heat, cold and smoke: go, shorter, earlier or indoors, or not."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.step import is_hot, weather_step
from planning.terms.person import Screen
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Conditions, WeatherDo
from tests.planning.sessions import a_person, a_session, sessions

WELL = a_person()
ILL = a_person(screen=Screen(disease=True))
GO, SHORTEN, INDOORS, NOT = WeatherDo
WARM_AND_HOT = (Conditions(28, 50), Conditions(33, 60))


@pytest.mark.parametrize(
    ("weather", "do", "minutes"),
    [
        (Conditions(18, 60), GO, 40),
        (Conditions(26.6, 40), GO, 40),
        (Conditions(28, 50), SHORTEN, 30),
        (Conditions(32, 50), INDOORS, 20),
        (Conditions(33, 60), NOT, 0),
        (Conditions(45, 50), NOT, 0),
        (Conditions(30, None), INDOORS, 20),
        (Conditions(5, wind_kmh=15), GO, 40),
        (Conditions(-5, wind_kmh=20), SHORTEN, 30),
        (Conditions(-10, wind_kmh=30), INDOORS, 20),
        (Conditions(-20, wind_kmh=20), NOT, 0),
        (Conditions(-8), SHORTEN, 30),
        (Conditions(), GO, 40),
    ],
)
def test_what_heat_and_cold_leave_of_forty_minutes(weather: Conditions, do: WeatherDo, minutes: int) -> None:
    """Bands: National Weather Service charts (from memory); what they leave is common practice, no source."""
    step = weather_step(a_session("w40"), weather, WELL)
    assert (step.do, step.session.minutes) == (do, minutes)


@pytest.mark.parametrize(
    ("weather", "effort"),
    [
        (Conditions(28, 50), 3),
        (Conditions(32, 50), 2),
        (Conditions(wbgt_c=20), 3),
        (Conditions(wbgt_c=29), 2),
        (Conditions(-5, wind_kmh=20), 3),
        (Conditions(-10, wind_kmh=30), 3),
        (Conditions(aqi=160), 3),
        (Conditions(aqi=250), 2),
    ],
)
def test_weather_holds_the_effort_down(weather: Conditions, effort: int) -> None:
    """Common practice, no source."""
    assert weather_step(a_session("w40", effort=(4, 5)), weather, WELL).session.effort == (effort, effort)


@pytest.mark.parametrize(
    ("aqi", "for_all", "for_sensitive"),
    [
        (100, GO, GO),
        (101, GO, SHORTEN),
        (150, GO, SHORTEN),
        (151, SHORTEN, INDOORS),
        (200, SHORTEN, INDOORS),
        (201, INDOORS, NOT),
        (301, NOT, NOT),
    ],
)
def test_what_smoke_leaves_by_band_of_the_index(aqi: float, for_all: WeatherDo, for_sensitive: WeatherDo) -> None:
    """US EPA, Air Quality Guide: sensitive groups from 101 on, everybody from 151, indoors from 201."""
    air = Conditions(aqi=aqi)
    assert weather_step(a_session(), air, WELL).do is for_all
    assert weather_step(a_session(), air, ILL).do is for_sensitive
    assert weather_step(a_session(), air, WELL, lungs=True).do is for_sensitive


@pytest.mark.parametrize(
    ("wbgt_c", "do"), [(18.2, GO), (18.4, SHORTEN), (27.7, SHORTEN), (27.9, INDOORS), (30.1, NOT), (32.3, NOT)]
)
def test_a_measured_wet_bulb_globe_temperature_counts_as_for_the_unacclimatised(wbgt_c: float, do: WeatherDo) -> None:
    """Armstrong et al. 2007, Med Sci Sports Exerc 39:556: 27.9-30.0 limit, 30.1-32.2 stop; 65 F moderate."""
    assert weather_step(a_session(), Conditions(wbgt_c=wbgt_c), WELL).do is do


def test_the_worst_of_what_is_known_of_the_air_counts() -> None:
    """US EPA: PM2.5 of 80 ug/m3 is an index of 168, ozone of 0.078 ppm one of 126."""
    assert weather_step(a_session(), Conditions(aqi=40, pm25=80), WELL).do is SHORTEN
    assert weather_step(a_session(), Conditions(aqi=40, ozone_ppm=0.078), ILL).do is SHORTEN


@pytest.mark.parametrize(("age", "do"), [(64, GO), (65, SHORTEN), (None, SHORTEN)])
def test_age_and_an_unknown_age_count_as_sensitive_to_smoke(age: int | None, do: WeatherDo) -> None:
    assert weather_step(a_session(), Conditions(aqi=120), a_person(age=age)).do is do


def test_medicines_that_hinder_sweating_count_one_band_stricter() -> None:
    mild, danger = (weather_step(a_session(), each, WELL, heat_medicine=True) for each in WARM_AND_HOT)
    assert (mild.do, mild.why) == (INDOORS, (Reason.HEAT_CAUTION, Reason.HEAT_ONE_BAND_STRICTER))
    assert (danger.do, danger.why) == (NOT, (Reason.HEAT_DANGER, Reason.HEAT_ONE_BAND_STRICTER))


def test_above_the_last_band_there_is_no_stricter_one() -> None:
    step = weather_step(a_session(), Conditions(45, 60), WELL, heat_medicine=True)
    assert (step.do, step.why) == (NOT, (Reason.HEAT_EXTREME_DANGER,))


@pytest.mark.parametrize(
    ("weather", "hot"), [(Conditions(26, 40), False), (Conditions(28, 50), True), (Conditions(), False)]
)
def test_it_is_hot_from_the_first_band_of_the_heat_index_on(weather: Conditions, hot: bool) -> None:
    assert is_hot(weather) is hot


@given(sessions(), st.floats(20, 45), st.floats(20, 45), st.floats(0, 100))
def test_more_heat_never_gives_a_larger_step(session: Session, one: float, other: float, humidity: float) -> None:
    mild, hot = (weather_step(session, Conditions(each, humidity), WELL).session for each in sorted((one, other)))
    assert (hot.seconds <= mild.seconds, hot.run_seconds <= mild.run_seconds) == (True, True)


@given(sessions(), st.floats(-40, 9), st.floats(-40, 9), st.floats(0, 80))
def test_more_cold_never_gives_a_larger_step(session: Session, one: float, other: float, wind: float) -> None:
    cold, mild = (weather_step(session, Conditions(each, wind_kmh=wind), WELL) for each in sorted((one, other)))
    assert cold.session.seconds <= mild.session.seconds


@given(sessions(), st.floats(0, 600), st.floats(0, 600))
def test_more_smoke_never_gives_a_larger_step(session: Session, one: float, other: float) -> None:
    clear, smoky = (weather_step(session, Conditions(aqi=each), ILL) for each in sorted((one, other)))
    assert smoky.session.seconds <= clear.session.seconds
