"""From what the rules found to one reading: doubles taken together, what was said in another's name left out."""

import itertools
from collections.abc import Callable
from dataclasses import replace
from re import Match
from typing import Any

from bot.reading.facts import Reading, Span, Weather
from bot.reading.page import Found, Key, Page
from bot.reading.rules.plain import gravest
from bot.reading.tags import Tag, pattern
from planning.terms.choices import Alarm, Danger, Part, Sense
from planning.terms.entry import Complaint

Told = dict[Key, list[Any]]
"""What was found, by key, in the order in which the rules found it."""


def reading_of(page: Page) -> Reading:
    """The reading that the facts of *page* make."""
    signs = [fact for fact in page.found if fact.key is Key.DANGER]
    found = [fact for fact in page.found if _counts(page, fact, signs)]
    told: Told = {}
    for fact in found:
        told.setdefault(fact.key, []).append(fact.value)
    said: dict[str, Any] = {_NAMES[key]: _AS_SAID.get(key, _first)(values) for key, values in told.items()}
    for key in told:
        if key in _REVISED:
            said |= _REVISED[key](told)
    return Reading(
        page.text, page.at, **said, spans=tuple([_span(page, fact) for fact in found]), unread=_unread(page, found)
    )


_NAMES = {key: key.value for key in Key}
"""The field of the reading to which each key goes; plain strings, as they are quicker keywords."""


def _first(values: list[Any]) -> Any:
    return values[0]


def _missed(told: Told) -> dict[str, Any]:
    day = next((value for value in told[Key.MISSED] if value is not True), None)
    return {"missed": True, "missed_day": day}


def _clear(told: Told) -> dict[str, Any]:
    return {"clear": tuple(dict.fromkeys(map(Part, told[Key.CLEAR])))}


def _wants(told: Told) -> dict[str, Any]:
    """The wish that counts. With days off no pause is wished besides; what is to be undone is corrected too."""
    wishes = [each for each in told[Key.WANTS] if each not in _BREAKS or Key.OFF not in told]
    said: dict[str, Any] = {"wants": gravest(wishes) if wishes else None}
    if "undo" in wishes:
        said["correct"] = True
    return said


_BREAKS = frozenset({"pause", "resume"})
"""With days off neither is wished besides; to leave is."""


def _body(told: Told) -> dict[str, Any]:
    """What weight can't be put on is a danger sign, whatever the words for it: "hopping into the bus"."""
    signs = _dangers(told.get(Key.DANGER, []))
    lame = any(each.bears is False for each in told[Key.BODY])
    return {"danger": (*signs, Danger.BONE)} if lame and Danger.BONE not in signs else {}


def _no_time(told: Told) -> dict[str, Any]:
    return {"no_time": told.keys().isdisjoint(_WITH_TIME)}


_REVISED: dict[Key, Callable[[Told], dict[str, Any]]] = {
    Key.MISSED: _missed, Key.CLEAR: _clear, Key.WANTS: _wants, Key.NO_TIME: _no_time, Key.BODY: _body,
}  # fmt: skip
"""Fields that hang on more than the values of their key."""


def _counts(page: Page, fact: Found, signs: list[Found]) -> bool:
    if fact.value is None or (page.elsewhere and _elsewhere(page, fact)):
        return False
    return not any(_swallows(page, sign, fact) for sign in signs) if signs else True


_WITH_TIME = frozenset({Key.DID, Key.MISSED, Key.MOVE, Key.HAVE, Key.OFF, Key.LATER_MIN, Key.LATER_AT})
_PERSONAL = frozenset({Key.ILL, Key.FEVER, Key.MOOD, Key.EFFORT, Key.STUCK, Key.SLEPT, Key.LOW_DAY, Key.NO_TIME})
_TURNS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.BUT, Tag.BECAUSE, Tag.AND, Tag.THEN, Tag.SELF})
_PARTLESS = frozenset({Danger.NERVE.value, Danger.STROKE.value})


def _elsewhere(page: Page, fact: Found) -> bool:
    """Whether a fact of body or mind tells of somebody else or of long ago."""
    if fact.key is Key.MISSED:
        return fact.first in page.elsewhere and _follows_other(page, fact.first)
    if fact.key in (Key.BODY, Key.CLEAR):
        places = range(fact.first, fact.last + 1)
        if any(page.words[place] in _OWN for place in places):
            return all(place in page.elsewhere for place in places)
        return fact.first in page.elsewhere and fact.last in page.elsewhere
    return fact.key in _PERSONAL and fact.first in page.elsewhere and not _handed_on(page, fact)


_CAUGHT = frozenset({("got", "it"), ("have", "it"), ("caught", "it"), ("do", "i"), ("have", "i"), ("am", "i")})
_OWN = frozenset({"i", "me", "my", "mine", "myself"})


def _handed_on(page: Page, fact: Found) -> bool:
    """`he's given me his stomach bug`, `kids brought a cold home and now I've got it`."""
    if fact.key is not Key.ILL:
        return False
    before, after = page.words[max(0, fact.first - 4) : fact.first], page.words[fact.last + 1 :]
    if "caught" in before or page.words[max(0, fact.first - 5) : fact.first - 2][-2:] == ["picked", "up"]:
        return True
    caught = "i" in after and any(pair in _CAUGHT for pair in itertools.pairwise(after))
    return caught or "mine" in after or ("me" in before and before[-1] in ("his", "her", "their", "the", "a"))


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
    return numb and "between" in page.words


def _swallows(page: Page, sign: Found, fact: Found) -> bool:
    """Whether *fact* is only the words of a danger sign: sickness of purging, feelings of despair, a numb saddle."""
    if sign.value == Danger.NERVE.value and _saddle(page, fact):
        return True
    if sign.first > fact.last or fact.first > sign.last:
        return False
    if fact.key in _WORDS_OF_SIGNS:
        return fact.key is not Key.MISSED or sign.first <= fact.first
    if fact.key is Key.CLEAR and sign.value in _PARTLESS:
        return True
    if isinstance(fact.value, Complaint) and sign.value in _PARTLESS:
        bare = fact.value.sense is None and fact.value.part in (Part.BODY, Part.LEGS)
        return bare or fact.value.sense is Sense.NUMB
    return False


_WORDS_OF_SIGNS = frozenset({Key.ILL, Key.MOOD, Key.WANTS, Key.EFFORT, Key.STUCK, Key.MISSED})
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


def _unread(page: Page, found: list[Found]) -> tuple[str, ...]:
    """The pieces of the text that gave no fact, joined where they touch; marks and small words alone are no piece."""
    taken: set[int] = set()
    for fact in found:
        taken.update(range(fact.first, fact.last + 1))
    left = "".join([Tag.USED if item.first in taken else item.tag for item in page.items])
    return tuple([_text_of(page, hit) for hit in _RUN.finditer(left) if not _SMALL.issuperset(hit[0])])


def _text_of(page: Page, hit: Match[str]) -> str:
    first, last = page.items[hit.start()].first, page.items[hit.end() - 1].last
    return page.text[page.tokens[first].start : page.tokens[last].end]


_RUN = pattern("[^STOP ASK COMMA DASH SLASH OPEN CLOSE COLON USED]+")
_SMALL = frozenset(
    {Tag.FILL, Tag.AND, Tag.THEN, Tag.BUT, Tag.OR, Tag.BECAUSE, Tag.THE, Tag.OF, Tag.IN, Tag.AT, Tag.BY, Tag.TO,
     Tag.ON, Tag.FOR, Tag.FROM, Tag.SELF, Tag.IT, Tag.IS, Tag.WITH, Tag.ABOUT, Tag.ONLY, Tag.DONE, Tag.GOT, Tag.TICK,
     Tag.YES, Tag.NO}
)  # fmt: skip


def _weather(parts: list[Weather]) -> Weather:
    """All that was said of the weather as one."""
    whole = Weather()
    for part in parts:
        said = {name: value for name in Weather.__slots__ if (value := getattr(part, name)) is not None}
        whole = replace(whole, **said)
    return whole


def _dangers(codes: list[str]) -> tuple[Danger, ...]:
    return tuple(dict.fromkeys(map(Danger, codes)))


def _alarms(codes: list[str]) -> tuple[Alarm, ...]:
    return tuple(dict.fromkeys(map(Alarm, codes)))


_AS_SAID: dict[Key, Callable[[list[Any]], Any]] = {
    Key.DID: tuple, Key.PAST_DANGER: tuple, Key.BODY: _merged, Key.DANGER: _dangers,
    Key.ALARM: _alarms, Key.WEATHER: _weather,
}  # fmt: skip
"""What all values of a key come to together; of other keys the first value counts."""


def _span(page: Page, fact: Found) -> Span:
    return Span(page.tokens[fact.first].start, page.tokens[fact.last].end, _NAMES[fact.key], fact.rule)
