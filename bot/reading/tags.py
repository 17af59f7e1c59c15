"""The kinds of piece that a reply is made of, and the small language in which rules speak of them.

Each tag is one character, so a tagged reply is a short string and a rule is a regular expression over it: fast, and
bounded by the number of pieces. In a pattern a tag is written by its name: `REMIND NEAR{0,3} DUR`.
"""

import re
from collections.abc import Iterable
from string import ascii_letters
from typing import NamedTuple, NewType

Letter = NewType("Letter", str)
"""A tag, as the character by which it stands in a tagged reply."""
_letters = iter([*ascii_letters, *map(chr, range(0x80, 0x100))])
"""None of them means anything in a regular expression, and of each there is only one object to compare."""


def _tag() -> Letter:
    return Letter(next(_letters))


class Tag:
    """What one piece of a reply is. No enum: a reply asks for hundreds of tags, and a member of one is slow to get."""

    WORD = _tag()
    USED = _tag()
    # Marks and joints.
    STOP = _tag()
    ASK = _tag()
    COMMA = _tag()
    DASH = _tag()
    SLASH = _tag()
    OPEN = _tag()
    CLOSE = _tag()
    COLON = _tag()
    AND = _tag()
    THEN = _tag()
    BUT = _tag()
    OR = _tag()
    BECAUSE = _tag()
    # Small words.
    THE = _tag()
    ONE = _tag()
    OF = _tag()
    IN = _tag()
    AT = _tag()
    BY = _tag()
    TO = _tag()
    ON = _tag()
    FOR = _tag()
    FROM = _tag()
    SINCE = _tag()
    AFTER = _tag()
    BEFORE = _tag()
    UNTIL = _tag()
    THROUGH = _tag()
    ABOUT = _tag()
    FILL = _tag()
    ONLY = _tag()
    GOT = _tag()
    SELF = _tag()
    IT = _tag()
    IS = _tag()
    WITH = _tag()
    # Numbers and amounts.
    NUM = _tag()
    TIMES = _tag()
    ISH = _tag()
    HALF = _tag()
    MORE = _tag()
    UNIT = _tag()
    DUR = _tag()
    DAYS = _tag()
    DIST = _tag()
    MASS = _tag()
    RATIO = _tag()
    CLOCKISH = _tag()
    CLOCK = _tag()
    AMPM = _tag()
    PAST = _tag()
    OCLOCK = _tag()
    DATE = _tag()
    ORDINAL = _tag()
    MONTH = _tag()
    SPAN = _tag()
    PARTDAY = _tag()
    AGO = _tag()
    MAYBE_DAY = _tag()
    # Scope.
    NEG = _tag()
    PLAN = _tag()
    OTHER = _tag()
    LONG_AGO = _tag()
    # What was done.
    ACT = _tag()
    DONE = _tag()
    STOPPED = _tag()
    TICK = _tag()
    SHARE = _tag()
    WHOLE = _tag()
    MISS = _tag()
    MISS_IT = _tag()
    SESSION = _tag()
    INTENDED = _tag()
    TOTAL = _tag()
    EACH = _tag()
    # Effort and certainty.
    EFFORT_KEY = _tag()
    EFFORT = _tag()
    HARD_NOT = _tag()
    SURE_KEY = _tag()
    # Body.
    PART = _tag()
    SIDE = _tag()
    BACK = _tag()
    SENSE = _tag()
    SUDDEN = _tag()
    COURSE = _tag()
    NOBEAR = _tag()
    WELL = _tag()
    GARMENT = _tag()
    # Illness, mood.
    ILL = _tag()
    FEVER = _tag()
    MOOD = _tag()
    # Requests.
    REMIND = _tag()
    MOVE = _tag()
    INSTEAD = _tag()
    LATER = _tag()
    HAVE = _tag()
    SPARE = _tag()
    MAX = _tag()
    OFF = _tag()
    RETURN = _tag()
    STARTING = _tag()
    WEIGH = _tag()
    CHANGE = _tag()
    TALLY = _tag()
    CHALLENGE = _tag()
    NTH = _tag()
    WANT = _tag()
    QUEST = _tag()
    YES = _tag()
    NO = _tag()
    # Unscored.
    STUCK = _tag()
    CORRECT = _tag()
    RECOVERED = _tag()
    HABIT = _tag()
    WEEKLY = _tag()
    SKY = _tag()
    DEGREE = _tag()
    PLACE = _tag()
    LOSS = _tag()
    NIGHT = _tag()
    LOW_DAY = _tag()
    NO_TIME = _tag()


def letter(name: str) -> Letter:
    """The tag called *name*; AttributeError if there is none."""
    return Letter(getattr(Tag, name))


def tags(names: str) -> frozenset[Letter]:
    """The tags called *names*, which spaces part."""
    return frozenset(map(letter, names.split()))


class Token(NamedTuple):
    """One word, number or mark: its canonical form, and where it stands in the text as it was sent."""

    word: str
    start: int
    end: int
    number: float | None = None


class Item(NamedTuple):
    """A tagged run of tokens *first* to *last*, both inclusive. *value*, *n* and *m* mean what the tag says."""

    tag: Letter
    value: str
    first: int
    last: int
    n: float = 0.0
    m: float = 0.0


_MACROS = {
    "END": "(?=STOP|ASK|COMMA|BUT|$)",
    "NEAR": "[^STOP ASK COMMA BUT THEN]",
    "LOOSE": "[^STOP ASK]",
    "AMT": "[DUR DIST NUM CLOCKISH]",
    "EDGE": "(?:^|[STOP ASK COMMA BUT THEN AND DASH COLON])",
}
_NAME = re.compile(r"[A-Z][A-Z_]+")


def pattern(text: str) -> re.Pattern[str]:
    """The regular expression over tag characters that *text* describes, e.g. `REMIND NEAR{0,3} DUR`."""
    return re.compile(_NAME.sub(lambda hit: letter(hit[0]), _opened(text)).replace(" ", ""))


def _opened(text: str) -> str:
    return _NAME.sub(lambda hit: _MACROS.get(hit[0], hit[0]), text)


def needs(text: str) -> list[frozenset[Letter]]:
    """What the pattern *text* can't match without: of each set one tag at least.

    A cheap look before the pattern is run. A tag that only might be needed is left out, and so is USED, which comes up
    only while the rules are run.
    """
    return _needs(_PIECE.findall(_opened(text))[::-1])


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
        elif piece == "[" or _NAME.fullmatch(piece):
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
        self._by_tag: dict[str, list[int]] = {}
        for place, tags in enumerate(leads):
            if not tags:
                self._always.add(place)
            for tag in tags:
                self._by_tag.setdefault(tag, []).append(place)

    def due(self, there: Iterable[str]) -> list[int]:
        """The places of all things that are due where the tags *there* stand, in order."""
        return sorted(self._always.union(*[self._by_tag[tag] for tag in there if tag in self._by_tag]))


_EVERYDAY = frozenset(
    {Tag.WORD, Tag.FILL, Tag.STOP, Tag.COMMA, Tag.AND, Tag.BUT, Tag.THE, Tag.SELF, Tag.IT, Tag.IS, Tag.IN, Tag.ON,
     Tag.AT, Tag.OF, Tag.TO, Tag.FOR, Tag.NUM, Tag.ONE, Tag.DUR, Tag.ACT, Tag.DONE, Tag.ABOUT, Tag.NEG, Tag.DATE}
)  # fmt: skip
