"""Weight as a smoothed trend, with cautions; never a verdict on one reading. Missing days are skipped, never 0."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from statistics import fmean, linear_regression

from planning.facts import load

RULES = load("body")["weight"]
LASTING = load("body")["lasting"]


@dataclass(frozen=True, slots=True)
class Weighing:
    """One reading of the scale."""

    on: date
    kg: float


class WeightCaution(StrEnum):
    """Why a trend is spoken of with care, and the coach told if the person agreed."""

    FAST_LOSS = "fast_loss"
    LOW_BMI = "low_bmi"


@dataclass(frozen=True, slots=True)
class WeightTrend:
    """Smoothed weight in kg and its slope in kg a week over the last four weeks; None: too few readings to tell."""

    kg: float
    kg_per_week: float | None
    cautions: tuple[WeightCaution, ...]


def smoothed_kg(weighings: Sequence[Weighing], smoothing: float = RULES["smoothing"]) -> float:
    """Exponentially smoothed weight after the last of the *weighings* (at least one, in order of date)."""
    mean = weighings[0].kg
    for each in weighings:
        mean = smoothing * each.kg + (1 - smoothing) * mean
    return mean


def mean_kg(weighings: Sequence[Weighing]) -> float:
    """Mean of the *weighings*, at least one."""
    return fmean(each.kg for each in weighings)


def slope_kg_week(weighings: Sequence[Weighing]) -> float | None:
    """Least-squares slope in kg a week; None with readings of one day alone."""
    days = [each.on.toordinal() for each in weighings]
    if len(set(days)) < 2:
        return None
    return linear_regression(days, [each.kg for each in weighings]).slope * 7


def weight_trend(weighings: Sequence[Weighing], height_cm: float | None) -> WeightTrend | None:
    """The trend of the *weighings* (in order of date) with what it cautions of; None without any.

    Source of the caution: Centers for Disease Control, 0.45 to 0.91 kg a week; 1 kg a week for three weeks is too fast,
    the first two weeks excepted (water: common practice).
    """
    if not weighings:
        return None
    last = weighings[-1].on
    window = [each for each in weighings if each.on > last - timedelta(days=RULES["window_days"])]
    slope = slope_kg_week(window)
    return WeightTrend(smoothed_kg(weighings), slope, _cautions(weighings, slope, height_cm))


def _cautions(weighings: Sequence[Weighing], slope: float | None, height_cm: float | None) -> tuple[WeightCaution, ...]:
    fast = (WeightCaution.FAST_LOSS,) if _falls_fast(weighings) else ()
    low = (WeightCaution.LOW_BMI,) if _is_low(smoothed_kg(weighings), slope, height_cm) else ()
    return fast + low


def _falls_fast(weighings: Sequence[Weighing]) -> bool:
    """Faster than the limit over the weeks that the table asks for, the first days of all left out."""
    settled = weighings[0].on + timedelta(days=RULES["first_days"])
    span = timedelta(days=7 * RULES["fast_weeks"])
    judged = [each for each in weighings if each.on >= max(settled, weighings[-1].on - span)]
    slope = slope_kg_week(judged)
    long_enough = bool(judged) and judged[-1].on - judged[0].on >= span
    return slope is not None and long_enough and -round(slope, 6) >= RULES["fast_kg_week"]


def _is_low(kg: float, slope: float | None, height_cm: float | None) -> bool:
    if height_cm is None:
        return False
    bmi = kg / (height_cm / 100) ** 2
    return bmi < RULES["under_bmi"] or (bmi < RULES["low_bmi"] and (slope or 0) < 0)


def lasting_change_kg(kcal_day: float, days: float) -> float:
    """Change of weight after *days* of a lasting change of *kcal_day* (negative: less), as a curve that levels off.

    24 kcal a day change 1 kg in the end, half of it in a year. Source: Hall et al. 2011, Lancet 378:826. The published
    points don't lie on one curve (95 % in three years): good for the first year.
    """
    return float(kcal_day / LASTING["kcal_day_per_kg"] * (1 - 0.5 ** (days / LASTING["half_days"])))
