"""Of whom and of when each word of a reply tells: denied, of somebody else, of long ago, only thought of."""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from bot.reading.bounds import ARTICLES, OWN, PREPOSITIONS, SENTENCE_ENDS, is_mark, of_sender, own_part, word_at
from bot.reading.denial import REACH, denied
from bot.reading.lexicon import listed
from bot.reading.others import BEFORE_OTHERS, OTHERS, of_others
from bot.reading.tags import Item, Tag, Token

_NOT_THEN = frozenset({"not", "with", "never"})
"""Before "now" or "today": "nothing to do with today"."""
_LONG = frozenset({"months", "years", "ages", "decades"})
"""Before "now": "not for years now"."""
_RETURNED = frozenset({"back", "here"})
"""Before "now": what was gone is not."""
_WELL = listed("others", "well_now")
_WELL_REACH = 8
_NOW = frozenset({"again", "now", "today", "still", "currently", "tonight"})


class Scope(NamedTuple):
    """For each token: number of its sentence, whether it is denied, told of somebody else, long over."""

    sentence: Sequence[int]
    denied: Mapping[int, int]
    """Denied tokens, each with the token that denies it."""
    other: frozenset[int]
    over: frozenset[int]
    own: frozenset[int]
    """Words of the sender, and what turns back to the sender: i, my, but, so, because."""
    anew: frozenset[int]
    """Where something else begins: "googled a stroke because my face droops", "watched a match and my ..."."""
    commas: frozenset[int]
    likened: frozenset[int]
    """What it is only like: "like i have been to the dentist"."""
    met: frozenset[int]
    """Where what somebody came past or upon begins: "over the dog", "on the treadmill"."""


def _is_met(tokens: Sequence[Token], place: int) -> bool:
    before = [token.word for token in tokens[max(0, place - 3) : place]]
    if len(before) == 3 and before[1] in ARTICLES and before[0] in PREPOSITIONS:
        return True
    last = before[-2] if len(before) > 1 and before[-1] in ARTICLES else before[-1]
    return last in PREPOSITIONS or tokens[place - 1].word in BEFORE_OTHERS


def scope_of(tokens: Sequence[Token], others: frozenset[int], over: frozenset[int]) -> Scope:
    """What is denied in *tokens*, beside what is told of *others* or long *over*."""
    sentence = _sentences(tokens)
    own = frozenset(place for place, token in enumerate(tokens) if token.word in OWN or _joins(tokens, place))
    met = frozenset(place for place in range(1, len(tokens)) if _is_met(tokens, place))
    anew = frozenset(place for place in range(len(tokens)) if _begins(tokens, place))
    commas = frozenset(place for place, token in enumerate(tokens) if token.word == ",")
    likened = frozenset(
        after
        for place in range(len(tokens) - 1)
        if tokens[place].word in ("like", "if", "though") and tokens[place + 1].word == "i"
        for after in range(place + 2, place + 2 + REACH)
    )
    return Scope(sentence, dict(denied(tokens)), others, over, own, anew, commas, likened, met)


def _begins(tokens: Sequence[Token], place: int) -> bool:
    """Whether something else is told from *place* on: for a reason, then, after a mark, or with "and I"."""
    word = tokens[place].word
    joined = word in (",", "and") and (of_sender(tokens, place + 1) or word_at(tokens, place + 1) == "we")
    return word in _BEGINNING or joined or is_mark(tokens, place)


_BEGINNING = frozenset({"because", "cause", "then", "till", "until", "but", "forget"})


def _joins(tokens: Sequence[Token], place: int) -> bool:
    """`passed three cows so chest feels tight`: what comes next is of no cow. "So dizzy" is not meant."""
    lead = tokens[place - 1].word if place else ""
    part = lead == "and" and own_part(tokens, place)
    return part or (tokens[place].word in ("so", "because") and lead not in _BEING)


_BEING = frozenset(
    {"is", "s", "was", "are", "were", "feel", "feels", "felt", "look", "looks", "looked", "got", "be", "been"}
)


def _sentences(tokens: Sequence[Token]) -> list[int]:
    """For each token the number of its sentence. Gasps ("home. still. gasping.") are one, whatever stands between."""
    ends = [-1, *(place for place, token in enumerate(tokens) if token.word in SENTENCE_ENDS), len(tokens)]
    sentence: list[int] = []
    count = 0
    for before, end, after in zip(ends, ends[1:], [*ends[2:], len(tokens)], strict=False):
        sentence += [count] * (end - before - 1)
        if end < len(tokens):
            gasped = end - before - 1 <= _GASP and 0 < after - end - 1 <= _GASP
            count += not gasped
            sentence.append(count)
    return sentence


_GASP = 2
"""So many words between stops are a gasp, no sentence."""


TURNED = OTHERS | {Tag.LONG_AGO}
"""Without any of these all is told of the sender and of now."""


def _over(tokens: Sequence[Token], items: Sequence[Item]) -> Iterator[int]:
    """Tokens around words like "years ago", unless the same stretch says that it is so now."""
    reached = -1
    told = {item.last + 1 for item in items if item.tag in OTHERS}
    for item in items:
        if item.tag is not Tag.LONG_AGO or item.first <= reached:
            continue
        if _compares(tokens, item):
            continue
        first, last = item.first, item.last
        own = _is_clause(tokens, item)
        while first > 0 and not _turns(tokens, first - 1) and not (own and tokens[first - 1].word == ","):
            first -= 1
        last += word_at(tokens, last + 1) == "," and (first == item.first or _tells_of_then(tokens, last + 2))
        while last + 1 < len(tokens) and not _turns(tokens, last + 1) and tokens[last + 1].word != ",":
            last += 1
        reached = last
        if not any(_is_now(tokens, place) for place in range(first, last + 1) if place not in told):
            yield from range(first, last + 1)


def _tells_of_then(tokens: Sequence[Token], place: int) -> bool:
    """`had pneumonia as a kid, coughed blood then`: whether the clause from *place* on is still of that time."""
    end = next((at for at in range(place, len(tokens)) if tokens[at].word == "," or _turns(tokens, at)), len(tokens))
    return not _THEN.isdisjoint([token.word for token in tokens[place:end]])


_THEN = frozenset({"then", "once", "was"})


def _compares(tokens: Sequence[Token], item: Item) -> bool:
    """`worse than last year`, `not used to hills`, `to the shop and back then`: no time of what is told."""
    before, word = tokens[item.first - 1].word if item.first else "", tokens[item.first].word
    if before in ("than", "as", "like", "since"):
        return True
    return (word == "used" and before in ("not", "am", "get", "got", "getting")) or (word == "back" and before == "and")


def _is_clause(tokens: Sequence[Token], item: Item) -> bool:
    """Whether *item* stands in a clause of its own ("chest tight, last year was better"), and does not only date one
    ("chest pain, back in 2015")."""
    start = next((place for place in range(item.first - 1, -1, -1) if tokens[place].word == ","), -1)
    ends = (place for place in range(item.last + 1, len(tokens)) if tokens[place].word == "," or _turns(tokens, place))
    end = next(ends, len(tokens))
    first = start + 1
    first += 2 * (word_at(tokens, first) in _THAT and word_at(tokens, first + 1) in _WAS)
    said = [token for token in (*tokens[first : item.first], *tokens[item.last + 1 : end]) if token.number is None]
    least = 1 if tokens[item.first].word == "used" and _IT.isdisjoint([token.word for token in said]) else OWN_WORDS
    return start >= 0 and sum(token.word not in _SLIGHT for token in said) >= least


_THAT, _WAS = frozenset({"it", "that", "this", "which"}), frozenset({"is", "was"})
"""`, it is twenty years ago now`: so a clause dates the one before."""
_IT = frozenset({"it", "them", "that", "those", "these"})
_SLIGHT = frozenset(
    {"me", "now", "us", "it", "by", "thank", "god", "since", "then", "be", "back", "a", "the", "at", "in"}
)
OWN_WORDS = 2
"""So many words beside "last year" are a clause."""
_THIS_TIME = frozenset({"today", "now"})
_AGAIN = frozenset({"again", "back", "same", "still", "too", "also", "returned", "worse", "it", "that", "came"})
"""With one of these ", today" goes on about what was told of long ago."""


def _turns(tokens: Sequence[Token], place: int) -> bool:
    """Whether something new begins at *place*: a sentence, what stands against it or follows from it, ", i",
    and ", today" unless it goes on about what was."""
    word = tokens[place].word
    if word == "," and word_at(tokens, place + 1) in _THIS_TIME:
        return _AGAIN.isdisjoint([token.word for token in tokens[place + 1 :]])
    anew = word in (",", "and", "then") and of_sender(tokens, place + 1)
    return anew or word in ("but", "so") or is_mark(tokens, place)


def _is_now(tokens: Sequence[Token], place: int) -> bool:
    """Whether *place* says that it is so now; "well now" and "happy as a lark now" say that it is not."""
    before = tokens[place - 1].word if place else ""
    denied = "not" in [token.word for token in tokens[max(0, place - 4) : place]]
    if tokens[place].word not in _NOW or before in _NOT_THEN or (before in _LONG and denied):
        return False
    if before == "ago":
        return False
    if before in _RETURNED:
        return True
    return _WELL.isdisjoint([token.word for token in tokens[max(0, place - _WELL_REACH) : place]])


def elsewhere(tokens: Sequence[Token], items: Sequence[Item]) -> tuple[frozenset[int], frozenset[int]]:
    """Tokens that tell of somebody else, and those that tell of long ago."""
    return frozenset(of_others(tokens, items)), frozenset(_over(tokens, items))
