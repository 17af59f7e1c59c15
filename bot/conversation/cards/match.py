"""From a text to the cards that answer it: by its words alone, the same for the same text."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import dropwhile

from bot.conversation.cards.deck import Card, Words, deck, question_words

LONGEST = 60
"""Words of a text that are looked at."""
BARE = 3
"""Words of a bare topic, filler left out."""
MOST_LETTERS = 400
CLAUSES = re.compile(r"[,.;:?!\n]+| - | but | so | and ")
MOST = 3
"""Cards offered at once."""


@dataclass(frozen=True, slots=True)
class Found:
    """What came of a text. *cards*: one is the answer, more fit alike; *asked*: the text is a question."""

    cards: tuple[Card, ...] = ()
    asked: bool = False


def find(text: str, *, bare: bool = True) -> Found:
    """The cards that fit *text* best. *bare*: a topic without any question counts too ("chafing")."""
    said, words = _tokens(text), question_words()
    exact = tuple(card for card in deck() if _tokens(card.topic) == said)
    if exact and (bare or "?" in text):
        return Found(exact[:1], True)
    asked = not _is_small_talk(said) and ("?" in text or _opened(text, words.opens) or _ended(said, words.ends))
    if asked or _opened(text, words.may_open):
        return Found(_best(((card, card.asks) for card in deck()), said), asked)
    told = _best(((card, card.told) for card in deck()), said)
    return Found(told or (_bare(said) if bare else ()))


def _tokens(text: str) -> tuple[str, ...]:
    plain = text.casefold().replace("’", "'").replace("'", "")
    return tuple("".join(each if each.isalnum() else " " for each in plain).split()[:LONGEST])


def _is_small_talk(said: tuple[str, ...]) -> bool:
    words = question_words()
    line = " ".join(dropwhile(words.greeting.__contains__, said))
    return not line or line in words.small_talk


def _opened(text: str, openings: tuple[str, ...]) -> bool:
    """Whether a clause of *text* opens in one of these ways."""
    clauses = (" ".join(_tokens(clause)) for clause in CLAUSES.split(text[:MOST_LETTERS].casefold()))
    return any(f"{clause} ".startswith(f"{each} ") for clause in clauses for each in openings)


def _ended(said: tuple[str, ...], endings: tuple[str, ...]) -> bool:
    """Whether a text of more than that ends in one of these ways."""
    line = " ".join(said)
    return any(line.endswith(f" {each}") for each in endings)


def _best(offers: Iterable[tuple[Card, tuple[Words, ...]]], said: tuple[str, ...]) -> tuple[Card, ...]:
    """The cards with the largest set of words that is said whole; several if they are alike."""
    sizes = {card: max((len(words) for words in sets if _holds(words, said)), default=0) for card, sets in offers}
    most = max(sizes.values(), default=0)
    return tuple(card for card, size in sizes.items() if size == most > 0)[:MOST]


def _holds(words: Words, said: tuple[str, ...]) -> bool:
    return all(any(_is(form, token) for form in forms for token in said) for forms in words)


def _is(form: str, token: str) -> bool:
    return token.startswith(form[:-1]) if form.endswith("*") else token == form


def _bare(said: tuple[str, ...]) -> tuple[Card, ...]:
    """The card whose words are all that is said."""
    left = tuple(word for word in said if word not in question_words().filler)
    if not 0 < len(left) <= BARE:
        return ()
    sets = ((card, tuple(words for words in card.asks if _covers(words, left))) for card in deck())
    return _best(sets, left)


def _covers(words: Words, left: tuple[str, ...]) -> bool:
    return all(any(_is(form, token) for forms in words for form in forms) for token in left)
