"""From what the rules found to one reading: doubles taken together, what was said in another's name left out."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, time
from typing import TypeVar

from bot.reading.facts import Did, Habit, MoveTo, Off, PastDanger, Reading, Span, Tally, Weather
from bot.reading.page import Found, Key, Page
from bot.reading.rules.plain import gravest
from bot.reading.tags import Item, Tag
from planning.terms.choices import Alarm, Danger, Mood, Part, Sense
from planning.terms.entry import Complaint

T = TypeVar("T")


def reading_of(page: Page, text: str) -> Reading:
    """The reading that the facts of *page* make."""
    found = [fact for fact in page.found if not _elsewhere(page, fact) and not _swallowed(page, fact)]
    missed = [fact for fact in found if fact.key is Key.MISSED]
    body = _merged(_all(found, Key.BODY, Complaint))
    dated = any(fact.key is Key.OFF for fact in found)
    wishes = [each for each in _all(found, Key.WANTS, str) if not (dated and each == "pause")]
    aching = {each.part for each in body}
    clear = tuple(dict.fromkeys(Part(each) for each in _all(found, Key.CLEAR, str) if Part(each) not in aching))
    ill = any(fact.key is Key.ILL for fact in found)
    return Reading(
        text=text,
        at=page.at,
        did=tuple(_all(found, Key.DID, Did)),
        missed=bool(missed),
        missed_day=_first(found, Key.MISSED, date),
        effort=_first(found, Key.EFFORT, float),
        body=body,
        clear=clear,
        danger=tuple(dict.fromkeys(Danger(each) for each in _all(found, Key.DANGER, str))),
        ill=ill,
        fever=any(fact.key is Key.FEVER for fact in found),
        have_min=_first(found, Key.HAVE, float),
        later_min=_first(found, Key.LATER_MIN, float),
        later_at=_first(found, Key.LATER_AT, time),
        move_to=_first(found, Key.MOVE, MoveTo),
        off=_first(found, Key.OFF, Off),
        weight_kg=_first(found, Key.WEIGHT, float),
        mood=_first(found, Key.MOOD, Mood),
        sure=_first(found, Key.SURE, float),
        tally=_first(found, Key.TALLY, Tally),
        wants=gravest(wishes) if wishes else None,
        stuck=_any(found, Key.STUCK),
        weather=_weather(_all(found, Key.WEATHER, Weather)),
        place=_first(found, Key.PLACE, str),
        correct=_any(found, Key.CORRECT) or "undo" in wishes,
        well=any(fact.key is Key.WELL and fact.value for fact in found),
        habit=_first(found, Key.HABIT, Habit),
        past_danger=tuple(_all(found, Key.PAST_DANGER, PastDanger)),
        alarm=tuple(dict.fromkeys(Alarm(each) for each in _all(found, Key.ALARM, str))),
        spans=tuple(_span(page, fact) for fact in found),
        unread=_unread(page, text, found),
    )


_PERSONAL = frozenset({Key.BODY, Key.CLEAR, Key.ILL, Key.FEVER, Key.MOOD, Key.EFFORT, Key.STUCK})
_PARTLESS = frozenset({Danger.NERVE.value, Danger.STROKE.value})


def _elsewhere(page: Page, fact: Found) -> bool:
    """Whether a fact of body or mind tells of somebody else or of long ago."""
    return fact.key in _PERSONAL and fact.first in page.elsewhere


def _swallowed(page: Page, fact: Found) -> bool:
    """Whether a fact is only the words of a danger sign: sickness of purging, feelings of despair, a numb saddle."""
    for sign in page.found:
        if sign.key is Key.DANGER and sign.first <= fact.last and fact.first <= sign.last:
            if fact.key in (Key.ILL, Key.MOOD, Key.WANTS, Key.EFFORT, Key.STUCK):
                return True
            if isinstance(fact.value, Complaint) and fact.value.sense is Sense.NUMB and sign.value in _PARTLESS:
                return True
    return False


def _all(found: Iterable[Found], key: Key, kind: type[T]) -> list[T]:
    return [fact.value for fact in found if fact.key is key and isinstance(fact.value, kind)]


def _first(found: Iterable[Found], key: Key, kind: type[T]) -> T | None:
    return next((fact.value for fact in found if fact.key is key and isinstance(fact.value, kind)), None)


def _any(found: Iterable[Found], key: Key) -> bool:
    return any(fact.key is key for fact in found)


_GRAVEST = ("numb", "unstable", "swollen", "pain", "cramp", "sore", "skin")


def _merged(complaints: list[Complaint]) -> tuple[Complaint, ...]:
    """One complaint for each part."""
    merged: dict[Part, Complaint] = {}
    for each in complaints:
        old = merged.get(each.part)
        merged[each.part] = each if old is None else _union(old, each)
    return tuple(merged.values())


def _union(a: Complaint, b: Complaint) -> Complaint:
    senses = [each for each in (a.sense, b.sense) if each is not None]
    return Complaint(
        a.part,
        a.side or b.side,
        min(senses, key=lambda sense: _GRAVEST.index(sense.value)) if senses else None,
        a.level if a.level is not None else b.level,
        a.sudden or b.sudden,
        b.course or a.course,
        False if False in (a.bears, b.bears) else None,
    )


def _unread(page: Page, text: str, found: list[Found]) -> tuple[str, ...]:
    """The pieces of *text* that gave no fact, joined where they touch; marks and small words alone are no piece."""
    taken = {place for fact in found for place in range(fact.first, fact.last + 1)}
    pieces: list[str] = []
    run: list[Item] = []
    for item in (*page.items, None):
        read = item is None or item.first in taken or item.tag in _MARKS
        if item is not None and not read:
            run.append(item)
        elif run:
            if any(each.tag not in _SMALL for each in run):
                pieces.append(text[page.tokens[run[0].first].start : page.tokens[run[-1].last].end])
            run = []
    return tuple(pieces)


_MARKS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.DASH, Tag.SLASH, Tag.OPEN, Tag.CLOSE, Tag.COLON, Tag.USED})
_SMALL = frozenset(
    {Tag.FILL, Tag.AND, Tag.THEN, Tag.BUT, Tag.OR, Tag.BECAUSE, Tag.THE, Tag.OF, Tag.IN, Tag.AT, Tag.BY, Tag.TO,
     Tag.ON, Tag.FOR, Tag.FROM, Tag.SELF, Tag.IT, Tag.IS, Tag.WITH, Tag.ABOUT, Tag.ONLY, Tag.DONE, Tag.GOT, Tag.TICK,
     Tag.YES, Tag.NO}
)  # fmt: skip


def _weather(parts: list[Weather]) -> Weather | None:
    """All that was said of the weather as one."""
    if not parts:
        return None
    whole = Weather()
    for part in parts:
        said = {name: value for name in Weather.__slots__ if (value := getattr(part, name)) is not None}
        whole = replace(whole, **said)
    return whole


def _span(page: Page, fact: Found) -> Span:
    return Span(page.tokens[fact.first].start, page.tokens[fact.last].end, fact.key.value, fact.rule)
