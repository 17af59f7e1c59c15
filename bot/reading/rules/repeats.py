"""Intervals: `6 x (1 run, 2 walk)`, `run 1 minute and walk 1 minute, ten times`."""

from collections.abc import Iterable
from re import Match

from bot.reading.facts import Did
from bot.reading.page import Finding, Key, Page, rule
from bot.reading.rules.bare import MOVES
from bot.reading.rules.clauses import minutes_of, totals_said
from bot.reading.rules.kinds import kind_of
from bot.reading.tags import Item, Tag

_COUNTS = (Tag.NUM, Tag.ONE, Tag.RATIO)


def _beside(page: Page, hit: Match[str], index: int) -> str:
    """The tags right before and after the item at *index*, within *hit*."""
    return page.line[max(hit.start(), index - 1) : index] + page.line[index + 1 : min(hit.end(), index + 2)]


def _counts_first(page: Page, hit: Match[str]) -> Iterable[int]:
    """The places of *hit*, from the last on if a count ends it: "run 2 walk 1 x7"."""
    ends = page.line[: hit.end()].rstrip(Tag.CLOSE)[-2:-1] == Tag.TIMES
    return reversed(range(hit.start(), hit.end())) if ends else range(hit.start(), hit.end())


_OF_ACHES = (Tag.SENSE, Tag.SUDDEN, Tag.NOBEAR)


def _repeat(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """Each part times the count; of "gave way twice, 11 walked" the count is of the complaint."""
    lead = page.line[hit.start() - 1 : hit.start()]
    if lead in _OF_ACHES or (lead == Tag.WORD and Tag.TIMES + Tag.COMMA in hit[0]):
        return
    count, counted = 0.0, -1
    for index in _counts_first(page, hit):
        item, tag = page.items[index], page.line[index]
        if tag in _COUNTS and count == 0.0 and Tag.TIMES in _beside(page, hit, index):
            count, counted = item.n, index
    if counted < 0:
        counted = next(place for place in range(hit.start(), hit.end()) if page.line[place] in _COUNTS)
        count = page.items[counted].n
    parts = list(_parts(page, hit, counted))
    if any(amount.tag is Tag.NUM and page.words[act.last] in MOVES for amount, act in parts):
        return
    alone = _first_alone(page, [minutes_of(amount) for amount, _ in parts], count)
    for place, (amount, act) in enumerate(parts):
        times = 1.0 if act.value == "stretch" or (alone and place) else count
        if amount.tag is Tag.DIST:
            yield Key.DID, Did(kind_of(act.value), km=round(times * amount.n, 4))
        else:
            yield Key.DID, Did(kind_of(act.value), minutes=round(times * minutes_of(amount), 4))


_AMOUNTS = (Tag.DUR, Tag.DIST, Tag.CLOCKISH, Tag.NUM, Tag.ONE)


def _parts(page: Page, hit: Match[str], counted: int) -> Iterable[tuple[Item, Item]]:
    """The amounts of *hit*, each with its activity, before or after it; the item at *counted* is the count."""
    amount, act = None, None
    for index in range(hit.start(), hit.end()):
        if page.line[index] == Tag.ACT:
            act = page.items[index]
        elif page.line[index] in _AMOUNTS and index != counted:
            amount = page.items[index]
        if amount is not None and act is not None:
            yield amount, act
            amount = act = None


def _first_alone(page: Page, parts: list[float], count: float) -> bool:
    """`total 34: 4 x 6 walk + 10 jog`: whether the whole that was said or due is that of only the first repeated."""
    wholes = {page.planned_min, *totals_said(page)}
    return len(parts) > 1 and count * parts[0] + sum(parts[1:]) in wholes and count * sum(parts) not in wholes


def _repeat_them(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`the jog bits, 5 of them at 2 min, with 90 seconds walking after each`."""
    count = page.first(hit, Tag.NUM, Tag.RATIO)
    acts, lengths = list(page.pick(hit, Tag.ACT)), list(page.pick(hit, Tag.DUR))
    for act, length in zip(acts, lengths, strict=True):
        yield Key.DID, Did(kind_of(act.value), minutes=round((count.n if count else 1.0) * length.n, 4))


_N = "(?:DUR|DIST|NUM|ONE|CLOCKISH)"
PAIR = f"(?:{_N} (?:OF|THE|FILL|ABOUT|AT|IS)? ACT)"
PAIR_BACK = f"(?:ACT (?:FOR|THE|ABOUT|COLON)? {_N})"
JOINT = "(?:COMMA? EACH AND|COMMA? EACH WITH|COMMA|AND|SLASH|THEN|DASH|TO|COLON|WITH|FOR|BY|COMMA AND|COMMA THEN|BUT)?"
MORE = "(?:COMMA|AND|SLASH|DASH|COMMA AND)?"
"""A third part goes on without "then": that tells of what came after the repeats."""
LEAD = "(?:OF|FROM|AT|COLON|OPEN|THE|FILL|DASH|COMMA|SELF|IT|DONE|IN|EACH ONE?)*"
COUNT_LAST = (
    "CLOSE? (?:COMMA|FILL|DASH|OPEN|ABOUT|IT|DONE|SELF|STOP|AND|THEN|THE|OF)* "
    "(?:[NUM ONE] TIMES|TIMES [NUM ONE]) CLOSE?"
)
REPEATS = (
    rule("repeats", f"[NUM ONE] TIMES {LEAD} (?:{PAIR_BACK}|{PAIR}) COMMA? WITH? {PAIR} AFTER EACH", _repeat),
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
    rule(
        "repeats of which each",
        f"[GOT DONE] NUM (?:OF IT|TIMES|DONE|IN SELF)? [STOP COMMA COLON BECAUSE]? EACH IS? {PAIR} {JOINT} {PAIR}"
        "|NUM [TIMES WORD] (?:IS|DONE|WHOLE|DATE|FILL)* [STOP COMMA COLON] (?:EACH|OF|IS|FILL|ONE)+ "
        f"{PAIR} {JOINT} {PAIR}",
        _repeat,
    ),
    rule("so many of them", "DUR ACT [COMMA AND] DONE NUM OF IT", _repeat_them),
    rule("so many of the", "RATIO ACT COMMA? DUR EACH", _repeat_them),
    rule(
        "repeats of them",
        "ACT [COMMA COLON DASH] NUM OF IT (?:AT|OF|FOR)? DUR (?:COMMA|WITH|AND){1,2} (?:THE|FILL)? DUR (?:OF|THE)? ACT",
        _repeat_them,
    ),
    rule(
        "repeats with rests",
        "ACT (?:FOR|THE|FILL)? [NUM ONE] TIMES (?:OF|THE|FOR)? DUR "
        "(?:COMMA|WITH|AND|EACH){0,3} (?:THE|FILL)? DUR (?:OF|THE)? ACT",
        _repeat,
    ),
    rule(
        "repeats of one",
        "ACT (?:FOR|THE|FILL|COMMA|[IN ON AT] THE WORD|THE WORD{1,2} COMMA)? "
        "[NUM ONE] TIMES (?:OF|THE|FOR)? DUR EACH? (?!ACT|OF ACT)",
        _repeat,
    ),
    rule("repeats of one", "ACT (?:FOR|THE|FILL|COMMA|AT WORD){0,3} DUR TIMES [NUM ONE] (?!DUR|ACT|OF)", _repeat),
    rule("repeats of one", "ACT (?:FOR|THE|FILL)? DUR (?:COMMA|FILL)? [NUM ONE] TIMES (?!OF? (?:DUR|ACT))", _repeat),
    rule(
        "repeats with a rest each",
        f"{PAIR} (?:FOR|FILL)? [NUM ONE] TIMES [COMMA WITH AND]{{1,2}} {PAIR} (?=FILL? (?:AFTER|IN|BY|WORD)? EACH)",
        _repeat,
    ),
    rule("repeats of one kind", "[NUM ONE] ACT OF ABOUT? [DUR DIST]", _repeat),
    rule("repeats of one", "DIST ACT TIMES [NUM ONE]", _repeat),
    rule("repeats of one", f"[NUM ONE RATIO] TIMES {LEAD} (?:{PAIR}|{PAIR_BACK}) CLOSE?", _repeat),
    rule("one part, so often", f"(?:^|(?<=[STOP])){PAIR} COMMA? [NUM ONE] TIMES FILL? (?=END)", _repeat),
)
