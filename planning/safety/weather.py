"""How hot, cold and smoky it is, by the published formulas."""

from decimal import ROUND_HALF_UP, Decimal
from math import sqrt

from planning.facts import load

TABLE = load("weather")
MPH_IN_KMH = 1.609344


def to_f(c: float) -> float:
    """*c* degrees Celsius in Fahrenheit."""
    return c * 9 / 5 + 32


def to_c(f: float) -> float:
    """*f* degrees Fahrenheit in Celsius."""
    return (f - 32) * 5 / 9


def heat_index_f(f: float, humidity: float) -> float:
    """Heat index in F of air at *f* (F) and relative *humidity* (%), in shade and light wind.

    Source: Rothfusz 1990, NWS SR 90-23, with the adjustments and the simple formula of the Weather Prediction Center.
    """
    average = (0.5 * (f + 61 + 1.2 * (f - 68) + 0.094 * humidity) + f) / 2
    if average < TABLE["heat_index"]["simple_below_f"]:
        return average
    return _regression(f, humidity) + _adjustment(f, humidity)


def _regression(f: float, r: float) -> float:
    values = (1, f, r, f * r, f * f, r * r, f * f * r, f * r * r, f * f * r * r)
    return float(sum(term * value for term, value in zip(TABLE["heat_index"]["terms"], values, strict=True)))


def _adjustment(f: float, humidity: float) -> float:
    if humidity < 13 and 80 <= f <= 112:
        return -(13 - humidity) / 4 * sqrt((17 - abs(f - 95)) / 17)
    if humidity > 85 and 80 <= f <= 87:
        return (humidity - 85) / 10 * ((87 - f) / 5)
    return 0.0


def heat_index_c(c: float, humidity: float) -> float:
    """Heat index in C of air at *c* (C) and relative *humidity* (%)."""
    return to_c(heat_index_f(to_f(c), humidity))


def wind_chill_f(f: float, mph: float) -> float:
    """Wind chill in F at *f* (F) and wind of *mph* at 10 m; outside its range (above 50 F, below 3 mph) the air's.

    Source: National Weather Service 2001.
    """
    limits = TABLE["wind_chill"]
    if f > limits["most_f"] or mph < limits["least_mph"]:
        return f
    return _chilled(limits["us"], f, mph)


def wind_chill_c(c: float, kmh: float) -> float:
    """Wind chill in C at *c* (C) and wind of *kmh* at 10 m, by the metric twin; same range."""
    limits = TABLE["wind_chill"]
    if to_f(c) > limits["most_f"] or kmh < limits["least_mph"] * MPH_IN_KMH:
        return c
    return _chilled(limits["metric"], c, kmh)


def _chilled(terms: list[float], temperature: float, wind: float) -> float:
    constant, of_air, of_wind, of_both = terms
    power = wind**0.16
    return float(constant + of_air * temperature + of_wind * power + of_both * temperature * power)


def aqi_pm25(ug_m3: float) -> int | None:
    """US AQI of a 24-hour mean of PM2.5 in ug/m3; 500 and more is given as 500, a negative value is None."""
    return _aqi(ug_m3, TABLE["aqi_pm25"]["breakpoints"], TABLE["aqi_pm25"]["decimals"])


def aqi_ozone(ppm: float) -> int | None:
    """US AQI of an 8-hour mean of ozone in ppm."""
    return _aqi(ppm, TABLE["aqi_ozone"]["breakpoints"], TABLE["aqi_ozone"]["decimals"])


def aqi(*parts: float | None) -> float | None:
    """The air quality index of several pollutants: the highest of those that are known."""
    return max((each for each in parts if each is not None), default=None)


def _aqi(value: float, breakpoints: list[list[float]], decimals: int) -> int | None:
    """Linear inside a band; in decimals, since 9.05 must be cut to 9.0 and 125.5 be rounded up."""
    if value < 0:
        return None
    scale = Decimal(10) ** decimals
    cut = Decimal(int(Decimal(str(value)) * scale)) / scale
    for row in breakpoints:
        low, high, index_low, index_high = (Decimal(str(each)) for each in row)
        if cut <= high:
            exact = (index_high - index_low) / (high - low) * (cut - low) + index_low
            return int(exact.quantize(Decimal(1), ROUND_HALF_UP))
    return int(breakpoints[-1][3])
