"""What the weather leaves of a session: go, shorter and slower, earlier or indoors, or not."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from planning.facts import load
from planning.safety.weather import heat_index_c, to_f, wind_chill_c
from planning.step.cap import Cap, stretch_only, tightest, under
from planning.terms.person import Profile
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Conditions, WeatherDo, WeatherStep

TABLE = load("weather")
ORDER = tuple(WeatherDo)
COLD_BELOW_C = 10.0
"""At and below it wind chill is defined (50 F)."""


@dataclass(frozen=True, slots=True)
class _Verdict:
    do: WeatherDo
    cap: Cap
    why: tuple[Reason, ...]


def weather_step(
    session: Session, weather: Conditions, profile: Profile, *, heat_medicine: bool = False, lungs: bool = False
) -> WeatherStep:
    """*session* in that *weather*. What was not said of it counts as the careful side.

    *heat_medicine*: takes diuretics, lithium or a mood medicine, so heat counts one band stricter; *lungs*: asthma or
    another disease of the lungs, so smoke does.
    """
    verdicts = tuple(_verdicts(weather, profile, heat_medicine, lungs))
    felt = felt_c(weather)
    if not verdicts:
        return WeatherStep(WeatherDo.GO, session, (Reason.WEATHER_FINE,), felt)
    do = max((each.do for each in verdicts), key=ORDER.index)
    cap = tightest(each.cap for each in verdicts)
    left = stretch_only(session) if do is WeatherDo.NOT else under(session, cap)
    return WeatherStep(do, left, tuple(why for each in verdicts for why in each.why), felt)


def felt_c(weather: Conditions) -> float | None:
    """Heat index above 10 C, wind chill below, in C; None without a temperature."""
    if weather.c is None:
        return None
    if weather.c <= COLD_BELOW_C:
        wind = TABLE["wind_chill"]["unknown_wind_kmh"] if weather.wind_kmh is None else weather.wind_kmh
        return wind_chill_c(weather.c, wind)
    humidity = TABLE["heat_index"]["unknown_humidity"] if weather.humidity is None else weather.humidity
    return heat_index_c(weather.c, humidity)


def is_hot(weather: Conditions) -> bool:
    """Whether the heat index has reached the first band, so that effort may not rise."""
    felt = felt_c(weather)
    return felt is not None and to_f(felt) >= TABLE["heat"][0]["from_f"]


def _verdicts(weather: Conditions, profile: Profile, heat_medicine: bool, lungs: bool) -> Iterator[_Verdict]:
    felt = felt_c(weather)
    if felt is not None and is_hot(weather):
        yield _of_heat(to_f(felt), heat_medicine)
    if felt is not None and felt <= TABLE["cold"][0]["to_c"]:
        yield _of_row([row for row in TABLE["cold"] if felt <= row["to_c"]][-1])
    rows = [row for row in TABLE["air"] if weather.aqi is not None and weather.aqi > row["above"]]
    if rows:
        yield _of_row(rows[-1], "sensitive_" if lungs or _sensitive(profile) else "")


def _of_heat(felt_f: float, stricter: bool) -> _Verdict:
    """The band of the heat index, or the next one for those who bear heat badly."""
    rows = TABLE["heat"]
    place = max(index for index, row in enumerate(rows) if felt_f >= row["from_f"])
    if not stricter or place == len(rows) - 1:
        return _of_row(rows[place])
    band, stricter_band = _of_row(rows[place]), _of_row(rows[place + 1])
    return _Verdict(stricter_band.do, stricter_band.cap, (*band.why, Reason.HEAT_ONE_BAND_STRICTER))


def _of_row(row: Mapping[str, Any], people: str = "") -> _Verdict:
    cap = Cap(share=row[f"{people}share"], effort=row[f"{people}effort"])
    return _Verdict(WeatherDo(row[f"{people}do"]), cap, (Reason(row["why"]),))


def _sensitive(profile: Profile) -> bool:
    """Known disease, or old enough, or the age not said."""
    screen = profile.screen
    old = profile.age is None or profile.age >= TABLE["air_people"]["sensitive_age"]
    return screen.disease or screen.signs or screen.pregnant or old
