"""The cards: what each is asked by, where it comes from, whom it sends people to."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any

Words = tuple[frozenset[str], ...]
"""A set of words that must all be said: for each the forms that will do, "a*" for all that begin so."""


@dataclass(frozen=True, slots=True)
class Card:
    """One answer. Its sentences are named "card_NAME", and "card_NAME_see" if it sends people to somebody.

    *topic*: words that mean this card alone; *asks*: word sets of a question; *told*: word sets that are enough by
    themselves; *unless*: forms of words beside which it is no answer; *see*: whom to see and for what, empty if nobody;
    *weight*: speaks of body weight.
    """

    name: str
    topic: str
    asks: tuple[Words, ...]
    told: tuple[Words, ...]
    unless: frozenset[str]
    source: str
    see: str
    weight: bool


@dataclass(frozen=True, slots=True)
class Phrases:
    """Phrases word by word, and their lengths in words."""

    words: frozenset[tuple[str, ...]]
    lengths: tuple[int, ...]

    def begin(self, said: tuple[str, ...]) -> bool:
        """Whether *said* begins with one of them."""
        return any(said[:length] in self.words for length in self.lengths)

    def end(self, said: tuple[str, ...]) -> bool:
        """Whether *said* is more than one of them and ends so."""
        return any(len(said) > length and said[-length:] in self.words for length in self.lengths)


@dataclass(frozen=True, slots=True)
class QuestionWords:
    """What opens a question at the start of a clause; what may open one, if a card fits; what makes one at the end.

    *small_talk* is no question, nor is it after a *greeting*; *filler* may stand beside a bare topic.
    """

    opens: Phrases
    may_open: Phrases
    ends: Phrases
    small_talk: frozenset[tuple[str, ...]]
    greeting: frozenset[str]
    filler: frozenset[str]


@cache
def deck() -> tuple[Card, ...]:
    """All cards, in the order of the data file."""
    table = _table()
    return tuple(_card(name, row, table["group"]) for name, row in table["card"].items())


def card_named(name: str) -> Card:
    """The card of that name. Raises StopIteration for any other: our own bug."""
    return next(card for card in deck() if card.name == name)


@cache
def question_words() -> QuestionWords:
    """The words by which a question is known."""
    row = _table()["question"]
    return QuestionWords(
        opens=_phrases(row["opens"]),
        may_open=_phrases(row["may_open"]),
        ends=_phrases(row["ends"]),
        small_talk=_phrases(row["small_talk"]).words,
        greeting=frozenset(row["greeting"]),
        filler=frozenset(row["filler"]),
    )


@cache
def _table() -> Mapping[str, Any]:
    return tomllib.loads(files(__package__).joinpath("cards.toml").read_text(encoding="utf-8"))


def _phrases(rows: list[str]) -> Phrases:
    words = frozenset(tuple(row.split()) for row in rows)
    return Phrases(words, tuple(sorted({len(each) for each in words})))


def _card(name: str, row: Mapping[str, Any], groups: Mapping[str, list[str]]) -> Card:
    asks, told = (tuple(_words(phrase, groups) for phrase in row.get(key, ())) for key in ("asks", "told"))
    unless = frozenset(row.get("unless", ()))
    return Card(name, row["topic"], asks, told, unless, row["source"], row.get("see", ""), row.get("weight", False))


def _words(phrase: str, groups: Mapping[str, list[str]]) -> Words:
    """ "eat|food @before": a set for each word, groups put in."""
    slots = (slot.split("|") for slot in phrase.split())
    return tuple(
        frozenset(form for each in slot for form in (groups[each[1:]] if each.startswith("@") else [each]))
        for slot in slots
    )
