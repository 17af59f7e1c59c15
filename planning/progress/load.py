"""Training load, a trend for the coach: never a risk, never a percentage, and never said to the runner.

Dividing acute by chronic load told hardly more about injuries than chance (Impellizzeri et al. 2021, Sports Medicine
51:581), so there is no "zone" in here. A rest day is a load of 0; a day without a word is unknown, and stays so.
"""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from statistics import fmean, stdev

from planning.terms.choices import Activity
from planning.terms.entry import Entry, Status

ACUTE_DAYS, CHRONIC_DAYS = 7, 28
Loads = Sequence[float | None]
"""Load of each day, oldest first; None: unknown."""


def session_load(effort: float, minutes: float) -> float:
    """CR-10 rating of the whole session x minutes really done, in arbitrary units.

    Source: Foster et al. 2001, Journal of Strength and Conditioning Research 15:109.
    """
    return effort * minutes


def daily_loads(entries: Iterable[Entry], first: date, last: date, quiet: frozenset[date] = frozenset()) -> Loads:
    """Load of each day from *first* to *last*. *quiet*: planned days without a word, which are unknown.

    A day with something done of which minutes or effort are not known is unknown too; any other day is a rest day.
    """
    found: dict[date, float | None] = dict.fromkeys(quiet)
    for each in entries:
        load = _load(each)
        before = found.get(each.on, 0.0)
        found[each.on] = None if load is None or before is None else before + load
    days = (last - first).days + 1
    return tuple(found.get(first + timedelta(days=number), 0.0) for number in range(days))


def _load(entry: Entry) -> float | None:
    if entry.status is Status.MISSED or entry.kind is Activity.STRETCH:
        return 0.0
    if entry.status is Status.NO_WORD or entry.effort is None or entry.minutes is None:
        return None
    return session_load(entry.effort, entry.minutes)


def week_load(loads: Loads) -> float | None:
    """Sum of the last seven days; None if one of them is unknown, or there are fewer."""
    week = _known(loads, ACUTE_DAYS)
    return None if week is None else sum(week)


def monotony(loads: Loads) -> float | None:
    """Mean daily load of the last seven days by its sample standard deviation (n - 1); None where all are equal.

    Source: Foster 1998, Medicine & Science in Sports & Exercise 30:1164 (from memory; which deviation it doesn't say).
    """
    week = _known(loads, ACUTE_DAYS)
    if week is None:
        return None
    spread = stdev(week)
    return fmean(week) / spread if spread else None


def strain(loads: Loads) -> float | None:
    """Load of the week x monotony. Source: Foster 1998 (from memory)."""
    total, even = week_load(loads), monotony(loads)
    return None if total is None or even is None else total * even


def ratio_coupled(loads: Loads) -> float | None:
    """Mean of the last 7 days by mean of the last 28, those 7 among them; never above 4. None: not enough history."""
    month = _known(loads, CHRONIC_DAYS)
    return None if month is None else _divided(fmean(month[-ACUTE_DAYS:]), fmean(month))


def ratio_uncoupled(loads: Loads) -> float | None:
    """Mean of the last 7 days by mean of the 21 before. None: not enough history."""
    month = _known(loads, CHRONIC_DAYS)
    return None if month is None else _divided(fmean(month[-ACUTE_DAYS:]), fmean(month[:-ACUTE_DAYS]))


def smoothed(loads: Sequence[float], days: int, seed: float | None = None) -> float:
    """Exponentially weighted mean of *loads* (at least one) with a factor of 2 / (*days* + 1).

    *seed*: what stood before the first day; None: the first day itself. The seed matters for weeks.
    Source: Williams et al. 2017, British Journal of Sports Medicine 51:209.
    """
    factor = 2 / (days + 1)
    mean = loads[0] if seed is None else seed
    for each in loads:
        mean = each * factor + mean * (1 - factor)
    return mean


def ratio_smoothed(loads: Loads) -> float | None:
    """Smoothed 7-day by smoothed 28-day load, seeded with the first day. None: not enough history."""
    if _known(loads, CHRONIC_DAYS) is None or any(each is None for each in loads):
        return None
    known = [each for each in loads if each is not None]
    return _divided(smoothed(known, ACUTE_DAYS), smoothed(known, CHRONIC_DAYS))


def _known(loads: Loads, days: int) -> list[float] | None:
    """The last *days* loads; None if there are fewer, or one is unknown."""
    last = loads[-days:]
    known = [each for each in last if each is not None]
    return known if len(known) == days else None


def _divided(acute: float, chronic: float) -> float | None:
    return acute / chronic if chronic else None
