"""From what the rules found to one reading: doubles taken together, what was said in another's name left out."""

from dataclasses import replace
from datetime import date, time
from enum import StrEnum
from typing import TypeVar

from bot.reading.facts import Did, Habit, MoveTo, Off, PastDanger, Reading, Span, Tally, Weather
from bot.reading.page import Found, Key, Page, Value
from bot.reading.rules.plain import gravest
from bot.reading.tags import Item, Tag
from planning.terms.choices import Alarm, Danger, Mood, Part, Sense
from planning.terms.entry import Complaint

T = TypeVar("T")
Code = TypeVar("Code", bound=StrEnum)


Told = dict[Key, list[Value]]
"""What was found, by key, in the order in which the rules found it."""


def reading_of(page: Page, text: str) -> Reading:
    """The reading that the facts of *page* make."""
    found = [fact for fact in page.found if _counts(page, fact)]
    told: Told = {}
    for fact in found:
        told.setdefault(fact.key, []).append(fact.value)
    body = _merged(_all(told, Key.BODY, Complaint))
    wishes = [each for each in _all(told, Key.WANTS, str) if each != "pause" or Key.OFF not in told]
    return Reading(
        text=text,
        at=page.at,
        did=tuple(_all(told, Key.DID, Did)),
        missed=Key.MISSED in told,
        missed_day=_first(told, Key.MISSED, date),
        effort=_first(told, Key.EFFORT, float),
        body=body,
        clear=_clear(told, body),
        danger=_distinct(told, Key.DANGER, Danger),
        ill=Key.ILL in told,
        fever=Key.FEVER in told,
        have_min=_first(told, Key.HAVE, float),
        later_min=_first(told, Key.LATER_MIN, float),
        later_at=_first(told, Key.LATER_AT, time),
        move_to=_first(told, Key.MOVE, MoveTo),
        off=_first(told, Key.OFF, Off),
        weight_kg=_first(told, Key.WEIGHT, float),
        mood=_first(told, Key.MOOD, Mood),
        sure=_first(told, Key.SURE, float),
        tally=_first(told, Key.TALLY, Tally),
        wants=gravest(wishes) if wishes else None,
        stuck=Key.STUCK in told,
        weather=_weather(_all(told, Key.WEATHER, Weather)),
        place=_first(told, Key.PLACE, str),
        place_until=_first(told, Key.PLACE_UNTIL, date),
        correct=Key.CORRECT in told or "undo" in wishes,
        well=Key.WELL in told,
        habit=_first(told, Key.HABIT, Habit),
        past_danger=tuple(_all(told, Key.PAST_DANGER, PastDanger)),
        alarm=_distinct(told, Key.ALARM, Alarm),
        loss=Key.LOSS in told,
        slept_h=_first(told, Key.SLEPT, float),
        low_day=Key.LOW_DAY in told,
        no_time=Key.NO_TIME in told and not told.keys() & _WITH_TIME,
        spans=tuple(_span(page, fact) for fact in found),
        unread=_unread(page, text, found),
    )


def _counts(page: Page, fact: Found) -> bool:
    return not (fact.value is None or _elsewhere(page, fact) or _swallowed(page, fact))


def _clear(told: Told, body: tuple[Complaint, ...]) -> tuple[Part, ...]:
    """The parts that are well, those with a complaint left out."""
    aching = {each.part for each in body}
    return tuple(part for part in _distinct(told, Key.CLEAR, Part) if part not in aching)


def _distinct(told: Told, key: Key, kind: type[Code]) -> tuple[Code, ...]:
    return tuple(dict.fromkeys(kind(each) for each in _all(told, key, str)))


_WITH_TIME = frozenset({Key.DID, Key.MISSED, Key.MOVE, Key.HAVE, Key.OFF, Key.LATER_MIN, Key.LATER_AT})
_PERSONAL = frozenset({Key.ILL, Key.FEVER, Key.MOOD, Key.EFFORT, Key.STUCK, Key.SLEPT, Key.LOW_DAY, Key.NO_TIME})
_TURNS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.BUT, Tag.BECAUSE, Tag.AND, Tag.THEN, Tag.SELF})
_PARTLESS = frozenset({Danger.NERVE.value, Danger.STROKE.value})


def _elsewhere(page: Page, fact: Found) -> bool:
    """Whether a fact of body or mind tells of somebody else or of long ago."""
    if fact.key is Key.MISSED:
        return fact.first in page.elsewhere and _follows_other(page, fact.first)
    if fact.key in (Key.BODY, Key.CLEAR):
        return all(place in page.elsewhere for place in range(fact.first, fact.last + 1))
    return fact.key in _PERSONAL and fact.first in page.elsewhere and not _handed_on(page, fact)


def _handed_on(page: Page, fact: Found) -> bool:
    """`he's given me his stomach bug`."""
    before = [token.word for token in page.tokens[max(0, fact.first - 4) : fact.first]]
    return fact.key is Key.ILL and "me" in before and before[-1] in ("his", "her", "their", "the", "a")


def _follows_other(page: Page, first: int) -> bool:
    """Whether the clause that token *first* stands in has somebody else as its subject: `my wife slept through it`."""
    subject = False
    for item in page.items:
        if item.first >= first:
            return subject
        subject = item.tag is Tag.OTHER or (subject and item.tag not in _TURNS)
    return subject


def _saddle(page: Page, fact: Found) -> bool:
    """`numb between my legs`: no complaint of the legs."""
    told = fact.value
    numb = isinstance(told, Complaint) and told.part is Part.LEGS and told.sense is Sense.NUMB
    return numb and any(token.word == "between" for token in page.tokens)


def _swallowed(page: Page, fact: Found) -> bool:
    """Whether a fact is only the words of a danger sign: sickness of purging, feelings of despair, a numb saddle."""
    for sign in page.found:
        if sign.key is Key.DANGER and sign.value == Danger.NERVE.value and _saddle(page, fact):
            return True
        if sign.key is Key.DANGER and sign.first <= fact.last and fact.first <= sign.last:
            if fact.key in (Key.ILL, Key.MOOD, Key.WANTS, Key.EFFORT, Key.STUCK, Key.MISSED):
                return True
            if isinstance(fact.value, Complaint) and sign.value in _PARTLESS:
                bare = fact.value.sense is None and fact.value.part is Part.BODY
                if bare or fact.value.sense is Sense.NUMB:
                    return True
    return False


def _all(told: Told, key: Key, kind: type[T]) -> list[T]:
    values = told.get(key)
    return [value for value in values if isinstance(value, kind)] if values else []


def _first(told: Told, key: Key, kind: type[T]) -> T | None:
    values = told.get(key)
    return next((value for value in values if isinstance(value, kind)), None) if values else None


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
