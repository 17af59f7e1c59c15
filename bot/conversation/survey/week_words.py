"""The words of a week in the order in which they stand: days, times of day, and words that leave days out."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import time
from enum import Enum
from functools import cache
from itertools import pairwise

from rapidfuzz import fuzz

from bot.conversation.survey.clock import CLOCK, PARTS, Clock, clock_of
from bot.conversation.survey.lexicon import numbered, rows
from bot.conversation.survey.numbers import digits
from planning.terms.choices import Weekday

EVERY = tuple(Weekday)
GROUPS = {
    "every": EVERY,
    "weekdays": EVERY[:5],
    "weekend": EVERY[5:],
    "alternate": (Weekday.MON, Weekday.WED, Weekday.FRI),
}
ALIKE = 82
"""Likeness in percent from which a misspelt name is taken; "munday" is as like Monday as Sunday and is not."""
SHORTEST = 6
"""Letters of the shortest misspelt name; too much is like "mon" and "sun"."""
FILLERS = frozenset({"on", "the", "a", "and", "or", "any", "at"})

NOISE = re.compile(
    r"[0-9]+(?:\.[0-9]+)?(?: ?- ?[0-9]+)? ?(?:min(?:ute)?s?|hours?|hrs?|k|km|miles?)\b"
    r"|\b(?:[1-7]|once|twice)(?: ?- ?[1-7])? ?(?:x|times|sessions?|runs?|walks?|days?|mornings?|evenings?|nights?)?"
    r" ?(?:a|per|each|every|/) ?week\b"
    r"|\b[1-6] ?(?:x|times|sessions?|days|mornings|evenings)\b"
)
SPAN = re.compile(r"\bbetween ([0-9]{1,2}(?:[:.][0-9]{2})?) and (?=[0-9])")
NAMED = ((re.compile(r"\b(?:noon|midday)\b"), "12:00"), (re.compile(r"\bmidnight\b"), "00:00"))
EACH = re.compile(r"\bevery (?=morning|lunch|afternoon|evening|night)")
LETTERS = (
    (re.compile(r"\bmo?[ ,/]*we?[ ,/]*fr?\b"), "mon wed fri"),
    (re.compile(r"\bt(?:u|ue)?[ ,/]*th\b"), "tue thu"),
)


class Mark(Enum):
    """Words that stand for no day or time. `NOT` leaves out the days after it, `STOP` ends a clause."""

    NOT = "not"
    STOP = "stop"
    WORD = "word"


@dataclass(frozen=True, slots=True)
class Days:
    """Days that were named."""

    days: tuple[Weekday, ...]


@dataclass(frozen=True, slots=True)
class At:
    """A time of day, the part of the day taken into account."""

    at: time


@dataclass(frozen=True, slots=True)
class _Part:
    name: str


Item = Days | At | Mark
_Token = Days | Clock | _Part | Mark


def week_words(text: str) -> tuple[Item, ...]:
    """The items of the plain *text* in order. Hour and part of the day are one: "before work, half six"."""
    return tuple(_timed(_unbroken(tuple(_tokens(text)))))


@cache
def _scanner() -> re.Pattern[str]:
    def either(phrases: tuple[str, ...]) -> str:
        return "|".join(re.escape(each) for each in sorted(phrases, key=len, reverse=True))

    day = either(tuple(numbered("days")))
    named = [
        rf"(?P<{name}>\b(?:{either(phrases)})(?!\w))"
        for table in ("groups", "parts")
        for name, phrases in rows(table).items()
    ]
    span = rf"(?P<span>\b(?P<first>{day})\.? ?(?:-|to|thru|through|till|until) ?(?P<last>{day})\b)"
    single = rf"(?P<day>\b(?:{day})\b)"
    return re.compile("|".join([span, *named, single, rf"(?P<clock>{CLOCK})", r"(?P<stop>[,;.])", r"(?P<word>\w+)"]))


def _tokens(text: str) -> Iterator[_Token]:
    said = NOISE.sub(" ", digits(text))
    for letters, names in (*LETTERS, *NAMED, (SPAN, r"\1-"), (EACH, "every day ")):
        said = letters.sub(names, said)
    for found in _scanner().finditer(said):
        token = _token(found)
        if token is not None:
            yield token


def _token(found: re.Match[str]) -> _Token | None:
    if found["span"]:
        return _span(found["first"], found["last"])
    if found["day"]:
        return Days((Weekday(numbered("days")[found["day"]]),))
    if found["clock"]:
        return clock_of(found)
    if found["stop"]:
        return Mark.STOP
    return _of_word(found["word"]) if found["word"] else _named(found)


def _named(found: re.Match[str]) -> _Token:
    name = next(each for table in ("groups", "parts") for each in rows(table) if found[each])
    if name == "except":
        return Mark.NOT
    return Days(GROUPS[name]) if name in GROUPS else _Part(name)


def _span(first: str, last: str) -> Days:
    start, end = numbered("days")[first], numbered("days")[last]
    return Days(tuple(Weekday((start + step) % 7) for step in range((end - start) % 7 + 1)))


def _of_word(word: str) -> _Token | None:
    """The day that a misspelt *word* stands for, if it can be one only."""
    if word in FILLERS:
        return None
    scored = {name: fuzz.ratio(word, name) for name in numbered("days") if len(name) >= SHORTEST}
    best = max(scored.values())
    found = {numbered("days")[name] for name, score in scored.items() if score == best}
    sure = len(word) >= SHORTEST and best >= ALIKE and len(found) == 1
    return Days((Weekday(found.pop()),)) if sure else Mark.WORD


def _unbroken(tokens: tuple[_Token, ...]) -> tuple[_Token, ...]:
    """The *tokens* without commas and words between an hour and the part of the day that it belongs to."""
    solid = [(place, token) for place, token in enumerate(tokens) if token not in (Mark.STOP, Mark.WORD)]
    inside = {
        place
        for (left, one), (right, other) in pairwise(solid)
        if isinstance(one, Clock | _Part) and isinstance(other, Clock | _Part) and type(one) is not type(other)
        for place in range(left + 1, right)
    }
    return tuple(token for place, token in enumerate(tokens) if place not in inside)


def _timed(tokens: tuple[_Token, ...]) -> Iterator[Item]:
    joined = False
    for token, following in pairwise((*tokens, Mark.STOP)):
        if joined:
            joined = False
        elif isinstance(token, Clock):
            joined = isinstance(following, _Part)
            yield At(token.at(following.name if isinstance(following, _Part) else None))
        elif isinstance(token, _Part):
            joined = isinstance(following, Clock)
            yield At(following.at(token.name) if isinstance(following, Clock) else PARTS[token.name])
        else:
            yield token
