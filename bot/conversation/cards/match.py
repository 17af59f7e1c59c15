"""From a text to the cards that answer it: by its words alone, the same for the same text."""

import re
from dataclasses import dataclass
from functools import cache
from itertools import dropwhile

from bot.conversation.cards.deck import Card, deck, question_words
from bot.conversation.cards.index import Index, index_of

LONGEST = 60
"""Words of a text that are looked at."""
BARE = 3
"""Words of a bare topic, filler left out."""
MOST_LETTERS = 400
CLAUSES = re.compile(r"[,.;:?!\n]+| - | but | so | and ")
TOKEN = re.compile(r"[^\W_]+")
MOST = 3
"""Cards offered at once."""
Said = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Found:
    """What came of a text. *cards*: one is the answer, more fit alike; *asked*: the text is a question."""

    cards: tuple[Card, ...] = ()
    asked: bool = False


def find(text: str, *, bare: bool = True) -> Found:
    """The cards that fit *text* best. *bare*: a topic without any question counts too ("chafing")."""
    said, words = _tokens(text), question_words()
    exact = _by_topic().get(said)
    if exact and (bare or "?" in text):
        return Found((exact,), True)
    clauses = tuple(map(_tokens, CLAUSES.split(text[:MOST_LETTERS].casefold())))
    asked = not _is_small_talk(said) and ("?" in text or any(map(words.opens.begin, clauses)) or words.ends.end(said))
    if asked or any(map(words.may_open.begin, clauses)):
        return Found(_by_asks().best(said)[:MOST], asked)
    told = _by_told().best(said)[:MOST]
    return Found(told or (_bare(said) if bare else ()))


@cache
def _by_topic() -> dict[Said, Card]:
    return {_tokens(card.topic): card for card in reversed(deck())}


@cache
def _by_asks() -> Index:
    return index_of(deck(), (card.asks for card in deck()))


@cache
def _by_told() -> Index:
    return index_of(deck(), (card.told for card in deck()))


def _tokens(text: str) -> Said:
    plain = text.casefold().replace("’", "").replace("'", "")
    return tuple(TOKEN.findall(plain)[:LONGEST])


def _is_small_talk(said: Said) -> bool:
    words = question_words()
    line = tuple(dropwhile(words.greeting.__contains__, said))
    return not line or line in words.small_talk


def _bare(said: Said) -> tuple[Card, ...]:
    """The cards whose words are all that is said."""
    left = tuple(word for word in said if word not in question_words().filler)
    return _by_asks().best(left, all_of_it=True)[:MOST] if 0 < len(left) <= BARE else ()
