"""Whose the words are: what is told of somebody else who is named, to where a reply turns back to its sender."""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from bot.reading.bounds import ARTICLES, OWN, PARTS, is_mark, own_part, word_at
from bot.reading.lexicon import listed
from bot.reading.tags import Item, Tag, Token

OTHERS = frozenset({Tag.OTHER, Tag.LOSS})
"""Who is spoken of is somebody else: named, or named as lost ("my mate passed", which may go on: "out")."""

BEFORE_OTHERS = listed("others", "speaking", "past")
"""After one of these somebody or something is only spoken to, met or passed: "told my wife", "past the dog"."""


def of_others(tokens: Sequence[Token], items: Sequence[Item]) -> Iterator[int]:
    """Tokens of a clause whose subject is somebody else; "they" is nobody where no one was named before."""
    met = False
    for index, item in enumerate(items):
        if item.tag not in OTHERS:
            continue
        who = _Who(tokens, items, index, item, met)
        met = True
        if any(is_no_subject(who) for is_no_subject in _NO_SUBJECT):
            continue
        yield from range(item.first, item.last + _goes_on(tokens[item.last].word))
        if item.tag is Tag.LOSS:
            yield item.last
        for place in range(item.last + 1, len(tokens)):
            if any(turns(who, place) for turns in _TURNS_BACK):
                break
            yield place


class _Who(NamedTuple):
    """Somebody else at *item*, the one at *place* of *items*; *met*: somebody was named before."""

    tokens: Sequence[Token]
    items: Sequence[Item]
    place: int
    item: Item
    met: bool

    @property
    def name(self) -> str:
        """The last word of who it is."""
        return self.tokens[self.item.last].word

    @property
    def before(self) -> str:
        """The word before."""
        return word_at(self.tokens, self.item.first - 1) if self.item.first else ""

    def words(self, first: int, end: int) -> list[str]:
        """The words from token *first* to before *end*."""
        return [token.word for token in self.tokens[first:end]]


def _they(who: _Who) -> bool:
    """`they say it gets easier`: nobody was named."""
    return not who.met and who.item.first == who.item.last and who.name == "they"


def _compared(who: _Who) -> bool:
    """`as if someone sat on my chest`, `i thought someone had poured coke in`."""
    return who.before in _COMPARING


def _aside(who: _Who) -> bool:
    """`walked with my wife, chest tight`, and not "with my wife who had chest pain", "one of my friends fainted"."""
    if who.before in BEFORE_OTHERS:
        return True
    items, lead = who.items, who.place - 1
    named_whole = who.tokens[who.item.first].word in ARTICLES
    while not named_whole and lead > max(0, who.place - 3) and items[lead].tag in (Tag.THE, Tag.WORD):
        lead -= 1
    one = lead > 0 and items[lead].tag is Tag.OF and items[lead - 1].tag in (Tag.ONE, Tag.NUM)
    told = one or word_at(who.tokens, who.item.last + 1) == "who"
    return lead >= 0 and items[lead].tag in _LEADING and not told


def _beside_me(who: _Who) -> bool:
    """`me and my wife`."""
    beside = who.place > 1 and who.items[who.place - 1].tag is Tag.AND
    return beside and who.tokens[who.items[who.place - 2].last].word == "me"


def _misheard(who: _Who) -> bool:
    """`me my` taken for "me ma", or `hurts me the chest` for "me da"."""
    several = who.item.last > who.item.first
    behind = several and who.tokens[who.item.last - 1].word in _BEHIND
    father = not _VERBS.isdisjoint(who.words(who.item.last + 1, who.item.last + 3))
    return (who.name in OWN and not behind) or (who.name == "the" and several and not father)


def _device(who: _Who) -> bool:
    """`my watch says afib`: of the sender."""
    return who.name in _DEVICES and not _SAYING.isdisjoint(who.words(who.item.last + 1, who.item.last + 3))


def _tells_of_sender(who: _Who) -> bool:
    """`the wife reckons half my face is down`."""
    if who.name in _CLINICIANS:
        return False
    after = who.words(who.item.last + 1, who.item.last + 9)
    says = next((place for place, word in enumerate(after[:3]) if word in _TELLING), None)
    return says is not None and _THEIRS.isdisjoint(after[says + 1 : says + 6])


_NO_SUBJECT = (_they, _compared, _aside, _beside_me, _misheard, _device, _tells_of_sender)


def _own(who: _Who, place: int) -> bool:
    """`my`, and not "behind me"."""
    word = who.tokens[place].word
    return word in OWN and not (word == "me" and who.tokens[place - 1].word in _BEHIND)


def _and_own(who: _Who, place: int) -> bool:
    """`in my daughter's trainers and now both heels have blisters`, `kids asleep and chest pain on the stairs`."""
    tokens = who.tokens
    if tokens[place - 1].word != "and":
        return False
    device = tokens[place].word in _AROUND and who.name in _DEVICES
    anew = device or tokens[place].word in _ANEW or own_part(tokens, place)
    return anew or _pain_of_own(who, place) or _feels(who, place)


def _feels(who: _Who, place: int) -> bool:
    """`kids are at school and felt light headed`: told of another time than that where somebody only is somewhere."""
    somewhere = word_at(who.tokens, who.item.last + 1) in _ARE
    between = (item.tag for item in who.items[who.place + 1 :] if item.last < place)
    return somewhere and who.tokens[place].word in _FEELING and _AILING.isdisjoint(between)


def _pain_of_own(who: _Who, place: int) -> bool:
    """A pain, where nobody was said to have something."""
    pain = who.tokens[place].word in PARTS and word_at(who.tokens, place + 1) in ("pain", "pains")
    return pain and _HOLDING.isdisjoint(who.words(who.item.first, place))


def _said_it(who: _Who, place: int) -> bool:
    """`my wife says it hurts when I breathe`, `the wife was driving so i ...`."""
    word = who.tokens[place].word
    if word == "so":
        return place + 1 < len(who.tokens) and who.tokens[place + 1].word not in _THEIRS
    return word == "it" and who.tokens[place - 1].word in _SAYING


def _mark(who: _Who, place: int) -> bool:
    return is_mark(who.tokens, place)


_TURNS_BACK = (_own, _and_own, _said_it, _mark)


def _goes_on(word: str) -> bool:
    """Whether *word*, the last one of who is spoken of, says already what became of them: "mate fainted"."""
    return word in ARTICLES or word in _HOLDING or word.endswith("ed")


_COMPARING = frozenset({"like", "if", "though", "thought"})
_LEADING = frozenset({Tag.WITH, Tag.TO, Tag.FOR, Tag.OF, Tag.BY, Tag.FROM, Tag.AFTER, Tag.ACT, Tag.AT, Tag.ON, Tag.IN})
_VERBS = frozenset({"s", "is", "has", "was", "had", "collapsed", "fell", "fainted"})
"""After "me the" these tell that it was "me da"."""
_HOLDING = frozenset({"had", "has", "got", "felt"})
_CLINICIANS = listed("clinicians", "both", "clear", "look")
_TELLING = listed("others", "telling")
_THEIRS = listed("others", "theirs")
_DEVICES = listed("devices", "name")
_SAYING = listed("devices", "saying")
_AROUND = frozenset({"everything", "all", "things", "vision"})
"""After a device and "and" these turn back to the sender: "went to stop my watch and everything went black"."""
_ARE = frozenset({"is", "are", "s"})
_FEELING = listed("others", "feeling")
_AILING = frozenset({Tag.SENSE, Tag.SUDDEN, Tag.ILL, Tag.FEVER, Tag.PART, Tag.MOOD})
_ANEW = frozenset({"now", "both", "mine"})
"""After "and" these turn back to the sender."""
_BEHIND = frozenset({"of", "to", "with", "behind", "for", "at", "from", "beside", "near", "ahead", "past"})
