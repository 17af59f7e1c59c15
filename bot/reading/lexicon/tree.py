"""Phrases as a tree by word. A branch opens when a reply first walks there, so that long lists cost little to load.

In a phrase `(a|b)` stands for either, `[a]` for a or nothing, `#` for any number.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from bot.reading.tags import Letter

END = ""
"""Key under which a branch keeps what the phrase that ends there means."""


class Sense(NamedTuple):
    """What a phrase means: a tag, its value, and the value as a number where it is one."""

    tag: Letter
    value: str
    n: float


class Phrase(NamedTuple):
    """A phrase piece by piece, each piece with its choices, and its meaning: a sense, or the name of a group."""

    pieces: tuple[tuple[tuple[str, ...], ...], ...]
    meaning: Sense | str


class _Rest(NamedTuple):
    """What is left of a phrase: words of the choice taken, then the pieces from *place* on."""

    words: tuple[str, ...]
    place: int
    phrase: Phrase


_look = dict.get


class _Closed(list[_Rest]):
    """A branch that nobody has walked yet."""


class Tree(dict[str, Any]):
    """Branches by word; under END a sense (the first one planted) or the names of all groups."""

    @classmethod
    def of(cls, phrases: Iterable[Phrase]) -> "Tree":
        """The tree of *phrases*."""
        tree = cls()
        for phrase in phrases:
            for word, rest in _starts(phrase, 0):
                tree.setdefault(word, _Closed()).append(rest)
        return tree

    def get(self, word: str, default: Any = None) -> Any:
        """The branch of *word*, opened."""
        found = _look(self, word, default)
        if found.__class__ is _Closed:
            found = self[word] = _opened(found)
        return found

    def __getitem__(self, word: str) -> Any:
        found = self.get(word)
        if found is None:
            raise KeyError(word)
        return found

    def alone(self) -> Iterator[tuple[str, Any]]:
        """The single words that are phrases, each with what it means."""
        for word in self:
            meaning = self.get(word).get(END)
            if meaning is not None:
                yield word, meaning


def _opened(closed: _Closed) -> Tree:
    tree = Tree()
    for rest in closed:
        for word, after in _steps(rest):
            if word != END:
                tree.setdefault(word, _Closed()).append(after)
            elif isinstance(rest.phrase.meaning, str):
                tree.setdefault(END, []).append(rest.phrase.meaning)
            else:
                tree.setdefault(END, rest.phrase.meaning)
    return tree


def _steps(rest: _Rest) -> Iterator[tuple[str, _Rest]]:
    if rest.words:
        yield rest.words[0], rest._replace(words=rest.words[1:])
    else:
        yield from _starts(rest.phrase, rest.place)


def _starts(phrase: Phrase, place: int) -> Iterator[tuple[str, _Rest]]:
    """The words that can follow before piece *place* of *phrase*."""
    if place == len(phrase.pieces):
        yield END, _Rest((), place, phrase)
        return
    for choice in phrase.pieces[place]:
        if choice:
            yield choice[0], _Rest(choice[1:], place + 1, phrase)
        else:
            yield from _starts(phrase, place + 1)


_SEGMENT = re.compile(r"\(([^()]+)\)|\[([^\[\]]+)\]|([^()\[\]]+|[(\[)\]])")


def pieces_of(phrase: str, words_of: Callable[[str], tuple[str, ...]]) -> tuple[tuple[tuple[str, ...], ...], ...]:
    """The words of *phrase* piece by piece, each piece with its choices."""
    if "(" not in phrase and "[" not in phrase:
        return ((words_of(phrase),),)
    return tuple(_pieces(phrase, words_of))


def _pieces(phrase: str, words_of: Callable[[str], tuple[str, ...]]) -> Iterator[tuple[tuple[str, ...], ...]]:
    for hit in _SEGMENT.finditer(phrase):
        if hit[1]:
            yield tuple(words_of(choice) for choice in hit[1].split("|"))
        elif hit[2]:
            yield (*(words_of(choice) for choice in hit[2].split("|")), ())
        else:
            yield (words_of(hit[3]),)


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
