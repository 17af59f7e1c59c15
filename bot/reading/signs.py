"""Signs of danger and alarm: word groups that stand near each other, unless denied, told of others or long over.

They look at all tokens, whatever other rules made of them: a danger sign is never hidden by another reading.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache, lru_cache
from itertools import pairwise, product
from typing import NamedTuple

from bot.reading.lexicon import SIGN_FILES, Sign, listed, load, signs, symptoms, vocabulary
from bot.reading.spelling import english
from bot.reading.spots import Mention, Spot
from bot.reading.tags import Item, Tag, Token

_DENIALS = frozenset({"no", "not", "never", "without", "zero", "nor", "neither", "none", "denies", "nobody"})
_DENIAL_ENDS = frozenset({".", "!", ";", "?", ",", "but", "just", "now", "so", "then", "because", "i", "though", "+"})
_UNABLE = frozenset({"can", "could", "will", "would"})
_DENIED_VERBS = frozenset(
    {"have", "had", "get", "got", "getting", "feel", "felt", "feeling", "hurt", "faint", "notice", "suffer", "pass",
     "black", "collapse", "want", "experience", "any", "a", "the", "been", "being", "actually", "really", "even",
     "make", "having", "gone", "going", "be", "wanting", "trying", "planning"}
)  # fmt: skip
_BEGINS_ANEW = listed("others", "begin_anew")
"""After "and" a denial goes no further: "no pain and felt dizzy"."""
_REACH = 7
_SENTENCE_ENDS = frozenset({".", "!", "?", ";"})
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


class Seen(NamedTuple):
    """A sign that was seen, with the tokens that it came from; *over*: it is told of the past."""

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


_PREPOSITIONS = frozenset(
    {"on", "in", "at", "near", "by", "with", "from", "off", "behind", "after", "outside", "inside", "like", "as"}
)
"""After one of these a thing is where it happened or what it is like: "on the treadmill my chest hurt"."""


def _is_met(tokens: Sequence[Token], place: int) -> bool:
    before = [token.word for token in tokens[max(0, place - 3) : place]]
    if len(before) == 3 and before[1] in _ARTICLES and before[0] in _PREPOSITIONS:
        return True
    last = before[-2] if len(before) > 1 and before[-1] in _ARTICLES else before[-1]
    return last in _PREPOSITIONS or tokens[place - 1].word in _NOT_SUBJECT


def scope_of(tokens: Sequence[Token], others: frozenset[int], over: frozenset[int]) -> Scope:
    """What is denied in *tokens*, beside what is told of *others* or long *over*."""
    sentence = _sentences(tokens)
    own = frozenset(place for place, token in enumerate(tokens) if token.word in _OWN or _joins(tokens, place))
    met = frozenset(place for place in range(1, len(tokens)) if _is_met(tokens, place))
    anew = frozenset(place for place in range(len(tokens)) if _begins(tokens, place))
    commas = frozenset(place for place, token in enumerate(tokens) if token.word == ",")
    likened = frozenset(
        after
        for place in range(len(tokens) - 1)
        if tokens[place].word in ("like", "if", "though") and tokens[place + 1].word == "i"
        for after in range(place + 2, place + 2 + _REACH)
    )
    return Scope(sentence, dict(_denied(tokens)), others, over, own, anew, commas, likened, met)


def _begins(tokens: Sequence[Token], place: int) -> bool:
    """Whether something else is told from *place* on: for a reason, then, after a mark, or with "and I"."""
    word = tokens[place].word
    joined = word in (",", "and") and (_word_at(tokens, place + 1) in ("i", "my", "we") or _own_part(tokens, place + 1))
    return word in _BEGINNING or joined or (word != ":" and _parts(tokens, place))


_BEGINNING = frozenset({"because", "cause", "then", "till", "until", "but", "forget"})


def _joins(tokens: Sequence[Token], place: int) -> bool:
    """`passed three cows so chest feels tight`: what comes next is of no cow. "So dizzy" is not meant."""
    lead = tokens[place - 1].word if place else ""
    part = lead == "and" and _own_part(tokens, place)
    return part or (tokens[place].word in ("so", "because") and lead not in _BEING)


_BEING = frozenset(
    {"is", "s", "was", "are", "were", "feel", "feels", "felt", "look", "looks", "looked", "got", "be", "been"}
)


def _sentences(tokens: Sequence[Token]) -> list[int]:
    """For each token the number of its sentence. Gasps ("home. still. gasping.") are one, whatever stands between."""
    ends = [-1, *(place for place, token in enumerate(tokens) if token.word in _SENTENCE_ENDS), len(tokens)]
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


def _denied(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Tokens after a denial, to the end of its reach. "Can't shake the pain" denies nothing."""
    for index, token in enumerate(tokens):
        if token.word not in _DENIALS:
            continue
        before = tokens[index - 1].word if index else ""
        after = tokens[index + 1].word if index + 1 < len(tokens) else ""
        auxiliary = before in ("did", "do", "does") and not (after == "go" and _word_at(tokens, index + 2) in _GONE)
        if before in _UNABLE or after in ("longer", "stop") or (auxiliary and after not in _DENIED_VERBS):
            continue
        if (token.word == "without" and _unable(tokens, index)) or _denies_nothing(tokens, index):
            continue
        for place in range(index + 1, min(index + 1 + _REACH, len(tokens))):
            another = tokens[place - 1].word == "and" and (
                tokens[place].word in _BEGINS_ANEW or _own_part(tokens, place)
            )
            own = tokens[place].word == "my" and tokens[place - 1].word not in _PREPOSITIONS and place > index + 1
            own = own and _own_part(tokens, place + 1)
            if (
                tokens[place].word in _DENIAL_ENDS
                or another
                or own
                or _parts(tokens, place)
                or _gives_reason(tokens, place)
            ):
                break
            yield place, index


def _parts(tokens: Sequence[Token], place: int) -> bool:
    """Whether the mark at *place* parts what is said: an emoji, a slash between spaces, a colon, a bracket."""
    token = tokens[place]
    if token.word[0].isalnum() or token.word in (",", "-", "'"):
        return False
    return token.word != "/" or token.start > tokens[place - 1].end


def _gives_reason(tokens: Sequence[Token], place: int) -> bool:
    """`wasn't doing anything as my pee looks like cola`, `no worries since my wee is dark`."""
    return tokens[place].word in _REASONING and _word_at(tokens, place + 1) in _OWN


_REASONING = frozenset({"as", "since"})


def _own_part(tokens: Sequence[Token], place: int) -> bool:
    """`the kids were in bed and chest feels tight`: a part of the sender, and what it does."""
    part = _word_at(tokens, place) in _PARTS
    after = _word_at(tokens, place + 1)
    pain = after in ("pain", "pains") and _word_at(tokens, place + 2) in ("started", "began", "came", "kicked")
    return part and (after in _DOES or after.endswith("ing") or pain)


_PARTS = listed("others", "parts")
_DOES = listed("others", "does")
_GONE = frozenset({"dizzy", "faint", "numb", "lightheaded", "black", "woozy", "giddy"})
"""`didn't go dizzy`, and not "didn't go out dizzy"."""


def _word_at(tokens: Sequence[Token], place: int) -> str:
    return tokens[place].word if place < len(tokens) else ""


_ASIDES = listed("others", "aside")
_INNOCENT = listed("others", "innocent")
_DENIABLE = listed("others", "deniable")
_THAT = frozenset({"that", "this", "it", "them"})


def _denies_nothing(tokens: Sequence[Token], index: int) -> bool:
    """`no idea why`, `not great`, `never had that before`: a denial of something else, without a mark after it."""
    after = [token.word for token in tokens[index + 1 : index + 3]]
    if tokens[index].word == "no" and after[:1] in (["my"], ["i"]):
        return True
    new = (
        tokens[index].word == "never"
        and after[:1] in (["had"], ["felt"], ["known"])
        and not _THAT.isdisjoint(after[1:])
    )
    what = after[1:] if tokens[index].word == "not" and after[:1] in (["much"], ["enough"]) else after[:1]
    other = tokens[index].word == "no" and bool(after) and after[0] not in symptoms() and after[0] not in _DENIABLE
    other = other or (tokens[index].word in ("no", "not", "without") and not _INNOCENT.isdisjoint(what))
    return new or other or (bool(after) and tokens[index].word in ("no", "not") and after[0] in _ASIDES)


def _unable(tokens: Sequence[Token], index: int) -> bool:
    """Whether *index* follows what can't be done: "can't walk up the road without my chest gripping me"."""
    return any(
        tokens[place].word == "not" and tokens[place - 1].word in _UNABLE
        for place in range(max(1, index - 2 * _REACH), index)
    )


_COMPARING = frozenset({"like", "if", "though", "thought"})
"""`as if someone sat on my chest`, `i thought someone had poured coke in`: nobody else is meant."""
OTHERS = frozenset({Tag.OTHER, Tag.LOSS})
"""Who is spoken of is somebody else: named, or named as lost ("my mate passed", which may go on: "out")."""
TURNED = OTHERS | {Tag.LONG_AGO}
"""Without any of these all is told of the sender and of now."""


def _others(tokens: Sequence[Token], items: Sequence[Item]) -> Iterator[int]:
    """Tokens of a clause whose subject is somebody else; "they" is nobody where no one was named before."""
    met = False
    for index, item in enumerate(items):
        if item.tag not in OTHERS:
            continue
        compared = item.first > 0 and tokens[item.first - 1].word in _COMPARING
        who = item.last + 1 < len(tokens) and tokens[item.last + 1].word == "who"
        lead = index - 1
        named_whole = tokens[item.first].word in _ARTICLES
        while not named_whole and lead > max(0, index - 3) and items[lead].tag in (Tag.THE, Tag.WORD):
            lead -= 1
        beside = index > 1 and items[index - 1].tag is Tag.AND and tokens[items[index - 2].last].word == "me"
        one = lead > 0 and items[lead].tag is Tag.OF and items[lead - 1].tag in (Tag.ONE, Tag.NUM)
        aside = lead >= 0 and items[lead].tag in _NO_SUBJECT and not who and not one
        aside = aside or (item.first > 0 and tokens[item.first - 1].word in _NOT_SUBJECT)
        named = item.first == item.last and tokens[item.first].word == "they" and not met
        met = met or item.tag in OTHERS
        if named or compared or aside or beside or _quoted(tokens, item) or _tells(tokens, item):
            continue
        yield from range(item.first, item.last + _goes_on(tokens[item.last].word))
        if item.tag is Tag.LOSS:
            yield item.last
        for place in range(item.last + 1, len(tokens)):
            word = tokens[place].word
            behind = word == "me" and tokens[place - 1].word in _BEHIND
            told = word == "it" and tokens[place - 1].word in _SAYING
            told = told or (word == "so" and place + 1 < len(tokens) and tokens[place + 1].word not in _THEIRS)
            device = word in _AROUND and tokens[place - 1].word == "and" and tokens[item.last].word in _DEVICES
            anew = tokens[place - 1].word == "and" and (
                word in _ANEW or _own_part(tokens, place) or _pain_of_own(tokens, item, place)
            )
            apart = word != ":" and _parts(tokens, place)
            if (word in _OWN and not behind) or anew or word in _SENTENCE_ENDS or told or device or apart:
                break
            yield place


_ANEW = frozenset({"now", "both", "mine"})
"""After "and" these turn back to the sender: "in my daughter's trainers and now both heels have blisters"."""


def _pain_of_own(tokens: Sequence[Token], item: Item, place: int) -> bool:
    """`kids asleep and chest pain on the stairs`: a pain, where nobody was said to have something."""
    pain = tokens[place].word in _PARTS and _word_at(tokens, place + 1) in ("pain", "pains")
    return pain and _HOLDING.isdisjoint([token.word for token in tokens[item.first : place]])


def _goes_on(word: str) -> bool:
    """Whether *word*, the last one of who is spoken of, says already what became of them: "mate fainted"."""
    return word in _ARTICLES or word in _HOLDING or word.endswith("ed")


def _quoted(tokens: Sequence[Token], item: Item) -> bool:
    """Whether *item* is a device that tells of the sender ("my watch says afib"), or "me my" taken for "me ma", or
    "hurts me the chest" for "me da"."""
    after = {token.word for token in tokens[item.last + 1 : item.last + 3]}
    father = bool(after & _VERBS)
    last = tokens[item.last].word
    beside = item.last > item.first and tokens[item.last - 1].word in _BEHIND
    own = (last in _OWN and not beside) or (last == "the" and item.last > item.first and not father)
    return own or (last in _DEVICES and bool(after & _SAYING))


def _tells(tokens: Sequence[Token], item: Item) -> bool:
    """Whether *item* says what the sender is like: "the wife reckons half my face is down"."""
    if tokens[item.last].word in _CLINICIANS:
        return False
    for place in range(item.last + 1, min(item.last + 4, len(tokens))):
        if tokens[place].word in _TELLING:
            after = [token.word for token in tokens[place + 1 : place + 6]]
            return _THEIRS.isdisjoint(after)
    return False


_NOT_SUBJECT = listed("others", "speaking", "past")
_VERBS = frozenset({"s", "is", "has", "was", "had", "collapsed", "fell", "fainted"})
"""After "me the" these tell that it was "me da"."""
_ARTICLES = frozenset({"a", "an", "the"})
_HOLDING = frozenset({"had", "has", "got", "felt"})
_CLINICIANS = listed("clinicians", "both", "clear", "look")
_TELLING = listed("others", "telling")
_THEIRS = listed("others", "theirs")
_DEVICES = listed("devices", "name")
_SAYING = listed("devices", "saying")
_AROUND = frozenset({"everything", "all", "things", "vision"})
"""After a device and "and" these turn back to the sender: "went to stop my watch and everything went black"."""
_OWN = frozenset({",", "but", "i", "me", "my", "we", "myself"})
_BEHIND = frozenset({"of", "to", "with", "behind", "for", "at", "from", "beside", "near", "ahead", "past"})
_NO_SUBJECT = frozenset(
    {Tag.WITH, Tag.TO, Tag.FOR, Tag.OF, Tag.BY, Tag.FROM, Tag.AFTER, Tag.ACT, Tag.AT, Tag.ON, Tag.IN}
)


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
        last += _word_at(tokens, last + 1) == "," and (first == item.first or _tells_of_then(tokens, last + 2))
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
    said = [token for token in (*tokens[start + 1 : item.first], *tokens[item.last + 1 : end]) if token.number is None]
    least = 1 if tokens[item.first].word == "used" and _IT.isdisjoint([token.word for token in said]) else OWN_WORDS
    return start >= 0 and sum(token.word not in _SLIGHT for token in said) >= least


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
    if word == "," and _word_at(tokens, place + 1) in _THIS_TIME:
        return _AGAIN.isdisjoint([token.word for token in tokens[place + 1 :]])
    anew = word in (",", "and", "then") and (_word_at(tokens, place + 1) in ("i", "my") or _own_part(tokens, place + 1))
    return anew or word in _SENTENCE_ENDS or word in ("but", "so") or (word != ":" and _parts(tokens, place))


def _is_now(tokens: Sequence[Token], place: int) -> bool:
    """Whether *place* says that it is so now; "well now" and "happy as a lark now" say that it is not."""
    before = tokens[place - 1].word if place else ""
    denied = "not" in [token.word for token in tokens[max(0, place - 4) : place]]
    if tokens[place].word not in _NOW or before in _NOT_THEN or (before in _LONG and denied):
        return False
    if before in _RETURNED:
        return True
    return _WELL.isdisjoint([token.word for token in tokens[max(0, place - _WELL_REACH) : place]])


def elsewhere(tokens: Sequence[Token], items: Sequence[Item]) -> tuple[frozenset[int], frozenset[int]]:
    """Tokens that tell of somebody else, and those that tell of long ago."""
    return frozenset(_others(tokens, items)), frozenset(_over(tokens, items))


def likely(spots: Sequence[Spot]) -> tuple[list[Sign], ...]:
    """The signs whose word groups all stand in the text, for each of `SIGN_FILES` in the order of its list."""
    there: set[str] = set()
    there.update(*[spot.groups for spot in spots])
    leads = _by_first_group()
    near = [each for group in there if group in leads for each in leads[group]]
    whole = sorted([each for each in near if there.issuperset(each.sign.groups)])
    return tuple([[each.sign for each in whole if each.file == file] for file in SIGN_FILES] if whole else _NONE)


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
        if apart <= 0 or apart > sign.window:
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
        and (sign.code in _EXPLAINED_AFTER or scope.commas.isdisjoint(range(last + 1, each.first)))
        for group in sign.unless
        for each in mentions.get(group, ())
    )


_EXPLAINED_AFTER = frozenset({"faint", "bone"})
"""Codes whose signs are often explained after a comma: "everything went black, power cut"."""
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
    near = lead.first < first <= lead.last + _REACH and scope.sentence[lead.last] == scope.sentence[first]
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
