"""The kinds of piece that a reply is made of, and the small language in which rules speak of them.

Each tag is one character, so a tagged reply is a short string and a rule is a regular expression over it: fast, and
bounded by the number of pieces. In a pattern a tag is written by its name: `REMIND NEAR{0,3} DUR`.
"""

import re
from enum import StrEnum, auto
from typing import NamedTuple


class Tag(StrEnum):
    """What one piece of a reply is."""

    @staticmethod
    def _generate_next_value_(_name: str, _start: int, count: int, _last_values: list[str]) -> str:
        return chr(0x4E00 + count)

    WORD = auto()
    USED = auto()
    # Marks and joints.
    STOP = auto()
    ASK = auto()
    COMMA = auto()
    DASH = auto()
    SLASH = auto()
    OPEN = auto()
    CLOSE = auto()
    COLON = auto()
    AND = auto()
    THEN = auto()
    BUT = auto()
    OR = auto()
    BECAUSE = auto()
    # Small words.
    THE = auto()
    ONE = auto()
    OF = auto()
    IN = auto()
    AT = auto()
    BY = auto()
    TO = auto()
    ON = auto()
    FOR = auto()
    FROM = auto()
    SINCE = auto()
    AFTER = auto()
    BEFORE = auto()
    UNTIL = auto()
    THROUGH = auto()
    ABOUT = auto()
    FILL = auto()
    ONLY = auto()
    GOT = auto()
    SELF = auto()
    IT = auto()
    IS = auto()
    WITH = auto()
    # Numbers and amounts.
    NUM = auto()
    TIMES = auto()
    ISH = auto()
    HALF = auto()
    MORE = auto()
    UNIT = auto()
    DUR = auto()
    DAYS = auto()
    DIST = auto()
    MASS = auto()
    RATIO = auto()
    CLOCKISH = auto()
    CLOCK = auto()
    AMPM = auto()
    PAST = auto()
    OCLOCK = auto()
    DATE = auto()
    ORDINAL = auto()
    MONTH = auto()
    SPAN = auto()
    PARTDAY = auto()
    AGO = auto()
    MAYBE_DAY = auto()
    # Scope.
    NEG = auto()
    PLAN = auto()
    OTHER = auto()
    LONG_AGO = auto()
    # What was done.
    ACT = auto()
    DONE = auto()
    STOPPED = auto()
    TICK = auto()
    SHARE = auto()
    WHOLE = auto()
    MISS = auto()
    MISS_IT = auto()
    SESSION = auto()
    INTENDED = auto()
    TOTAL = auto()
    EACH = auto()
    # Effort and certainty.
    EFFORT_KEY = auto()
    EFFORT = auto()
    HARD_NOT = auto()
    SURE_KEY = auto()
    # Body.
    PART = auto()
    SIDE = auto()
    BACK = auto()
    SENSE = auto()
    SUDDEN = auto()
    COURSE = auto()
    NOBEAR = auto()
    WELL = auto()
    GARMENT = auto()
    # Illness, mood.
    ILL = auto()
    FEVER = auto()
    MOOD = auto()
    # Requests.
    REMIND = auto()
    MOVE = auto()
    INSTEAD = auto()
    LATER = auto()
    HAVE = auto()
    SPARE = auto()
    MAX = auto()
    OFF = auto()
    RETURN = auto()
    STARTING = auto()
    WEIGH = auto()
    CHANGE = auto()
    TALLY = auto()
    CHALLENGE = auto()
    NTH = auto()
    WANT = auto()
    QUEST = auto()
    YES = auto()
    NO = auto()
    # Unscored.
    STUCK = auto()
    CORRECT = auto()
    RECOVERED = auto()
    HABIT = auto()
    WEEKLY = auto()
    SKY = auto()
    DEGREE = auto()
    PLACE = auto()
    LOSS = auto()
    NIGHT = auto()
    LOW_DAY = auto()
    NO_TIME = auto()


class Token(NamedTuple):
    """One word, number or mark: its canonical form, and where it stands in the text as it was sent."""

    word: str
    start: int
    end: int
    number: float | None = None


class Item(NamedTuple):
    """A tagged run of tokens *first* to *last*, both inclusive. *value*, *n* and *m* mean what the tag says."""

    tag: Tag
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


def needed(text: str) -> frozenset[str]:
    """Tags without which the pattern *text* can't match: its names outside of brackets that stand there for sure.

    A cheap look before the pattern is run; a name that only might be needed is left out.
    """
    depth = 0
    found: set[str] = set()
    if "|" in _outside(text):
        return frozenset()
    for hit in _PIECE.finditer(text):
        piece = hit[0]
        depth += (piece in ("(", "[")) - (piece in (")", "]"))
        optional = text[hit.end() :].lstrip()[:1] in ("?", "*", "{")
        if depth == 0 and piece not in _MACROS and _NAME.fullmatch(piece) and not optional:
            found.add(Tag[piece].value)
    return frozenset(found)


_PIECE = re.compile(r"[A-Z][A-Z_]+|[()\[\]]")


def _outside(text: str) -> str:
    """*text* without what stands in brackets."""
    depth, kept = 0, []
    for char in text:
        depth -= char in ")]"
        if depth == 0:
            kept.append(char)
        depth += char in "(["
    return "".join(kept)


def pattern(text: str) -> re.Pattern[str]:
    """The regular expression over tag characters that *text* describes, e.g. `REMIND NEAR{0,3} DUR`."""
    opened = _NAME.sub(lambda hit: _MACROS.get(hit[0], hit[0]), text)
    return re.compile(_NAME.sub(lambda hit: Tag[hit[0]].value, opened).replace(" ", ""))
