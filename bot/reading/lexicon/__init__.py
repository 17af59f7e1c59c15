"""The word lists: phrases and what they mean, read once from the TOML files of this folder.

A table is a tag, a key the meaning, its list the phrases that have it. In a phrase `(a|b)` stands for either, `[a]`
for a or nothing, `#` for any number; `@chest` in a group of a sign for all phrases of the group `chest`. To teach the
reader a phrase, add it to the list.
"""

import pkgutil
import tomllib
from collections.abc import Iterable, Mapping
from functools import cache
from typing import Any, NamedTuple

from bot.reading.lexicon.tree import Phrase, Sense, Tree, expand, pieces_of
from bot.reading.normalise import normalise
from bot.reading.tags import letter
from bot.reading.tokens import is_plain, tokens_of

__all__ = [
    "Sense",
    "Tree",
    "everyday",
    "excuses",
    "expand",
    "grave",
    "groups",
    "listed",
    "load",
    "phrases",
    "signs",
    "spelling",
    "symptoms",
    "vocabulary",
    "words_of",
]

SWEEPS = "sweeps"
SIGN_FILES = ("danger", "frames", SWEEPS, "alarm")
"""Files of signs and their groups. Those of `frames` are danger told without its usual words, those of `sweeps` are of
wide classes of words."""
FILES = ("joints", "amounts", "when", "scope", "activities", "doing", "effort", "body", "health", "requests", "extra")


class Sign(NamedTuple):
    """A sign: all of its word groups near each other (at most *window* tokens), none of *unless* in the sentence."""

    code: str
    name: str
    groups: tuple[str, ...]
    unless: tuple[str, ...]
    window: int
    across: bool
    denied: bool
    """A denial is part of the sign ("no point in living"), so it does not take it away."""
    by_others: bool
    """It names the sender, whoever does it: "wife could not wake me"."""
    overlap: bool
    """Two of its phrases may share words: "can not get my sugars up" and "sugars"."""


@cache
def spelling() -> Mapping[str, tuple[str, ...]]:
    """Shorthand, contractions and common misspellings, each with the words that it stands for."""
    table = load("spelling")["words"]
    return {variant: tuple(meaning.split()) for meaning, variants in table.items() for variant in variants}


@cache
def phrases() -> Tree:
    """The tree of all tagged phrases."""
    return Tree.of(_tagged())


@cache
def groups() -> Tree:
    """The tree of the word groups that signs of danger and alarm are made of; a phrase may be in several."""
    return Tree.of([phrase for phrase in _grouped() if phrase.meaning in _of_signs()])


@cache
def excuses() -> Tree:
    """The tree of the word groups that explain a sign away, which only a text with signs need be searched for."""
    return Tree.of([phrase for phrase in _grouped() if phrase.meaning not in _of_signs()])


@cache
def grave() -> frozenset[str]:
    """Single words that are danger or alarm by themselves; "calf" and "hot" are only together."""
    whole = {sign.groups[0] for name in SIGN_FILES for sign in signs(name) if len(sign.groups) == 1}
    return frozenset(word for phrase in _grouped() if phrase.meaning in whole for word in phrase.alone())


@cache
def _of_signs() -> frozenset[str]:
    return frozenset(group for name in SIGN_FILES for sign in signs(name) for group in sign.groups)


@cache
def symptoms() -> frozenset[str]:
    """All words of the groups that signs are made of, but for those of `SWEEPS`, which hold much that is none."""
    swept = load(SWEEPS)["group"].keys()
    return _words(phrase for phrase in _grouped() if phrase.meaning in _of_signs() and phrase.meaning not in swept)


@cache
def vocabulary() -> frozenset[str]:
    """All words of all lists."""
    return _words((*_tagged(), *_grouped()))


@cache
def everyday() -> frozenset[str]:
    """All words of the tagged phrases, but for those that deny."""
    denials = [phrase for phrase in _tagged() if isinstance(phrase.meaning, Sense) and phrase.meaning.tag in _DENYING]
    return _words(_tagged()) - frozenset(word for phrase in denials for word in phrase.alone())


_DENYING = frozenset({letter("NEG"), letter("NO")})


def _words(phrases: Iterable[Phrase]) -> frozenset[str]:
    return frozenset(word for phrase in phrases for piece in phrase.pieces for choice in piece for word in choice)


@cache
def _tagged() -> tuple[Phrase, ...]:
    return tuple(
        Phrase(pieces_of(phrase, words_of), sense)
        for name in FILES
        for table, meanings in load(name).items()
        for value, listed in meanings.items()
        for sense in (Sense(letter(table.upper()), value, _as_number(value)),)
        for phrase in listed
    )


@cache
def _grouped() -> tuple[Phrase, ...]:
    lists = {group: listed for name in SIGN_FILES for group, listed in load(name)["group"].items()}
    return tuple(
        Phrase(pieces_of(phrase, words_of), group)
        for group, listed in lists.items()
        for each in listed
        for phrase in (lists[each[1:]] if each.startswith("@") else (each,))
    )


@cache
def signs(name: str) -> tuple[Sign, ...]:
    """The signs of file *name*, one of `SIGN_FILES`, in its order."""
    return tuple(
        Sign(
            each["code"], each["name"], tuple(each["all"]), tuple(each.get("unless", ())), each.get("window", 8),
            each.get("across", False), each.get("denied", False), each.get("by_others", False),
            each.get("overlap", False),
        )
        for each in load(name)["sign"]
    )  # fmt: skip


def listed(table: str, *keys: str) -> frozenset[str]:
    """The words under *keys* of *table* in `words.toml`, which rules look at one by one; KeyError if there are none."""
    lists = load("words")[table]
    return frozenset(word for key in keys for word in lists[key])


@cache
def load(name: str) -> dict[str, Any]:
    """The tables of file *name*."""
    content = pkgutil.get_data(__name__, f"{name}.toml")
    return tomllib.loads(content.decode() if content else "")


def _as_number(value: str) -> float:
    try:
        return float(value)
    except ValueError:
        return 0.0


@cache
def words_of(text: str) -> tuple[str, ...]:
    """The words of *text* in canonical spelling, as the tokens of a reply have them."""
    words = tuple(text.split())
    if "#" in text or (is_plain(words) and not any(word in spelling() for word in words)):
        return words
    return tuple(token.word for token in tokens_of(normalise(text), spelling()))
