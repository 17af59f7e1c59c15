"""How long a race will take: always an expected time with an honest band, never one number alone."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from statistics import median

from planning.facts import load
from planning.terms.choices import Activity
from planning.terms.entry import Entry, Status

TABLE = load("forecast")
MILE_KM = 1.609344


@dataclass(frozen=True, slots=True)
class Forecast:
    """Minutes: expected, and the quick and the slow end of the band. *wide*: they have not covered 10 km yet."""

    expected_min: float
    quick_min: float
    slow_min: float
    wide: bool


class Against(StrEnum):
    """How a forecast stands against the organiser's limit."""

    INSIDE = "inside"
    CLOSE = "close"
    OVER = "over"


def against(forecast: Forecast, cutoff_min: int) -> Against:
    """Inside if the slow end and a tenth fit within the limit, as for a plan that fits; over if what is expected does
    not fit; else close. Common practice, no source.
    """
    if forecast.slow_min * TABLE["cutoff"]["spare"] <= cutoff_min * 100:
        return Against.INSIDE
    return Against.OVER if forecast.expected_min > cutoff_min else Against.CLOSE


def pace(minutes: float, km: float) -> float:
    """Minutes a km of those who cover *km* in *minutes*."""
    return minutes / km


def per_mile(minutes_per_km: float) -> float:
    """The pace in minutes a mile."""
    return minutes_per_km * MILE_KM


def riegel(minutes: float, km: float, to_km: float, exponent: float = TABLE["riegel"]["exponent"]) -> float:
    """Minutes for *to_km* by those who covered *km* in *minutes* as hard as they could. An easy outing is no input.

    Source: Riegel 1981, American Scientist 69:285.
    """
    return float(minutes * (to_km / km) ** exponent)


def from_hard_effort(minutes: float, km: float, to_km: float, longest_km: float) -> Forecast:
    """Forecast from one race or all-out effort. *longest_km*: farthest covered in one go so far, in km."""
    table = TABLE["riegel"]
    wide = max(longest_km, km) < table["long_km"]
    expected, slow = riegel(minutes, km, to_km), riegel(minutes, km, to_km, table["wide_exponent"])
    quick = expected * TABLE["band"]["wide_quick" if wide else "quick"] / 100
    return Forecast(expected, quick, max(slow, expected * TABLE["band"]["wide_slow"] / 100) if wide else slow, wide)


def from_log(entries: Iterable[Entry], to_km: float, today: date, *, run_share: float | None = None) -> Forecast | None:
    """Forecast from the speeds of what was logged in the last weeks; None when that is not enough to tell.

    *run_share*: part of the time that will be run, 0 to 1. Without it, or without speeds of both kinds, the speed of
    whole outings counts.
    """
    recent = [
        each for each in entries if each.on > today - timedelta(weeks=TABLE["speeds"]["weeks"]) and each.on <= today
    ]
    speed = _race_speed(recent, run_share)
    if speed is None:
        return None
    expected = to_km / speed * 60
    wide = max(each.km or 0 for each in recent) < sure_from_km(to_km)
    quick, slow = (TABLE["band"][f"wide_{end}" if wide else end] / 100 for end in ("quick", "slow"))
    return Forecast(expected, expected * quick, expected * slow, wide)


def sure_from_km(to_km: float) -> float:
    """Distance in km from which on, once it was covered in one go, a forecast for *to_km* is no longer a wide one."""
    return min(to_km, float(TABLE["riegel"]["long_km"]))


def logged_kmh(entries: Iterable[Entry], *kinds: Activity) -> float | None:
    """Median speed in km/h of the outings of these *kinds*; None when there are too few believable ones."""
    speeds = [_believable_kmh(each) for each in entries if each.kind in kinds]
    known = [each for each in speeds if each is not None]
    return median(known) if len(known) >= TABLE["speeds"]["least_entries"] else None


def _believable_kmh(entry: Entry) -> float | None:
    """Speed of a logged outing; None where it is not known, or beyond what the table believes."""
    if entry.status is not Status.DONE or not entry.minutes or not entry.km or entry.kind is None:
        return None
    kmh = entry.km / entry.minutes * 60
    low, high = TABLE["speeds"].get(entry.kind.value, (0.0, 0.0))
    return kmh if low <= kmh <= high else None


def _race_speed(entries: list[Entry], run_share: float | None) -> float | None:
    walking, running = logged_kmh(entries, Activity.WALK), logged_kmh(entries, Activity.RUN)
    if run_share is not None and walking and running:
        return walking * (1 - run_share) + max(walking, running) * run_share
    return logged_kmh(entries, Activity.RUN_WALK) or (running if run_share == 1 else walking) or running
