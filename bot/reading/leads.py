"""What must stand in a reply for a pattern over its tags to match: a cheap look before the pattern is run."""

import re
from collections.abc import Iterable

from bot.reading.tags import NAME, Letter, Tag, letter, opened


def needs(text: str) -> list[frozenset[Letter]]:
    """What the pattern *text* can't match without: of each set one tag at least.

    A tag that only might be needed is left out, and so is USED, which comes up only while the rules are run.
    """
    return _needs(_PIECE.findall(opened(text))[::-1])


_PIECE = re.compile(r"[A-Z][A-Z_]+|\(\?(?:<?[=!]|:)|\{[^}]*\}|\S")


def _needs(pieces: list[str]) -> list[frozenset[Letter]]:
    """What *pieces*, the last one first, need up to the bracket that closes them; they are used up."""
    ways: list[list[frozenset[Letter]]] = [[]]
    while pieces and (piece := pieces.pop()) != ")":
        if piece == "|":
            ways.append([])
        elif piece[0] == "(":
            inner = _needs(pieces)
            ways[-1] += inner if _is_sure(pieces) and "!" not in piece else []
        elif piece == "[" or NAME.fullmatch(piece):
            choice = _choice(pieces) if piece == "[" else frozenset({letter(piece)})
            ways[-1] += [choice] if _is_sure(pieces) and choice and Tag.USED not in choice else []
    if len(ways) == 1:
        return ways[0]
    return [frozenset[Letter]().union(*map(lead, ways))] if all(ways) else []


def _choice(pieces: list[str]) -> frozenset[Letter]:
    """The tags of a class in square brackets; none if it is one of all others."""
    names: list[str] = []
    while (piece := pieces.pop()) != "]":
        names.append(piece)
    return frozenset() if names[0] == "^" else frozenset(map(letter, names))


def _is_sure(pieces: list[str]) -> bool:
    """Whether what stands before *pieces* must be there at least once, by the count that follows."""
    return not pieces or (pieces[-1] not in ("?", "*") and not pieces[-1].startswith("{0"))


def sure(needs: list[frozenset[Letter]]) -> frozenset[Letter]:
    """The tags that are all needed: those of *needs* without a choice."""
    return frozenset(tag for choice in needs if len(choice) == 1 for tag in choice)


def lead(needs: list[frozenset[Letter]]) -> frozenset[Letter]:
    """Of what a pattern *needs*, the choice that is least often met; none if it needs nothing."""
    return min(needs, key=lambda choice: (len(choice & _EVERYDAY), len(choice)), default=frozenset())


class Led:
    """Things in their order, each with the tags of which one must stand in a reply; without any it is always due."""

    def __init__(self, leads: Iterable[frozenset[Letter]]) -> None:
        self._always: set[int] = set()
        self._by_tag: dict[str, set[int]] = {}
        for place, tags in enumerate(leads):
            if not tags:
                self._always.add(place)
            for tag in tags:
                self._by_tag.setdefault(tag, set()).add(place)

    def due(self, there: Iterable[str]) -> list[int]:
        """The places of all things that are due where the tags *there* stand, in order."""
        return sorted(self._always.union(*[self._by_tag[tag] for tag in there if tag in self._by_tag]))


_EVERYDAY = frozenset(
    {Tag.WORD, Tag.FILL, Tag.STOP, Tag.COMMA, Tag.AND, Tag.BUT, Tag.THE, Tag.SELF, Tag.IT, Tag.IS, Tag.IN, Tag.ON,
     Tag.AT, Tag.OF, Tag.TO, Tag.FOR, Tag.NUM, Tag.ONE, Tag.DUR, Tag.ACT, Tag.DONE, Tag.ABOUT, Tag.NEG, Tag.DATE}
)  # fmt: skip
