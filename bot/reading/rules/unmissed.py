"""What sounds like a missed session and is none: "nearly skipped it", "did not feel faint", "ran out after 20"."""

from re import Match

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.said import Said
from bot.reading.rules.story import ON_FOOT
from bot.reading.tags import Tag, pattern


def is_no_miss(page: Page, hit: Match[str]) -> bool:
    """Whether *hit*, which sounds like a missed session, is none."""
    miss = Said(page, hit)
    return any(told(miss) for told in _NO_MISS)


def _only_some(miss: Said) -> bool:
    """`skipped from the bridge on`, `missed half of it`."""
    return miss.goes_on(Tag.UNTIL, Tag.THROUGH, Tag.FROM, Tag.SHARE)


def _nearly(miss: Said) -> bool:
    """`nearly skipped it`."""
    return miss.lead[-1:] in (["nearly"], ["almost"])


def _from_me(miss: Said) -> bool:
    """`nothing from me till Monday`, `no training from me before the 9th`: days off."""
    return miss.page.has(Key.OFF) and "from me" in " ".join(miss.words)


def _wished(miss: Said) -> bool:
    """`no run please`."""
    return miss.words[0] == "no" and miss.tail[:1] == ["please"]


def _did_another(miss: Said) -> bool:
    """`I jogged for nine minutes and did not walk at all`: how it was done."""
    if miss.words[:2] != ["did", "not"]:
        return False
    denied = next((ON_FOOT[word] for word in miss.words if word in ON_FOOT), None)
    told = (miss.page.first(hit, Tag.ACT) for hit in _SO_MUCH.finditer(miss.page.line))
    return denied is not None and any(item is not None and item.value != denied for item in told)


def _not_been_in(miss: Said) -> bool:
    """`have not been in the mood`."""
    return miss.words[-2:] == ["not", "been"] and miss.goes_on(Tag.IN + Tag.THE)


def _missed_a_thing(miss: Said) -> bool:
    """`ran for the bus, missed it`."""
    return miss.words[:2] == ["missed", "it"] and not _MISSABLE.isdisjoint(miss.lead)


def _forgot_something(miss: Said) -> bool:
    """`forgot my shoes`, `forgot to say`, `almost forgot it was on`."""
    said = miss.words[-1] == "forgot" and miss.goes_on(Tag.SELF, Tag.TO)
    return said or (miss.words == ["forgot", "it"] and miss.goes_on(Tag.IS))


def _slept_in_something(miss: Said) -> bool:
    """`slept in the van`."""
    return miss.words[-2:] == ["slept", "in"] and miss.goes_on(Tag.THE)


def _did_it_indoors(miss: Said) -> bool:
    """`stayed in and stretched`."""
    return miss.words[:2] == ["stayed", "in"] and _AND_DID.match(miss.page.line, miss.hit.end()) is not None


def _left_the_rest(miss: Said) -> bool:
    """`most of it done, ran out of daylight`, `12 min then bailed`."""
    left = miss.words[0] == "bailed" or miss.words[:2] == ["ran", "out"]
    return left and not _SOME_OF_IT.isdisjoint(miss.line)


def _gave_up(miss: Said) -> bool:
    """`got the first 12 done and sacked it off`: it was left, and something of it done."""
    clause = miss.line[-CLAUSE:]
    return "it" in miss.words and clause.endswith(Tag.AND) and clause[-2:-1] in (Tag.DONE, Tag.WHOLE)


def _to_it(miss: Said) -> bool:
    """`nothing to it`."""
    return miss.goes_on(Tag.TO + Tag.IT)


def _did_not_feel(miss: Said) -> bool:
    """`didn't go dizzy this time`."""
    return miss.words[:2] == ["did", "not"] and not _FELT.isdisjoint(miss.tail[:1])


def _only_if(miss: Said) -> bool:
    """`what if I skip it`."""
    return "if" in miss.lead[-2:]


def _before_it(miss: Said) -> bool:
    """`before I missed it`."""
    return miss.line.rstrip(Tag.THE).endswith(Tag.BEFORE)


def _of_another(miss: Said) -> bool:
    """`puffer did nothing`, `my valentine stayed in bed`: of somebody or something without a name in the lists."""
    named = miss.line[-1:] == Tag.WORD and not _is_adverb(miss)
    if miss.words[0] in _DEEDS and named:
        return True
    return miss.words[0] != "i" and _OF_A_THING.search(miss.line) is not None


def _is_adverb(miss: Said) -> bool:
    """`basically did nothing`, and not "puffer did nothing"."""
    word = miss.lead[-1]
    return word.endswith("ly") or word in _NO_SUBJECT


def _not_yet(miss: Said) -> bool:
    """`not done yet`."""
    return miss.tail[:1] == ["yet"]


_NO_MISS = (
    _only_some,
    _nearly,
    _from_me,
    _wished,
    _did_another,
    _not_been_in,
    _missed_a_thing,
    _forgot_something,
    _slept_in_something,
    _did_it_indoors,
    _left_the_rest,
    _gave_up,
    _to_it,
    _did_not_feel,
    _only_if,
    _before_it,
    _of_another,
    _not_yet,
)
_SO_MUCH = pattern("ACT (?:FOR|ABOUT|FILL|ONLY)* [DUR DIST NUM]|[DUR DIST NUM] OF? ACT")
_AND_DID = pattern("AND DONE? THE? ACT")
_OF_A_THING = pattern("(?:^|[STOP COMMA AND BECAUSE BUT]) THE WORD{1,2} $")
_SOME_OF_IT = frozenset({Tag.SHARE, Tag.DUR, Tag.DIST, Tag.RATIO})
_MISSABLE = listed("missed", "missable")
_FELT = listed("missed", "felt")
_DEEDS = listed("missed", "deeds")
_NO_SUBJECT = listed("missed", "no_subject")
CLAUSE = 8
"""Items before the words that tell of the miss."""
