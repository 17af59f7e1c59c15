"""What became of all: week by week, and the same people under two rules, person by person."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from random import Random
from statistics import fmean

from bot.trial.life import Life, OneWeek

DRAWS = 1_000
"""Resamples of the bootstrap."""

BAND = (0.025, 0.975)


@dataclass(frozen=True, slots=True)
class WeekTotals:
    """One week of all. *going*: of 100 people; *minutes*: a person, those included who gave up; the rest are counts."""

    number: int
    going: float
    done: int
    planned: int
    minutes: float
    nudges: int
    grave: int


def by_week(lives: Sequence[Life]) -> tuple[WeekTotals, ...]:
    """The totals of each week, the first one first."""
    weeks = zip(*(each.weeks for each in lives), strict=True)
    return tuple(_totals(number, week) for number, week in enumerate(weeks, 1))


def _totals(number: int, weeks: Sequence[OneWeek]) -> WeekTotals:
    return WeekTotals(
        number,
        going=100 * fmean(each.going for each in weeks),
        done=sum(each.done for each in weeks),
        planned=sum(each.planned for each in weeks),
        minutes=fmean(each.minutes for each in weeks),
        nudges=sum(each.nudges for each in weeks),
        grave=sum(each.grave for each in weeks),
    )


@dataclass(frozen=True, slots=True)
class Measure:
    """A number for one life."""

    name: str
    of: Callable[[Life], float]


MEASURES = (
    Measure("still going at the end, of 100", lambda life: 100.0 * life.weeks[-1].going),
    Measure("weeks still going", lambda life: sum(each.going for each in life.weeks)),
    Measure("sessions done", lambda life: sum(each.done for each in life.weeks)),
    Measure("minutes a week", lambda life: fmean(each.minutes for each in life.weeks)),
    Measure("nudges", lambda life: sum(each.nudges for each in life.weeks)),
    Measure("grave messages, for 100", lambda life: 100.0 * sum(each.grave for each in life.weeks)),
)


@dataclass(frozen=True, slots=True)
class Compared:
    """A measure under two rules, as means of a person; *low*, *high*: the band of 95 % around the mean difference."""

    name: str
    first: float
    second: float
    difference: float
    low: float
    high: float


def compare(first: Sequence[Life], second: Sequence[Life], seed: int) -> tuple[Compared, ...]:
    """Each measure under both rules. The same people stand in both, in the same order, with the same luck.

    The band is a percentile bootstrap over people (Efron & Tibshirani, An Introduction to the Bootstrap, 1993).
    """
    return tuple(_compared(measure, first, second, Random(f"{seed}:{measure.name}")) for measure in MEASURES)


def _compared(measure: Measure, first: Sequence[Life], second: Sequence[Life], random: Random) -> Compared:
    ones, others = [measure.of(each) for each in first], [measure.of(each) for each in second]
    differences = [other - one for one, other in zip(ones, others, strict=True)]
    low, high = band(differences, random)
    return Compared(measure.name, fmean(ones), fmean(others), fmean(differences), low, high)


def band(values: Sequence[float], random: Random) -> tuple[float, float]:
    """Where the mean of *values* lies in 95 % of the resamples."""
    means = sorted(fmean(random.choices(values, k=len(values))) for _ in range(DRAWS))
    low, high = BAND
    return means[int(low * DRAWS)], means[int(high * DRAWS) - 1]
