"""Facts about what is to come today: remind me later, minutes at hand."""

from collections.abc import Iterable
from re import Match

from bot.reading.facts import PartOfDay
from bot.reading.lexicon import listed
from bot.reading.page import Finding, Key, Page, rule
from bot.reading.rules.moves import TIMES
from bot.reading.rules.said import Said
from bot.reading.rules.spare import is_spare
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import next_time, part_of


def _later_min(page: Page, hit: Match[str]) -> Iterable[Finding]:
    wait = page.first(hit, Tag.DUR) or page.first(hit, Tag.NUM)
    if wait is not None and wait.n > 0:
        yield Key.LATER_MIN, wait.n


def _in_a_while(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`in an hour`, unless something done before it makes it the time that it took."""
    passed = {page.words[item.last] for item in page.pick(hit, Tag.WORD)}
    if not passed.isdisjoint(_PASSED):
        return
    told = "" if hit[0][0] == Tag.STOP else page.line[: hit.start()].rpartition(Tag.STOP)[2]
    if _BECOMES.match(page.line, hit.end()) is not None:
        return
    if not any(tag in (Tag.ACT, Tag.DONE, Tag.DIST, Tag.STOPPED) for tag in told):
        yield from _later_min(page, hit)


_BECOMES = pattern("SELF WORD [THE OTHER]|THE WORD")
"""`in an hour I become a grandfather`, `in half an hour the cake comes out`."""
_PASSED = frozenset({"passed", "settled", "stopped", "vanished", "lifted", "subsided", "faded", "went"})


def _written_time(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`remind me 5.15`: hours and minutes, written with a point."""
    item = page.first(hit, Tag.NUM)
    hours, _, minutes = page.words[item.last].partition(".") if item is not None else ("", "", "")
    if item is not None and item.value == "ish" and 1 <= item.n <= 12:
        at = next_time(item._replace(tag=Tag.NUM), page.at, _part(page, hit))
        if at is not None:
            yield Key.LATER_AT, at
    elif item is not None and len(minutes) == 2 and minutes.isdigit() and int(minutes) < 60 and int(hours) <= 24:
        at = next_time(Item(Tag.CLOCK, "", item.first, item.last, int(hours) * 60 + int(minutes)), page.at, None)
        if at is not None:
            yield Key.LATER_AT, at


def _not_yet(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`not yet, 15 min`, and not "just back in, twenty minutes"."""
    word = page.first(hit, Tag.LATER)
    if word is not None and "back" not in page.words[word.first : word.last + 1]:
        yield from _later_min(page, hit)


def _later_at(page: Page, hit: Match[str]) -> Iterable[Finding]:
    clock = page.first(hit, *TIMES)
    if clock is None:
        return
    at = next_time(clock, page.at, _part(page, hit))
    if at is not None:
        yield Key.LATER_AT, at


def _part(page: Page, hit: Match[str]) -> PartOfDay | None:
    return part_of(page.first(hit, Tag.PARTDAY))


def _have(page: Page, hit: Match[str]) -> Iterable[Finding]:
    amount = page.first(hit, Tag.DUR) or page.first(hit, Tag.NUM)
    if amount is not None and is_spare(Said(page, hit), amount):
        yield Key.HAVE, amount.n


def _at_hour(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`flick us a reminder at 1`: the phrase itself ends with "at"."""
    word = page.first(hit, Tag.REMIND)
    if word is not None and page.words[word.last] == "at":
        yield from _later_at(page, hit)


T = "(?:CLOCK|CLOCKISH|[NUM ONE])"


LATER = (
    rule(
        "remind me at",
        f"REMIND NEAR{{0,4}}? [AT AFTER BY ON UNTIL] (?:ABOUT)? {T} (?:PARTDAY|DATE)?(?!UNIT)",
        _later_at,
    ),
    rule("remind me at", "REMIND NEAR{0,3} (?:CLOCK|CLOCKISH) (?:PARTDAY)?", _later_at),
    rule("remind me then", f"{T} (?:PARTDAY|DATE|FILL|COMMA|PLAN|WORD){{0,3}} REMIND (?:THEN|FILL)* END", _later_at),
    rule("remind me about", f"REMIND FILL? COMMA? ABOUT {T} (?:PARTDAY)? END", _later_at),
    rule("remind me in a bit", "REMIND NEAR{0,4} COMMA (?:ABOUT|FILL|IN){0,2} DUR END", _later_min),
    rule("remind me at", "REMIND NEAR{0,6} COMMA (?:AT|ABOUT|FILL)? (?:CLOCK|CLOCKISH)", _later_at),
    rule("remind me then, about", "REMIND NEAR{1,8} COMMA (?:ABOUT NUM|NUM ISH) END", _later_at),
    rule(
        "remind me at",
        "REMIND (?:ABOUT|FILL|PARTDAY){0,2} HALF [NUM ONE] (?:PARTDAY)?",
        lambda page, hit: _half(page, hit),
    ),
    rule("remind me at", "REMIND NEAR{0,2} AT HALF [NUM ONE] (?:PARTDAY)?", lambda page, hit: _half(page, hit)),
    rule("remind me at", "REMIND (?:ABOUT)? NUM (?=PLAN|FILL|END|PARTDAY|THEN|BECAUSE)", _at_hour),
    rule("remind me when it is", f"REMIND [QUEST WORD]? IT IS ABOUT? {T} (?=END)", _later_at),
    rule("remind me at 5.15", "REMIND (?:ABOUT|AT|FILL)? NUM (?:PARTDAY)? END", _written_time),
    rule("snooze", "REMIND (?:IN|FOR|AFTER|ABOUT|COLON|DASH|FILL)? (?:ABOUT|FILL)? NUM (?!UNIT)", _later_min),
    rule("remind me in", "REMIND NEAR{0,4}? (?:IN|FOR|AFTER|ABOUT|COLON)? (?:ABOUT|FILL|ONLY)? DUR", _later_min),
    rule("remind me at about", "REMIND NEAR{3,8}? ABOUT NUM (?=$|STOP|COMMA)", _later_at),
    rule(
        "in a while",
        "(?:^|[STOP COMMA BUT]) (?:FILL|LATER|COMMA|ASK|WORD|OR){0,2} IN (?:ABOUT|FILL)? DUR(?!AGO)",
        _in_a_while,
    ),
    rule("in a while", "^(?:FILL)* IN (?:ABOUT|FILL)? NUM (?:FILL)* (?:STOP)* $", _later_min),
    rule("in a while", "^(?:FILL)* IN (?:ABOUT)? NUM (?=COMMA [SELF FILL TALLY THE IN NEG])", _later_min),
    rule(
        "a while, then remind",
        "DUR (?:CHANGE|OFF|FILL|IN|WORD|THE|PARTDAY){0,4} [COMMA AND THEN]{1,2} FILL? REMIND",
        _later_min,
    ),
    rule("so long a snooze", "(?:^|(?<=[STOP COMMA])) (?:FILL)* DUR REMIND (?=END|FILL)", _later_min),
    rule("wait until", f"LATER (?:UNTIL|AT) {T} (?:PARTDAY)?(?!UNIT)", _later_at),
    rule("give me a while", "(?:^|(?<=[STOP COMMA BUT])) (?:FILL)* LATER (?:ABOUT|FILL)? NUM END", _later_min),
    rule("give me a while", "LATER (?:ABOUT|FILL|IN|ONLY|WORD|FOR)? DUR", _later_min),
    rule(
        "not yet",
        "(?:^|(?<=[STOP COMMA])) (?:FILL)* LATER (?:FILL)* COMMA (?:ABOUT|FILL|IN|LATER){0,2} DUR END",
        _not_yet,
    ),
    rule(
        "not yet",
        f"(?:^|(?<=STOP)) (?:FILL)* [LATER AGO] (?:FILL)* COMMA (?:AT|ABOUT|FILL|WORD){{0,2}} {T} (?:PARTDAY)? END",
        _later_at,
    ),
)


def _half(page: Page, hit: Match[str]) -> Iterable[Finding]:
    hour = page.first(hit, Tag.NUM, Tag.ONE)
    if hour is None or not 1 <= hour.n <= 12:
        return
    at = next_time(Item(Tag.CLOCK, "", 0, 0, hour.n % 12 * 60 + 30), page.at, _part(page, hit))
    if at is not None:
        yield Key.LATER_AT, at


def _short(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.HAVE)
    if word is not None and word.value == "short":
        yield from _have(page, hit)


def _got(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`I've got 40 min today`."""
    word = page.first(hit, Tag.IS)
    if word is not None and page.words[word.last] == "got":
        yield from _have(page, hit)


def _available(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`25 mins available`."""
    word = page.first(hit, Tag.HAVE)
    if word is not None and page.words[word.last] == "available":
        yield from _have(page, hit)


def _left(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`there'll be twenty minutes left for this`."""
    if "left" in page.words[page.items[hit.end() - 1].first : page.items[hit.end() - 1].last + 1]:
        yield from _have(page, hit)


def _all_that_leaves(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`a quarter of an hour is all that bridge club leaves me`."""
    words = page.words[page.items[hit.start()].last : page.items[hit.end() - 1].last + 1]
    if "all" in words and not _LEAVING.isdisjoint(words):
        yield from _have(page, hit)


_LEAVING = frozenset({"leaves", "left", "allows", "gives", "allow", "leave", "give"})


def _at_most(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`20 tops`, and not "twenty minutes up to the abbey"."""
    word = page.first(hit, Tag.SPARE) or page.first(hit, Tag.MAX)
    if word is not None and page.words[word.last : word.last + 2] == ["window", "cleaner"]:
        return
    if word is None or page.words[word.first] != "up" or hit.end() == len(page.line):
        yield from _have(page, hit)


def _all_there_is(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`she can stay for twenty minutes, so that's all I've got`."""
    spare = page.items[hit.end() - 1]
    words = page.words[spare.first : spare.last + 1]
    if "all" in words and not {Tag.DONE, Tag.STOPPED, Tag.ACT} & set(page.line[: hit.end()]):
        yield from _have(page, hit)


def _have_number(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`only got 15 between meetings`, and not "have packed four hats"."""
    last = page.items[hit.end() - 1]
    if page.line[: hit.start()].endswith(Tag.SELF + Tag.IS) and _number(page, hit) >= YOUNGEST:
        page.claim(hit.start(), hit.end())
        return
    noun = last.tag is Tag.WORD and page.line[hit.end() : hit.end() + 1] not in ("", Tag.STOP, Tag.COMMA)
    if not noun or page.words[last.first] in ("between", "lads", "folks", "guys", "max", "tops", "if"):
        yield from _have(page, hit)


YOUNGEST = 18
"""From here on "I'm only 40" is an age."""


def _number(page: Page, hit: Match[str]) -> float:
    item = page.first(hit, Tag.NUM)
    return item.n if item is not None else 0.0


def _until(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`25 min till the bus`, unless it tells when something began to hurt or gave out."""
    words = page.words[page.items[hit.start()].first : page.items[hit.end() - 1].last + 1]
    if not _HAPPENED.isdisjoint(words) or {Tag.MOOD, Tag.EFFORT} & page.there:
        return
    that = "that" in page.words[page.items[hit.start()].first :][:4]
    if not that and not {Tag.PART, Tag.SENSE, Tag.STOPPED, Tag.COURSE, Tag.ACT} & set(
        page.line[hit.start() : hit.end()]
    ):
        yield from _have(page, hit)


_HAPPENED = listed("plans", "happened")
"""Told of the past: what came before it was done."""


_LEAD = "(?:ABOUT|FILL|ONLY|THE|FOR|MAX|HAVE|IT|IS|WORD|DATE|OF|SPARE){0,3}"


AT_HAND = (
    rule(
        "short of time",
        "HAVE (?:DATE|FILL)* (?:COMMA|COLON|DASH|BECAUSE|STOP) (?:ABOUT|FILL|ONLY|MAX|SELF|IS|GOT|HAVE){0,3} [DUR NUM]",
        _short,
    ),
    rule("only this much", f"(?:HAVE|ONLY|MAX) {_LEAD} DUR (?!DONE|SELF [ACT DONE]|SELF HAVE)(?:MAX|SPARE)?", _have),
    rule(
        "only this much",
        f"(?:HAVE|ONLY) {_LEAD.replace('WORD|', '')} NUM (?!OF|SLASH|DONE)"
        "(?:MAX|SPARE|FILL|DATE|PARTDAY|BEFORE|UNTIL|FOR|BECAUSE|THEN|AT|IN|WORD|AFTER [IT THE] END|END)",
        _have_number,
    ),
    rule(
        "got this much",
        "GOT (?:ABOUT|FILL|ONLY|THE|MAX){0,2} [DUR NUM] (?:MAX|SPARE|DATE|BEFORE|PARTDAY|UNTIL|FOR|FILL)",
        _have,
    ),
    rule(
        "have got this much",
        "IS (?:ABOUT|FILL|ONLY|THE|MAX){0,2} DUR (?=MAX|SPARE|DATE|BEFORE|PARTDAY|UNTIL|FOR|FILL|TO|TALLY IT END|END)",
        _got,
    ),
    rule("at most this much", "(?:^|(?<=[COMMA STOP AND BUT FILL])) MAX (?:ABOUT)? NUM (?=DATE|PARTDAY|END)", _have),
    rule("this much until", "DUR (?:UNTIL|BEFORE) (?!DATE|CLOCK|SELF|PART|SENSE|NEG|IT|STOPPED) NEAR{0,3} END", _until),
    rule("so much of it", f"HAVE {_LEAD} NUM OF IT END", _have),
    rule("all there is", "DUR [^ASK]{0,14} SPARE", _all_there_is),
    rule("hardly any time", "NO_TIME (?:FILL|COMMA|BUT|STOP){1,3} [ABOUT ONLY MAX]? DUR (?=PLAN|END|MAX|SPARE)", _have),
    rule("all that is left", "DUR IS ABOUT NEAR{1,4} SELF (?=END)", _all_that_leaves),
    rule("this or nothing", "DUR OR NEG (?=END|DATE)", _have),
    rule("available", "[DUR NUM] HAVE (?=DATE|END)", _available),
    rule("with so much", "(?:^|(?<=STOP)) WITH (?:ONLY|ABOUT)? DUR (?=QUEST)", _have),
    rule("left of a break", "[DUR NUM] AGO [ON OF] (?:THE)? [OFF PARTDAY] (?=END|AND)", _have),
    rule("left for it", "(?:PLAN|IS|HAVE) (?:ABOUT|FILL|ONLY)* DUR [GARMENT AGO] (?=THE|FOR|DATE|END|TO)", _left),
    rule("no more than this", "[DUR NUM] (?:OF|THE|FILL|WORD|IS){0,2} (?:SPARE|MAX)", _at_most),
)
