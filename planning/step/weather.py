"""What the weather leaves of a session: go, shorter and slower, earlier or indoors, or not."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from planning.facts import load
from planning.safety.weather import aqi, aqi_ozone, aqi_pm25, heat_index_c, to_f, wind_chill_c
from planning.step.cap import Cap, stretch_only, tightest, under
from planning.terms.person import Profile
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Conditions, WeatherDo, WeatherStep

TABLE = load("weather")
ORDER = tuple(WeatherDo)
Rows = Sequence[Mapping[str, Any]]
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
    return WeatherStep(do, left, tuple(dict.fromkeys(why for each in verdicts for why in each.why)), felt)


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
    """Whether heat has reached its first band, so that effort may not rise."""
    return bool(_heat_bands(weather))


def _verdicts(weather: Conditions, profile: Profile, heat_medicine: bool, lungs: bool) -> Iterator[_Verdict]:
    felt = felt_c(weather)
    for rows, place in _heat_bands(weather):
        yield _of_heat(rows, place, heat_medicine)
    if felt is not None and felt <= TABLE["cold"][0]["to_c"]:
        yield _of_row([row for row in TABLE["cold"] if felt <= row["to_c"]][-1])
    index = _air(weather)
    bands = [row for row in TABLE["air"] if index is not None and index > row["above"]]
    if bands:
        yield _of_row(bands[-1], "sensitive_" if lungs or _sensitive(profile) else "")


def _heat_bands(weather: Conditions) -> list[tuple[Rows, int]]:
    """The bands of heat that are reached, by the heat index and by a measured wet-bulb globe temperature: their tables,
    each with the place of the row.
    """
    felt = felt_c(weather)
    index_f = None if felt is None else to_f(felt)
    found = []
    for rows, column, value in ((TABLE["heat"], "from_f", index_f), (TABLE["wbgt"], "from_c", weather.wbgt_c)):
        reached = [place for place, row in enumerate(rows) if value is not None and value >= row[column]]
        if reached:
            found.append((rows, reached[-1]))
    return found


def _air(weather: Conditions) -> float | None:
    """The worst index of what is known of the air."""
    measured = (
        None if weather.pm25 is None else aqi_pm25(weather.pm25),
        None if weather.ozone_ppm is None else aqi_ozone(weather.ozone_ppm),
    )
    return aqi(weather.aqi, *measured)


def _of_heat(rows: Rows, place: int, stricter: bool) -> _Verdict:
    """The band of heat, or the next one for those who bear heat badly."""
    if not stricter or place == len(rows) - 1:
        return _of_row(rows[place])
    band, stricter_band = _of_row(rows[place]), _of_row(rows[place + 1])
    return _Verdict(stricter_band.do, stricter_band.cap, (*band.why, Reason.HEAT_ONE_BAND_STRICTER))


def _of_row(row: Mapping[str, Any], people: str = "") -> _Verdict:
    limits = {name: row[people + name] for name in ("share", "effort") if people + name in row}
    cap = Cap(**limits)
    return _Verdict(WeatherDo(row[f"{people}do"]), cap, (Reason(row["why"]),))


def _sensitive(profile: Profile) -> bool:
    """Known disease, or old enough, or the age not said."""
    screen = profile.screen
    old = profile.age is None or profile.age >= TABLE["air_people"]["sensitive_age"]
    return screen.disease or screen.signs or screen.pregnant or old
