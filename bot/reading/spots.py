"""Phrases of word groups in a reply: where each stands, numbers included."""

from collections.abc import Callable, Sequence
from functools import lru_cache, partial
from typing import NamedTuple

from bot.reading.lexicon import Tree, listed
from bot.reading.scan import IDLE_PAIRS, MOST_IDLE, idle_words
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


_spot: Callable[[tuple[Sequence[str], int, int]], Spot] = partial(tuple.__new__, Spot)
"""A spot from its fields, as `tokens.py` makes tokens."""


def spots_of(words: list[str], tokens: Sequence[Token], groups: Tree, idle: int = MOST_IDLE) -> list[Spot]:
    """All phrases of all groups in *words*, which are those of *tokens* or what is meant by them; so many *idle* words
    may stand within a phrase."""
    ways = {place: _ways(words[place], token.number) for place, token in enumerate(tokens) if token.number is not None}
    found: list[Spot] = []
    last = len(words) - 1
    for first, word in enumerate(words):
        node = groups.get(word)
        if first in ways or word == "s":
            _walk(words, ways, first, first, groups, found, idle)
        elif node is not None:
            if node.closed:
                node.grow()
            if node.meaning is not None:
                found.append(_spot((node.meaning, first, first)))
            after = words[first + 1] if first < last else ""
            if first < last and (after in node or first + 1 in ways or after == "s" or (idle and after in _IDLE)):
                _walk(words, ways, first, first + 1, node, found, idle)
    return found


def masks_of(spots: Sequence[Spot]) -> list[Mention]:
    """The phrases that cover what only looks like a sign ("chest day")."""
    return [Mention(group, spot.first, spot.last) for spot in spots for group in spot.groups if group[:5] == "mask_"]


def mentions_of(spots: Sequence[Spot], masks: Sequence[Mention], wanted: frozenset[str]) -> dict[str, list[Mention]]:
    """The phrases of the *wanted* groups by group, those under *masks* left out."""
    by_group: dict[str, list[Mention]] = {}
    for spot in spots:
        if wanted.isdisjoint(spot.groups):
            continue
        for group in wanted.intersection(spot.groups):
            each = Mention(group, spot.first, spot.last)
            if not masks or not any(_covers(mask, each) for mask in masks):
                by_group.setdefault(group, []).append(each)
    return by_group


_MUCH = listed("scan", "much")
_IDLE = _MUCH | IDLE_PAIRS.keys()
"""Words with which that may begin which only says how much: "came over all faint"."""


def _walk(
    words: list[str], ways: dict[int, list[str]], first: int, place: int, node: Tree, found: list[Spot], idle: int
) -> None:
    """Add the phrases that start at token *first*; *node* of the tree stands before token *place*, and *ways* are
    those to take from it at a number."""
    here, count = place, len(words)
    while here < count:
        if here in ways:
            for branch in [node[way].grow() for way in ways[here] if way in node]:
                if branch.meaning is not None:
                    found.append(_spot((branch.meaning, first, here)))
                _walk(words, ways, first, here + 1, branch, found, idle)
            return
        after = node.get(words[here])
        if after is None:
            if words[here] in _IDLE and idle and here > first and (skips := idle_words(words, here, _MUCH)):
                here, idle = here + skips, idle - 1
                continue
            if words[here] != "s":
                return
            after = node.get("is")
            if after is None:
                return
        node = after
        if node.closed:
            node.grow()
        if node.meaning is not None:
            found.append(_spot((node.meaning, first, here)))
        here += 1


def _covers(mask: Mention, each: Mention) -> bool:
    """Whether *mask* ("mask_heart") lies over *each*, a mention of a group of its sign ("heart_fast")."""
    return mask.first <= each.last <= mask.last and each.group.startswith(mask.group[5:])


LOW_MMOL, LOW_MG, LEAST_MG = 4.0, 70.0, 25.0
"""Blood glucose below 4.0 mmol/l or 70 mg/dl is low (International Hypoglycaemia Study Group 2017, from memory)."""


HOT = ((27.0, 50.0), (80.0, 122.0))
"""Degrees of a hot day: Celsius, Fahrenheit (common practice, no source)."""


FAST_BPM, REST_BPM = 150.0, 100.0
"""Beats a minute that a walk does not need at any age, and above which a heart at rest is fast (common practice)."""
MOST_BPM = 260.0


@lru_cache(maxsize=4096)
def _ways(word: str, number: float) -> list[str]:
    """What *number* can be taken for: its word, any number, low sugar (or with a point), a hot day, a fast heart."""
    low = number < LOW_MMOL or LEAST_MG <= number < LOW_MG
    hot = any(least <= number <= most for least, most in HOT)
    high = FAST_BPM <= number <= MOST_BPM
    rest = REST_BPM < number <= MOST_BPM
    any_number = ["#"] * (word != "#")
    mmol = low and "." in word and number < LOW_MMOL
    return [
        word,
        *any_number,
        *["#low"] * low,
        *["#mmol"] * mmol,
        *["#hot"] * hot,
        *["#high"] * high,
        *["#rest"] * rest,
    ]
