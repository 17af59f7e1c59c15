"""The word lists: phrases and what they mean, read once from the TOML files of this folder.

A table is a tag, a key the meaning, its list the phrases that have it. In a phrase `(a|b)` stands for either, `[a]`
for a or nothing, `#` for any number. To teach the reader a phrase, add it to the list.
"""

import pkgutil
import re
import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any, NamedTuple

from bot.reading.normalise import normalise
from bot.reading.tags import Tag
from bot.reading.tokens import tokens_of

FILES = ("joints", "amounts", "when", "scope", "activities", "doing", "effort", "body", "health", "requests", "extra")
END = ""
"""Key under which a node of the phrase tree keeps what the phrase that ends there means."""


class Sense(NamedTuple):
    """What a phrase means: a tag, its value, and the value as a number where it is one."""

    tag: Tag
    value: str
    n: float


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


Tree = dict[str, Any]
"""Phrases as nested dictionaries by word; the value under END is what the phrase means."""


@cache
def spelling() -> Mapping[str, tuple[str, ...]]:
    """Shorthand, contractions and common misspellings, each with the words that it stands for."""
    table = load("spelling")["words"]
    return {variant: tuple(meaning.split()) for meaning, variants in table.items() for variant in variants}


@cache
def phrases() -> Tree:
    """The tree of all tagged phrases."""
    tree: Tree = {}
    for name in FILES:
        for table, meanings in load(name).items():
            for value, listed in meanings.items():
                sense = Sense(Tag[table.upper()], value, _as_number(value))
                for phrase in listed:
                    _plant(tree, phrase, sense)
    return tree


@cache
def groups() -> Tree:
    """The tree of the word groups that signs of danger and alarm are made of; a phrase may be in several."""
    tree: Tree = {}
    for name in ("danger", "alarm"):
        for group, listed in load(name)["group"].items():
            for phrase in listed:
                _plant(tree, phrase, group)
    return tree


@cache
def signs(name: str) -> tuple[Sign, ...]:
    """The signs of file *name* (`danger` or `alarm`), in its order."""
    return tuple(
        Sign(
            each["code"], each["name"], tuple(each["all"]), tuple(each.get("unless", ())), each.get("window", 8),
            each.get("across", False), each.get("denied", False),
        )
        for each in load(name)["sign"]
    )  # fmt: skip


def load(name: str) -> dict[str, Any]:
    """The tables of file *name*."""
    content = pkgutil.get_data(__name__, f"{name}.toml")
    return tomllib.loads(content.decode() if content else "")


def _as_number(value: str) -> float:
    try:
        return float(value)
    except ValueError:
        return 0.0


def _plant(tree: Tree, phrase: str, meaning: Sense | str) -> None:
    """Put *phrase* into *tree*, its choices as branches."""
    nodes = [tree]
    for choices in _segments(phrase):
        nodes = [_walk(node, words) for node in nodes for words in choices]
    for node in nodes:
        if isinstance(meaning, str):
            node.setdefault(END, []).append(meaning)
        else:
            node.setdefault(END, meaning)


def _walk(node: Tree, words: tuple[str, ...]) -> Tree:
    for word in words:
        node = node.setdefault(word, {})
    return node


_SEGMENT = re.compile(r"\(([^()]+)\)|\[([^\[\]]+)\]|([^()\[\]]+|[(\[)\]])")


def _segments(phrase: str) -> Iterator[tuple[tuple[str, ...], ...]]:
    """The words of *phrase* piece by piece, each piece with its choices."""
    for hit in _SEGMENT.finditer(phrase):
        if hit[1]:
            yield tuple(words_of(choice) for choice in hit[1].split("|"))
        elif hit[2]:
            yield (*(words_of(choice) for choice in hit[2].split("|")), ())
        else:
            yield (words_of(hit[3]),)


@cache
def words_of(text: str) -> tuple[str, ...]:
    """The words of *text* in canonical spelling, as the tokens of a reply have them."""
    if "#" in text:
        return tuple(text.split())
    return tuple(token.word for token in tokens_of(normalise(text), spelling()))


def expand(phrase: str) -> Iterator[str]:
    """All phrases that *phrase* stands for: `a (b|c) [d]` is a b, a c, a b d and a c d."""
    start = min((place for place in (phrase.find("("), phrase.find("[")) if place >= 0), default=-1)
    if start < 0 or len(phrase) == 1:
        yield " ".join(phrase.split())
        return
    end = phrase.index(")" if phrase[start] == "(" else "]", start)
    choices = phrase[start + 1 : end].split("|")
    if phrase[start] == "[":
        choices.append("")
    for choice in choices:
        yield from expand(f"{phrase[:start]}{choice}{phrase[end + 1 :]}")
