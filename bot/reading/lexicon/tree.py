"""Phrases as a tree by word. A branch grows when a reply first walks there, so that long lists cost little to load.

In a phrase `(a|b)` stands for either, `[a]` for a or nothing, `#` for any number.
"""

import re
from collections.abc import Callable, Iterable, Iterator
from typing import Any, NamedTuple

from bot.reading.tags import Letter


class Sense(NamedTuple):
    """What a phrase means: a tag, its value, and the value as a number where it is one."""

    tag: Letter
    value: str
    n: float


class Phrase(NamedTuple):
    """A phrase piece by piece, each piece with its choices, and its meaning: a sense, or the name of a group."""

    pieces: tuple[tuple[tuple[str, ...], ...], ...]
    meaning: Sense | str

    def alone(self) -> Iterator[str]:
        """The single words that are this phrase."""
        needed = [piece for piece in self.pieces if () not in piece]
        if len(needed) < 2:
            for piece in needed or self.pieces:
                yield from (choice[0] for choice in piece if len(choice) == 1)


class _Rest(NamedTuple):
    """What is left of a phrase: words of the choice taken, then the pieces from *place* on."""

    words: tuple[str, ...]
    place: int
    phrase: Phrase


class Tree(dict[str, "Tree"]):
    """Branches by word. *meaning* of the phrase that ends here: the first sense planted, or the names of all groups;
    None if none ends. *closed*: phrases whose branches were not made yet, see `grow`."""

    __slots__ = ("closed", "meaning")

    def __init__(self) -> None:
        super().__init__()
        self.closed: list[_Rest] = []
        self.meaning: Any = None

    @classmethod
    def of(cls, phrases: Iterable[Phrase]) -> "Tree":
        """The tree of *phrases*."""
        tree = cls()
        for phrase in phrases:
            for word, rest in _starts(phrase, 0):
                tree._plant(word, rest)
        return tree

    def grow(self) -> "Tree":
        """This tree with its branches made, so that somebody can walk on from here."""
        rests, self.closed = self.closed, []
        for rest in rests:
            for word, after in _steps(rest):
                self._plant(word, after)
        return self

    def alone(self) -> Iterator[tuple[str, Any]]:
        """The single words that are phrases, each with what it means."""
        for word, branch in self.items():
            if branch.grow().meaning is not None:
                yield word, branch.meaning

    def _plant(self, word: str, rest: _Rest) -> None:
        if word == _END:
            self._mean(rest.phrase.meaning)
        elif word in self:
            self[word].closed.append(rest)
        else:
            branch = self[word] = Tree()
            branch.closed.append(rest)

    def _mean(self, meaning: Sense | str) -> None:
        if isinstance(meaning, str):
            self.meaning = [*(self.meaning or ()), meaning]
        elif self.meaning is None:
            self.meaning = meaning


_END = ""
"""Stands for the word that follows the last one of a phrase."""


def _steps(rest: _Rest) -> Iterator[tuple[str, _Rest]]:
    if rest.words:
        yield rest.words[0], rest._replace(words=rest.words[1:])
    else:
        yield from _starts(rest.phrase, rest.place)


def _starts(phrase: Phrase, place: int) -> Iterator[tuple[str, _Rest]]:
    """The words that can follow before piece *place* of *phrase*."""
    if place == len(phrase.pieces):
        yield _END, _Rest((), place, phrase)
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
