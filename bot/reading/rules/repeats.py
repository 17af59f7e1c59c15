"""Intervals: `6 x (1 run, 2 walk)`, `run 1 minute and walk 1 minute, ten times`."""

from collections.abc import Iterable
from re import Match

from bot.reading.facts import Did
from bot.reading.page import Finding, Key, Page, rule
from bot.reading.rules.clauses import minutes_of
from bot.reading.rules.kinds import kind_of
from bot.reading.tags import Tag

_COUNTS = (Tag.NUM, Tag.ONE, Tag.RATIO)


def _beside(page: Page, hit: Match[str], index: int) -> str:
    """The tags right before and after the item at *index*, within *hit*."""
    return page.line[max(hit.start(), index - 1) : index] + page.line[index + 1 : min(hit.end(), index + 2)]


def _counts_first(page: Page, hit: Match[str]) -> Iterable[int]:
    """The places of *hit*, from the last on if a count ends it: "run 2 walk 1 x7"."""
    ends = page.line[: hit.end()].rstrip(Tag.CLOSE)[-2:-1] == Tag.TIMES
    return reversed(range(hit.start(), hit.end())) if ends else range(hit.start(), hit.end())


def _repeat(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """Each part times the count."""
    count, counted = 0.0, -1
    amount, act = None, None
    for index in _counts_first(page, hit):
        item, tag = page.items[index], page.line[index]
        if tag in _COUNTS and count == 0.0 and Tag.TIMES in _beside(page, hit, index):
            count, counted = item.n, index
    if counted < 0:
        counted = next(place for place in range(hit.start(), hit.end()) if page.line[place] in _COUNTS)
        count = page.items[counted].n
    for index in range(hit.start(), hit.end()):
        item, tag = page.items[index], page.line[index]
        if tag == Tag.ACT:
            act = item
        elif tag in (Tag.DUR, Tag.CLOCKISH, Tag.NUM, Tag.ONE) and index != counted:
            amount = item
        if amount is not None and act is not None:
            times = 1.0 if act.value == "stretch" else count
            yield Key.DID, Did(kind_of(act.value), minutes=round(times * minutes_of(amount), 4))
            amount = act = None


_N = "(?:DUR|NUM|ONE|CLOCKISH)"
PAIR = f"(?:{_N} (?:OF|THE|FILL|ABOUT|AT|IS)? ACT)"
PAIR_BACK = f"(?:ACT (?:FOR|THE|ABOUT|COLON)? {_N})"
JOINT = "(?:COMMA|AND|SLASH|THEN|DASH|TO|COLON|WITH|FOR|BY|COMMA AND|COMMA THEN|BUT)?"
MORE = "(?:COMMA|AND|SLASH|DASH|COMMA AND)?"
"""A third part goes on without "then": that tells of what came after the repeats."""
LEAD = "(?:OF|COLON|OPEN|THE|FILL|DASH|COMMA|SELF|IT|DONE|IN|EACH ONE?)*"
COUNT_LAST = (
    "CLOSE? (?:COMMA|FILL|DASH|OPEN|ABOUT|IT|DONE|SELF|STOP|AND|THEN|THE)* (?:[NUM ONE] TIMES|TIMES [NUM ONE]) CLOSE?"
)
REPEATS = (
    rule("repeats", f"[NUM ONE RATIO] TIMES {LEAD} {PAIR} {JOINT} {PAIR} (?:{MORE} {PAIR})* CLOSE?", _repeat),
    rule(
        "repeats",
        f"[NUM ONE RATIO] TIMES {LEAD} {PAIR_BACK} {JOINT} {PAIR_BACK} (?:{MORE} {PAIR_BACK})* CLOSE?",
        _repeat,
    ),
    rule(
        "repeats after",
        f"OPEN? {PAIR} (?:{JOINT} {PAIR})+ {COUNT_LAST}",
        _repeat,
    ),
    rule(
        "repeats after",
        f"OPEN? {PAIR_BACK} (?:{JOINT} {PAIR_BACK})+ {COUNT_LAST}",
        _repeat,
    ),
    rule("repeats of which each", f"[GOT DONE] NUM DONE? [STOP COMMA COLON] EACH IS? {PAIR} {JOINT} {PAIR}", _repeat),
    rule(
        "repeats with rests",
        "ACT (?:FOR|THE|FILL)? [NUM ONE] TIMES (?:OF|THE|FOR)? DUR "
        "(?:COMMA|WITH|AND){0,2} (?:THE|FILL)? DUR (?:OF|THE)? ACT",
        _repeat,
    ),
    rule("repeats of one", "ACT (?:FOR|THE|FILL)? [NUM ONE] TIMES (?:OF|THE|FOR)? DUR (?!ACT|OF ACT)", _repeat),
    rule("repeats of one", "ACT (?:FOR|THE|FILL)? DUR (?:COMMA|FILL)? [NUM ONE] TIMES (?!OF? (?:DUR|ACT))", _repeat),
    rule("repeats of one", f"[NUM ONE RATIO] TIMES {LEAD} (?:{PAIR}|{PAIR_BACK}) CLOSE?", _repeat),
)
