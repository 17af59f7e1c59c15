"""Phrases of word groups in a reply: where each stands, numbers included."""

from collections.abc import Iterator, Sequence
from typing import Any, NamedTuple

from bot.reading.lexicon import END, Tree
from bot.reading.tags import Token


class Mention(NamedTuple):
    """A phrase of *group* from token *first* to *last*, both inclusive."""

    group: str
    first: int
    last: int


class Spot(NamedTuple):
    """A phrase from token *first* to *last*, both inclusive, and the groups that it is in."""

    groups: Sequence[str]
    first: int
    last: int


def spots_of(tokens: Sequence[Token], groups: Tree) -> list[Spot]:
    """All phrases of all groups."""
    found: list[Spot] = []
    for index, token in enumerate(tokens):
        if token.number is None:
            _walk(tokens, index, groups, found)
        else:
            found.extend(_from(tokens, index, index, groups))
    return found


def mentions_of(spots: Sequence[Spot]) -> dict[str, list[Mention]]:
    """The phrases by group, masked ones left out."""
    found = [Mention(group, spot.first, spot.last) for spot in spots for group in spot.groups]
    masks = [each for each in found if each.group.startswith("mask_")]
    by_group: dict[str, list[Mention]] = {}
    for each in found:
        if not masks or not any(_covers(mask, each) for mask in masks):
            by_group.setdefault(each.group, []).append(each)
    return by_group


def _walk(tokens: Sequence[Token], first: int, node: Tree, found: list[Spot]) -> None:
    """Add the phrases that start at token *first*, a word; from a number on there is more than one way."""
    for place in range(first, len(tokens)):
        token = tokens[place]
        if token.number is not None:
            found.extend(_from(tokens, first, place, node))
            return
        after = node.get(token.word)
        if after is None and token.word == "s":
            after = node.get("is")
        if after is None:
            return
        node = after
        if END in node:
            found.append(Spot(node[END], first, place))


def _covers(mask: Mention, each: Mention) -> bool:
    """Whether *mask* ("mask_heart") lies over *each*, a mention of a group of its sign ("heart_fast")."""
    return mask.first <= each.last <= mask.last and each.group.startswith(mask.group[5:])


def _from(tokens: Sequence[Token], first: int, place: int, node: dict[str, Any]) -> Iterator[Spot]:
    """The phrases that start at token *first*, from *node* of the tree on, which stands before token *place*."""
    while place < len(tokens) and tokens[place].number is None:
        after: dict[str, Any] | None = node.get(tokens[place].word)
        if after is None:
            return
        node = after
        if END in node:
            yield Spot(node[END], first, place)
        place += 1
    if place < len(tokens):
        for branch in _branches(node, tokens[place]):
            if END in branch:
                yield Spot(branch[END], first, place)
            yield from _from(tokens, first, place + 1, branch)


LOW_MMOL, LOW_MG, LEAST_MG = 4.0, 70.0, 25.0
"""Blood glucose below 4.0 mmol/l or 70 mg/dl is low (International Hypoglycaemia Study Group 2017, from memory)."""


HOT = ((27.0, 50.0), (80.0, 122.0))
"""Degrees of a hot day: Celsius, Fahrenheit (common practice, no source)."""


FAST_BPM, REST_BPM = 150.0, 100.0
"""Beats a minute that a walk does not need at any age, and above which a heart at rest is fast (common practice)."""
MOST_BPM = 260.0


def _branches(node: dict[str, Any], token: Token) -> Iterator[dict[str, Any]]:
    """Where *token* goes on from *node*: by its word, as any number, as one of low sugar, a hot day or a fast heart."""
    keys = [token.word]
    if token.number is not None:
        low = token.number < LOW_MMOL or LEAST_MG <= token.number < LOW_MG
        hot = any(least <= token.number <= most for least, most in HOT)
        high = FAST_BPM <= token.number <= MOST_BPM
        rest = REST_BPM < token.number <= MOST_BPM
        keys += ["#"] * (token.word != "#") + ["#low"] * low + ["#hot"] * hot + ["#high"] * high + ["#rest"] * rest
    return (node[key] for key in keys if key in node)
