"""Which amounts beside "have" or "only" are time at hand, and which were done, or are beats or something else."""

import re

from bot.reading.facts import Asked
from bot.reading.lexicon import listed
from bot.reading.rules.clauses import REASONED
from bot.reading.rules.said import Said
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import past_day

LONGEST_SPARE = 240
"""Minutes; more than four hours at hand are a number of something else."""
SLOW_BEAT = 60
"""Beats a minute: beside a word of the pulse a number from here on is one."""


def is_spare(said: Said, amount: Item) -> bool:
    """Whether *amount*, within *said*, is time that somebody has."""
    if not 0 < amount.n <= LONGEST_SPARE or _is_beats(said, amount):
        return False
    return not any(told(said) for told in _TOLD) and said.page.words[max(0, amount.first - 1)] != "every"


def _is_beats(said: Said, amount: Item) -> bool:
    """`hr only 58`, `pulse peaked, only 150`."""
    near = [*said.lead[-4:], *said.words[:-1]]
    beats = "." not in near and not _BEATS.isdisjoint(near)
    peaked = not _PEAKED.isdisjoint(said.lead)
    return beats or peaked or (amount.n >= SLOW_BEAT and not _BEATS.isdisjoint(said.page.words))


def _of_a_deed(said: Said) -> bool:
    """`jogged only 4 min`, `walked and stopped, only 8`, and not "before my class I have 20"."""
    clause = re.split(REASONED, said.line)[-1].partition(Tag.BEFORE)[0]
    return not _DEED.isdisjoint(clause)


def _stretching(said: Said) -> bool:
    """`had 5 min stretching`."""
    return said.next is not None and said.next.value == "stretch"


def _just_told(said: Said) -> bool:
    """`I jogged! Only ninety seconds`: the sentence before ends with something done."""
    before = said.line.rstrip(Tag.STOP + Tag.BUT)
    word = said.page.words[said.page.items[len(before) - 1].last] if before.endswith(Tag.ACT) else ""
    return len(before) < len(said.line) and (word.endswith("ed") or word in ("ran", "swam", "rode"))


def _of_an_act(said: Said) -> bool:
    """`did some jogging, had 8 min of walking`, `only 12 of jogging`."""
    named = Tag.ACT in said.line and said.goes_on(Tag.OF + Tag.ACT, Tag.ACT)
    return named or (said.hit[0][0] == Tag.ONLY and said.goes_on(Tag.OF + Tag.ACT))


def _it_began_suddenly(said: Said) -> bool:
    """`calf went, only 8 min`."""
    return said.words[0] == "only" and Tag.SUDDEN in said.line


def _yes(said: Said) -> bool:
    """`yes, only 12`, asked whether it is done."""
    return said.page.asked is Asked.DONE and Tag.YES in said.line


def _got_in(said: Said) -> bool:
    """`so I only got four minutes in`."""
    whole = said.hit[0][-1] == Tag.IN and (said.next is None or said.goes_on(Tag.COMMA, Tag.STOP))
    return whole or _SO_FAR_IN.match(said.page.line, said.hit.end()) is not None


def _time_passed(said: Said) -> bool:
    """`had been sat for 20 min`."""
    return not _SPENT.isdisjoint(said.page.words[said.page.items[said.hit.start()].first : _last_item(said).first])


def _felt(said: Said) -> bool:
    """`only 12, felt awful`, and not "only have 12 today"."""
    only = said.hit[0][0] == Tag.ONLY and "today" not in said.page.words
    return only and not _FEELING.isdisjoint(said.page.there) and Tag.HAVE not in said.page.there


def _from_so_many(said: Said) -> bool:
    """`only 12 from 20`."""
    return said.goes_on(Tag.FROM)


def _of_a_past_day(said: Said) -> bool:
    """`only 12 yesterday`."""
    page, after = said.page, said.next
    return after is not None and after.tag is Tag.DATE and (past_day(after, page.today) or page.today) < page.today


def _last_item(said: Said) -> Item:
    return said.page.items[said.hit.end() - 1]


_TOLD = (
    _of_a_deed,
    _stretching,
    _just_told,
    _of_an_act,
    _it_began_suddenly,
    _yes,
    _got_in,
    _time_passed,
    _felt,
    _from_so_many,
    _of_a_past_day,
)
_DEED = frozenset({Tag.DONE, Tag.STOPPED, Tag.ACT})
_FEELING = frozenset({Tag.MOOD, Tag.EFFORT, Tag.SUDDEN, Tag.SENSE})
_PEAKED = listed("plans", "peaked")
_BEATS = listed("plans", "beats")
_SO_FAR_IN = pattern("IN (?:$|[STOP COMMA BUT AND BEFORE])")
_SPENT = listed("plans", "spent")
"""After "have" these tell of time that has passed."""
