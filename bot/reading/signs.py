"""Signs of danger and alarm: word groups that stand near each other, unless denied, told of others or long over.

They look at all tokens, whatever other rules made of them: a danger sign is never hidden by another reading.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache, lru_cache
from itertools import pairwise, product
from typing import NamedTuple

from bot.reading.denial import REACH
from bot.reading.lexicon import SIGN_FILES, Sign, listed, load, signs, vocabulary
from bot.reading.scope import Scope
from bot.reading.spelling import english
from bot.reading.spots import Mention, Spot
from bot.reading.tags import Token


class Seen(NamedTuple):
    """A sign that was seen, with the tokens that it came from."""

    sign: Sign
    first: int
    last: int


def heard(words: list[str]) -> list[str]:
    """*words* with each unknown word that is a slip of a danger word taken for it: a guess is the careful side.
    "my mouths gone" is heard as "my mouth gone"."""
    real = english()
    words = [_SINGLE.get(word, word) for word in words] if not _SINGLE.keys().isdisjoint(words) else words
    slips = {word: _meant(word) for word in set(words) - vocabulary() if len(word) >= SHORTEST and word not in real}
    return [slips.get(word) or word for word in words] if any(slips.values()) else words


_SINGLE = {f"{word}s": word for word in listed("body", "single")}
"""Parts that nobody has two of, so that their plural is one written without its apostrophe."""
SHORTEST, LONG = 4, 8
"""The shortest word that may be a slip; from this length on two letters may be off."""


@lru_cache(maxsize=4096)
def _meant(word: str) -> str:
    """The danger word that *word* is a slip of; empty if none."""
    if not word.isalpha():
        return ""
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    off = 2 if len(word) >= LONG else 1
    alike = [slip for slip in _slips() if slip[0] == word[0]]
    best = process.extractOne(word, alike, scorer=OSA.distance, score_cutoff=off)
    return str(best[0]) if best else ""


@cache
def _slips() -> tuple[str, ...]:
    return tuple(load("danger")["slips"])


def likely(spots: Sequence[Spot]) -> tuple[list[Sign], ...]:
    """The signs whose word groups all stand in the text, for each of `SIGN_FILES` in the order of its list."""
    there = {group for spot in spots for group in spot.groups}
    leads = _by_first_group()
    whole = [each for group in leads.keys() & there for each in leads[group] if there.issuperset(each.sign.groups)]
    if not whole:
        return _NONE
    return tuple([[each.sign for each in sorted(whole) if each.file == file] for file in SIGN_FILES])


_NONE: tuple[list[Sign], ...] = ([],) * len(SIGN_FILES)


class _Listed(NamedTuple):
    """A sign and its place in its file."""

    file: str
    place: int
    sign: Sign


@cache
def _by_first_group() -> dict[str, list[_Listed]]:
    """All signs by the first of their groups."""
    found: dict[str, list[_Listed]] = {}
    for file in SIGN_FILES:
        for place, sign in enumerate(signs(file)):
            found.setdefault(sign.groups[0], []).append(_Listed(file, place, sign))
    return found


def looked_for(signs: Iterable[Sign]) -> frozenset[str]:
    """The groups whose phrases decide on *signs*."""
    return ALWAYS.union(*[each for sign in signs for each in (sign.groups, sign.unless)])


ALWAYS = frozenset({"unreal", "thing"})
"""Groups that may explain any sign away."""


def seen(signs: Sequence[Sign], mentions: dict[str, list[Mention]], scope: Scope) -> Iterator[Seen]:
    """The signs that stand in the text, each once."""
    for sign in signs:
        if all(group in mentions for group in sign.groups):
            for combination in product(*(mentions[group][:12] for group in sign.groups)):
                if _near(sign, combination, scope) and not _excused(sign, combination, mentions, scope):
                    yield Seen(sign, min(m.first for m in combination), max(m.last for m in combination))
                    break


_PRESENT = listed("others", "now")
_CALLS = frozenset({"now", "help", "just"})
_YEARS = (1950, 2025)
"""A number between these tells of a year gone by."""
_GRAVE = frozenset({"chest", "breath", "stroke"})
"""Codes that call for help without a word of it."""
_NOT_NOW = listed("others", "not_now")


def of_others(
    signs: Sequence[Sign], mentions: dict[str, list[Mention]], scope: Scope, tokens: Sequence[Token]
) -> Iterator[Seen]:
    """Signs that somebody else, of whom *scope* knows, has at this moment."""
    open_scope = scope._replace(other=frozenset())
    words = {token.word for token in tokens}
    if any(token.number is not None and _YEARS[0] <= token.number <= _YEARS[1] for token in tokens):
        return
    for sign in seen(signs, mentions, open_scope):
        near = {token.word for token in tokens[max(0, sign.first - 4) : sign.last + 5]}
        called = bool(words & _CALLS) or (sign.sign.code in _GRAVE and not words & _NOT_NOW)
        if sign.first in scope.other and near & _PRESENT and called:
            yield sign


def _near(sign: Sign, combination: Sequence[Mention], scope: Scope) -> bool:
    ordered = sorted(combination, key=lambda mention: mention.first)
    for before, after in pairwise(ordered):
        apart = after.first - before.last
        if apart > sign.window or (apart <= 0 and not (sign.overlap and before[1:] != after[1:])):
            return False
        if not sign.across and scope.sentence[before.last] != scope.sentence[after.first]:
            return False
    return True


def _excused(sign: Sign, combination: Sequence[Mention], mentions: dict[str, list[Mention]], scope: Scope) -> bool:
    """Whether a sign is denied, somebody else's, long over, or explained by another word in its sentence."""
    denied = scope.denied if not sign.denied else {}
    if any(_is_denied(mention, combination, denied) for mention in combination) or _of_another(
        sign, combination, scope
    ):
        return True
    if all(mention.first in scope.over for mention in combination):
        return True
    if sign.code != "self_harm" and any(_unreal(each, combination, scope) for each in mentions.get("unreal", ())):
        return True
    if any(_of_thing(each, combination, scope) for each in mentions.get("thing", ())):
        return True
    sentences = {scope.sentence[mention.first] for mention in combination}
    first, last = min(each.first for each in combination), max(each.last for each in combination)
    return any(
        first - FAR <= each.last
        and each.first <= last + FAR
        and scope.sentence[each.first] in sentences
        and each.first not in scope.denied
        and each.first not in scope.likened
        and scope.anew.isdisjoint(range(each.last + 1, first + 1))
        and (sign.code in _EXPLAINED_ACROSS or _joined(each, first, last, scope))
        for group in sign.unless
        for each in mentions.get(group, ())
    )


def _joined(excuse: Mention, first: int, last: int, scope: Scope) -> bool:
    """Whether no comma parts *excuse* from a sign from token *first* to *last*: "gym was shut, left arm aches"."""
    return scope.commas.isdisjoint((*range(excuse.last + 1, first), *range(last + 1, excuse.first)))


_EXPLAINED_ACROSS = frozenset({"faint", "bone"})
"""Codes whose signs are often explained across a comma: "everything went black, power cut"."""
FAR = 9
"""Tokens; a word that explains a sign away stands no further from it."""


def _of_another(sign: Sign, combination: Sequence[Mention], scope: Scope) -> bool:
    """Whether the sign is told of somebody else. Who threatens, or would be better off, is always another, and
    so is the baby."""
    if sign.by_others or sign.code in ("unsafe", "other"):
        return False
    if sign.code == "pregnancy":
        return all(mention.first in scope.other for mention in combination)
    if sign.code == "self_harm":
        return all(mention.first in scope.other and mention.last in scope.other for mention in combination)
    return any(mention.first in scope.other for mention in combination)


def _unreal(lead: Mention, combination: Sequence[Mention], scope: Scope) -> bool:
    """Whether *lead* ("what if i", "an article about") makes what stands right after it a mere thought."""
    first = min(mention.first for mention in combination)
    near = lead.first < first <= lead.last + REACH and scope.sentence[lead.last] == scope.sentence[first]
    return near and scope.anew.isdisjoint(range(lead.last + 1, first + 1))


def _of_thing(thing: Mention, combination: Sequence[Mention], scope: Scope) -> bool:
    """Whether *thing* does or has what stands right after it: "the kitchen sink has no bladder control"."""
    first = min(mention.first for mention in combination)
    if thing.first in scope.met:
        return False
    return _unreal(thing, combination, scope) and scope.own.isdisjoint(range(thing.last + 1, first + 1))


def _is_denied(mention: Mention, combination: Sequence[Mention], denied: Mapping[int, int]) -> bool:
    """Whether *mention* is denied by a word that is no part of the sign itself ("not making sense in the sun")."""
    denial = denied.get(mention.first)
    return denial is not None and not any(each.first <= denial <= each.last for each in combination)
