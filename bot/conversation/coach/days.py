"""Days and amounts in a coach's sentence, found by the same reader that reads replies."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from bot.reading.reader import page_of
from bot.reading.tags import Item, Tag
from bot.reading.when import WEEKDAYS, coming_day, past_day
from planning.terms.choices import Activity, Do
from planning.terms.plan import Segment

DOES = {Activity.WALK: Do.WALK, Activity.RUN: Do.RUN, Activity.CROSS: Do.CROSS}
MOST_TIMES = 60


@dataclass(frozen=True, slots=True)
class Days:
    """Local dates in a sentence, in order: as days to come (a weekday of today's name is today), and as days gone by
    (today among them)."""

    coming: tuple[date, ...]
    past: tuple[date, ...]


@dataclass(frozen=True, slots=True)
class Amounts:
    """What a session is to hold: *segments* where the kind was said, else *minutes*."""

    segments: tuple[Segment, ...] = ()
    minutes: float | None = None


def days_in(text: str, here: datetime) -> Days:
    """The days that *text* names, seen from *here*, a local time."""
    dates = [each for each in _items(text, here) if each.tag is Tag.DATE]
    today = here.date()
    coming = [today if _is_today(each, today) else coming_day(each, today) for each in dates]
    past = [today if _is_today(each, today) else past_day(each, today) for each in dates]
    return Days(tuple(each for each in coming if each), tuple(each for each in past if each))


def amounts_in(text: str, here: datetime) -> Amounts:
    """Minutes and kinds: "15 min walk", "walk 5, run 1, walk 5", "6 x 1 min run 2 min walk", "20 min"."""
    items = _items(text, here)
    segments = tuple(_segments(items))
    if segments:
        return Amounts(segments)
    lengths = [each.n for each in items if each.tag is Tag.DUR] or [each.n for each in items if each.tag is Tag.NUM]
    stretch = any(each.tag is Tag.ACT and each.value == Activity.STRETCH for each in items)
    return Amounts(minutes=0 if stretch and not lengths else lengths[0] if len(lengths) == 1 else None)


def _items(text: str, here: datetime) -> list[Item]:
    return page_of(text, here.replace(tzinfo=None), None, None).items


def _is_today(item: Item, today: date) -> bool:
    return item.value == "+0" or item.value == WEEKDAYS[today.weekday()]


def _segments(items: list[Item]) -> Iterator[Segment]:
    """One segment for each kind that stands beside an amount; all of them as often as "x" says."""
    times, pairs = 1, []
    length: float | None = None
    kind: Do | None = None
    for place, each in enumerate(items):
        following = items[place + 1].tag if place + 1 < len(items) else None
        if each.tag is Tag.NUM and following is Tag.TIMES:
            times = min(int(each.n), MOST_TIMES)
        elif each.tag in (Tag.DUR, Tag.NUM):
            length = each.n
        elif each.tag is Tag.ACT and each.value in DOES:
            kind = DOES[Activity(each.value)]
        if length is not None and kind is not None:
            pairs.append(Segment(kind, round(length * 60)))
            length = kind = None
    yield from (each for each in pairs * times if each.seconds > 0)
