"""The kinds of piece that a reply is made of, and the small language in which rules speak of them.

Each tag is one character, so a tagged reply is a short string and a rule is a regular expression over it: fast, and
bounded by the number of pieces. In a pattern a tag is written by its name: `REMIND NEAR{0,3} DUR`.
"""

import re
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
NAME = re.compile(r"[A-Z][A-Z_]+")


def pattern(text: str) -> re.Pattern[str]:
    """The regular expression over tag characters that *text* describes, e.g. `REMIND NEAR{0,3} DUR`."""
    return re.compile(NAME.sub(lambda hit: letter(hit[0]), opened(text)).replace(" ", ""))


def opened(text: str) -> str:
    """*text* with the short names for several tags written out."""
    return NAME.sub(lambda hit: _MACROS.get(hit[0], hit[0]), text)
