"""Facts about what is to come: remind me later, another day, minutes at hand, days off."""

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from re import Match

from bot.reading.facts import MoveTo, Off, PartOfDay
from bot.reading.page import Finding, Found, Key, Page, rule
from bot.reading.rules.clauses import REASONED
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import active_time, coming_day, next_time, part_of

TIMES = (Tag.CLOCK, Tag.CLOCKISH, Tag.NUM, Tag.ONE)


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
    if not any(tag in (Tag.ACT, Tag.DONE, Tag.DIST, Tag.STOPPED) for tag in told):
        yield from _later_min(page, hit)


_PASSED = frozenset({"passed", "settled", "stopped", "vanished", "lifted", "subsided", "faded", "went"})


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


_BEATS = frozenset({"hr", "bpm", "pulse", "sugar", "sugars", "glucose"})
LONGEST_SPARE = 240
"""Minutes; more than four hours at hand are a number of something else."""


def _have(page: Page, hit: Match[str]) -> Iterable[Finding]:
    amount = page.first(hit, Tag.DUR) or page.first(hit, Tag.NUM)
    clause = re.split(REASONED, page.line[: hit.start()])[-1]
    told = Tag.DONE in clause or Tag.STOPPED in clause or Tag.ACT in clause
    after = page.items[hit.end()] if hit.end() < len(page.items) else None
    told = told or (after is not None and after.value == "stretch") or _just_told(page, hit.start())
    told = told or (
        Tag.ACT in page.line[: hit.start()] and page.line.startswith((Tag.OF + Tag.ACT, Tag.ACT), hit.end())
    )
    beats = not _BEATS.isdisjoint(
        page.words[max(0, page.items[hit.start()].first - 4) : page.items[hit.end() - 1].last]
    )
    if amount is not None and 0 < amount.n <= LONGEST_SPARE and not told and not beats:
        yield Key.HAVE, amount.n


def _just_told(page: Page, start: int) -> bool:
    """`I jogged! Only ninety seconds`: the sentence before ends with something done."""
    before = page.line[:start].rstrip(Tag.STOP + Tag.BUT)
    word = page.words[page.items[len(before) - 1].last] if before.endswith(Tag.ACT) else ""
    return len(before) < start and (word.endswith("ed") or word in ("ran", "swam", "rode"))


_MOVE_CUE = pattern("[MOVE INSTEAD]")
_DAY = pattern(
    "(?:DATE|PARTDAY|CLOCK|CLOCKISH|(?<=AT)[NUM ONE]|NUM(?=DATE|PARTDAY|INSTEAD)|(?<=DATE)NUM|(?<=PARTDAY)NUM)"
)


def move(page: Page) -> None:
    """The session is to be on another day or time: a cue and a day ahead in one sentence."""
    for start, end in _sentences(page.line):
        piece = page.line[start:end]
        cue = _MOVE_CUE.search(piece)
        hits = [
            start + hit.start()
            for hit in _DAY.finditer(piece)
            if piece[hit.start() - 1 : hit.start()] != Tag.INTENDED and not _told_by_sign(page, start + hit.start())
        ]
        cue = cue or _asked_over(piece, page.line[end : end + 1])
        if cue is None or not hits or (cue[0] == Tag.INSTEAD and _told(page, start, end)):
            continue
        if (to := _TO_DAY.search(piece)) is not None:
            day = start + to.end() - 1
            following = next((index for index in hits if index > day and page.line[index] == Tag.DATE), end)
            hits = [index for index in hits if index < following and (index >= day or page.line[index] != Tag.DATE)]
        hits = _asked_for(page, (start, end), start + cue.start(), hits)
        named = [page.items[index] for index in _said_with(page, start + cue.start(), hits)]
        value = target(page, named)
        planned = page.items[start + cue.start()].value == "plan"
        if value is None or (planned and value.on == page.today and Tag.INSTEAD not in piece):
            continue
        low, high = min([start + cue.start(), *hits]), max([start + cue.end(), *[index + 1 for index in hits]])
        if value.at is None and (hit := _TIME_AFTER.match(page.line, max(hits) + 1)) is not None:
            value, high = _at_time_after(page, hit, value), hit.end()
        if value.at is None and value.part is None:
            value = replace(value, part=_part_after(page, end))
        page.add(Key.MOVE, value, low, high, "move")
        page.claim(low, high)
        return


def _asked_for(page: Page, sentence: tuple[int, int], cue: int, hits: list[int]) -> list[int]:
    """Those of *hits* that stand with the *cue* or a day ahead, not with what is told besides: "move it to this evening
    at 8, sore all over today"."""
    kept: list[int] = []
    for first, last in _segments(page.line, *sentence):
        own = [index for index in hits if first <= index < last]
        ahead = any(
            page.line[index] == Tag.DATE and coming_day(page.items[index], page.today) not in (page.today, None)
            for index in own
        )
        if ahead or first <= cue < last or _TOLD_BESIDES.isdisjoint(page.line[first:last]):
            kept += own
    return kept or hits


_TOLD_BESIDES = frozenset({Tag.PART, Tag.SENSE, Tag.EFFORT, Tag.DONE, Tag.ACT, Tag.USED})


def _segments(line: str, start: int, end: int) -> Iterable[tuple[int, int]]:
    for index in range(start, end):
        if line[index] in (Tag.COMMA, Tag.BECAUSE):
            yield start, index
            start = index + 1
    yield start, end


def _told_by_sign(page: Page, index: int) -> bool:
    """`I'd rather not wake up tomorrow`."""
    item = page.items[index]
    return any(fact.value == "self_harm" and fact.first <= item.first <= fact.last + 1 for fact in page.found)


def _said_with(page: Page, cue: int, hits: list[int]) -> list[int]:
    """Of days and times at *hits* those before the next clause, if they name both: "to 7 tonight, I finish at 6"."""
    end = next((place for place in range(cue + 1, len(page.line)) if page.line[place] in _NEXT_CLAUSE), -1)
    near = [index for index in hits if cue <= index < end]
    tags = {page.line[index] for index in near}
    whole = bool(tags & {Tag.DATE, Tag.PARTDAY}) and len(tags) > 1
    return near if whole else hits


_TIME_AFTER = pattern(
    "(?:AFTER WORD|PARTDAY|INSTEAD|FILL)* COMMA? (?:FILL|ABOUT|AT|WORD|MAYBE_DAY){1,2} "
    "(?:CLOCK|CLOCKISH|HALF? [NUM ONE]) (?=END)|"
    "COMMA? (?:CLOCK|CLOCKISH|HALF [NUM ONE]) (?=END)"
)


def _at_time_after(page: Page, hit: Match[str], value: MoveTo) -> MoveTo:
    """`to sunday after naps, like 3`, `first thing tomorrow instead, say half 6`."""
    words = {page.words[item.last] for item in page.pick(hit, Tag.WORD, Tag.FILL)}
    clock = page.first(hit, *TIMES)
    if clock is None or not words <= _SAYING_WHEN:
        return value
    if page.first(hit, Tag.HALF) is not None:
        clock = Item(Tag.CLOCK, "", 0, 0, clock.n % 12 * 60 + 30)
    at = next_time(clock, page.at, value.part) if value.on == page.today else active_time(clock, value.part)
    return replace(value, at=at, part=None) if at else value


_SAYING_WHEN = frozenset(
    {"say", "please", "instead", "naps", "lunch", "maybe", "perhaps", "work", "school", "church", "ish"}
)
_NEXT_CLAUSE = frozenset({Tag.COMMA, Tag.BECAUSE, Tag.SELF})
_TO_DAY = pattern("MOVE (?:IT|THE|SESSION|ACT|FILL|DATE)* TO (?:THE)? DATE")
_RATHER = pattern("MISS_IT (?:PARTDAY|FILL)* COMMA? (?:FILL)* DATE (?:PARTDAY|CLOCK|AMPM|FILL)* $")
_OVER_TO = pattern("PLAN (?:FILL|THE)? DATE NEAR{0,4} TO DATE")


def _asked_over(piece: str, mark: str) -> Match[str] | None:
    """`could wednesday's one go to thursday?`, `not going to make it tonight, monday?`"""
    return (_OVER_TO.search(piece) or _RATHER.search(piece)) if mark == Tag.ASK else None


def _part_after(page: Page, end: int) -> PartOfDay | None:
    """The part of the day that the next sentence prefers ("Morning is best")."""
    after = page.items[end + 1 : end + 3]
    return next((part_of(item) for item in after if item.tag is Tag.PARTDAY), None)


def _told(page: Page, start: int, end: int) -> bool:
    """Whether the stretch tells of something done, so that "instead" names what it replaced."""
    words = page.words[page.items[start].first : page.items[end - 1].last + 1] if end > start else []
    return not _WENT.isdisjoint(words) or any(
        tag in (Tag.DONE, Tag.STOPPED) or (tag == Tag.ACT and page.words[item.first].endswith(("ed", "ran", "swam")))
        for tag, item in zip(page.line[start:end], page.items[start:end], strict=True)
    )


_WENT = frozenset({"went", "came", "walked", "jogged", "ran", "took"})


def _sentences(line: str) -> Iterable[tuple[int, int]]:
    start = 0
    for index, char in enumerate(line):
        if char in (Tag.STOP, Tag.ASK, Tag.BUT):
            yield start, index
            start = index + 1
    yield start, len(line)


def target(page: Page, named: list[Item]) -> MoveTo | None:
    """Where to: the last day ahead that was named, with its time or part of the day."""
    days = [day for item in named if item.tag is Tag.DATE and (day := coming_day(item, page.today)) is not None]
    parts = [item for item in named if item.tag is Tag.PARTDAY]
    clocks = [item for item in named if item.tag in TIMES]
    today_part = any(item.value in ("tonight", "later") for item in parts)
    part = part_of(parts[-1]) if parts else None
    others = [day for day in days if day != page.today]
    on = others[-1] if others else page.today
    if not days and not clocks and part is PartOfDay.MORNING and page.at.hour >= MORNING_OVER:
        on = page.today + timedelta(days=1)
    part = part if on == page.today else _part_of_that_day(page, parts, on)
    if on == page.today and not clocks and part is None:
        return None
    if on == page.today and not (days or today_part or clocks or part):
        return None
    if clocks:
        at = next_time(clocks[-1], page.at, part) if on == page.today else active_time(clocks[-1], part)
        return MoveTo(on, at) if at else None
    return MoveTo(on, None, part)


def _part_of_that_day(page: Page, parts: list[Item], on: date) -> PartOfDay | None:
    """The part of day *on*: neither "tonight" nor that of another day named right before it ("since monday night")."""
    for item in reversed(parts):
        index = page.items.index(item)
        before = page.items[index - 1] if index else None
        another = before is not None and before.tag is Tag.DATE and coming_day(before, page.today) not in (on, None)
        if item.value not in _TODAYS and not another:
            return part_of(item)
    return None


MORNING_OVER = 14
"""From this hour on "in the morning" is that of tomorrow."""
_TODAYS = frozenset({"tonight", "this_morning", "later"})
LONGEST_BREAK = 400
"""Days; a longer break is no break that a plan can wait for."""
_OFF_CUE = pattern(
    "[OFF]|(?:^|(?<=STOP)|(?<=COMMA)|(?<=USED))(?:FILL)*NEG(?=UNTIL|FROM|FOR DAYS [FROM FILL]|WORD DATE AND DATE)|"
    "(?<=IN)PLACE|(?<=TO)PLACE|"
    "PLAN(?=(?:THE|PLACE|WORD){1,3} (?:FROM|ON)? DATE (?:FOR DAYS|[UNTIL THROUGH TO] DATE))|"
    "RETURN (?=ON|DATE|THE)|(?<=STARTING)RETURN"
)
_NO_SESSION = pattern("MISS_IT|NEG (?:FILL|WORD|ONE)? [SESSION ACT]|[SESSION ACT] (?:IS|FILL)? NEG|NO_TIME")
_THERE = pattern("IN PLACE")
_NO_TRAINING = pattern("[OFF MISS MISS_IT]|NEG (?:FILL|THE|WORD)* [SESSION ACT]")
_USED = pattern("USED")
_FIRST = pattern("FROM (?:ON|THE|PARTDAY)? DATE")
_LAST_BEFORE = pattern("(?:UNTIL|RETURN) (?:OFF)? (?:ON|THE|FILL|UNTIL|PARTDAY)? DATE")
_LAST = pattern("(?:THROUGH|TO|DASH|AND) (?:ON|THE|PARTDAY)? DATE")
_RANGE = pattern("DATE [PARTDAY FILL]? (?:THROUGH|TO|DASH|AND) (?:ON|THE|PARTDAY)? DATE")
_THROUGH = pattern("THROUGH (?:ON|THE|PARTDAY)? DATE")
_LENGTH = pattern("DAYS")
_SPAN = pattern("SPAN")


def off(page: Page) -> None:
    """Days off: a cue, and a first day, a last day or a length, in one sentence."""
    if Tag.OFF in page.line:
        _name_days(page)
    for start, end in _sentences(page.line):
        if _off(page, start, end):
            return


_BARE_DAYS = pattern("FROM THE? NUM [TO THROUGH DASH] THE? NUM (?!UNIT|TIMES|OF)")
_MONTH_ENDS = 31
_NAMED_DAYS = pattern("DATE NUM [TO THROUGH DASH UNTIL] DATE NUM (?!UNIT|TIMES|OF)")


def _name_days(page: Page) -> None:
    """`from the 15 to the 22 i am away`, `off fri 12 to mon 15`: days of the month, though nobody said so."""
    for hit in (*_BARE_DAYS.finditer(page.line), *_NAMED_DAYS.finditer(page.line)):
        places = [index for index in range(hit.start(), hit.end()) if page.line[index] == Tag.NUM]
        if all(1 <= page.items[index].n <= _MONTH_ENDS and page.items[index].n % 1 == 0 for index in places):
            for index in places:
                item = page.items[index]
                page.items[index] = item._replace(tag=Tag.DATE, value=f"0-{item.n:.0f}", n=0.0)
                page.line = page.line[:index] + Tag.DATE + page.line[index + 1 :]


def _off(page: Page, start: int, end: int) -> bool:
    line = Tag.USED * start + page.line[start:end]
    cue = _OFF_CUE.search(line)
    if cue is None and (_LAST_BEFORE.search(line) or _RANGE.search(line)):
        cue = _NO_SESSION.search(line)
    if cue is None and any(fact.value == "pause" or _says_off(page, fact) for fact in page.found):
        cue = _USED.search(line, start)
    if cue is None or (Tag.MOVE in line and Tag.UNTIL not in line and Tag.FROM not in line):
        return False
    first, last, used = None, None, [cue.span()]
    if hit := _FIRST.search(line):
        first = _day(page, hit)
        used.append(hit.span())
    if hit := _LAST_BEFORE.search(line):
        back = _day(page, hit)
        last = back - timedelta(days=1) if back else None
        first = first or _leaving(page, line[: hit.start()], last)
        used.append(hit.span())
    elif hit := _RANGE.search(line) or (_LAST.search(line) if first else None):
        last = _last_day(page, hit)
        first = first or _day(page, hit)
        used.append(hit.span())
    elif hit := _THROUGH.search(line):
        last = _last_day(page, hit)
        first = first or _leaving(page, line[: hit.start()], last)
        used.append(hit.span())
    if last is None and (hit := _LENGTH.search(line)) and 1 <= page.items[hit.start()].n <= LONGEST_BREAK:
        begin = first or _single_day(page, line) or page.today
        first = begin if begin != page.today else None
        last = begin + timedelta(days=int(page.items[hit.start()].n) - 1)
        used.append(hit.span())
    if last is None and first is None and (hit := _SPAN.search(line)):
        first, last = _span(page.items[hit.start()].value, page.today)
        used.append(hit.span())
    if first is not None and last is not None and last < first:
        last = _bump(first, last)
    if first is None and last is None:
        return False
    low, high = min(a for a, _ in used), max(b for _, b in used)
    if _only_there(page, line, first):
        page.add(Key.PLACE_UNTIL, last, low, high, "while away")
    else:
        page.add(Key.OFF, Off(first if first != page.today else None, last), low, high, "days off")
    page.claim(low, high)
    return True


def _says_off(page: Page, fact: Found) -> bool:
    """`off sick till thursday`: ill, and away from work too."""
    return fact.key is Key.ILL and page.words[fact.first] == "off"


def _leaving(page: Page, line: str, last: date | None) -> date | None:
    """The first day, named before the last one: "off on a cruise tomorrow and back on the eleventh"."""
    place = line.find(Tag.DATE)
    day = coming_day(page.items[place], page.today) if place >= 0 else None
    return day if day is not None and last is not None and page.today < day <= last else None


def _only_there(page: Page, line: str, first: date | None) -> bool:
    """`I'm in Chicago till Friday`: in another town by now, and not a word of training less."""
    there = _THERE.search(line)
    until = _LAST_BEFORE.search(line) or _THROUGH.search(line)
    town = there is not None and page.items[there.end() - 1].value == "city"
    return bool(town and until and first is None and not _NO_TRAINING.search(line))


def _bump(first: date, last: date) -> date:
    """The next such date after *first*: "from the 28th to the 3rd", "from saturday to friday"."""
    step = 7 if (first - last).days < 7 else 0
    if step:
        return last + timedelta(days=7)
    month = last.month % 12 + 1
    return last.replace(year=last.year + (month == 1), month=month)


def _single_day(page: Page, line: str) -> date | None:
    place = line.find(Tag.DATE)
    return coming_day(page.items[place], page.today) if place >= 0 else None


def _last_day(page: Page, hit: Match[str]) -> date | None:
    items = list(page.pick(hit, Tag.DATE))
    return coming_day(items[-1], page.today) if items else None


def _day(page: Page, hit: Match[str]) -> date | None:
    item = page.first(hit, Tag.DATE)
    return coming_day(item, page.today) if item else None


def _span(value: str, today: date) -> tuple[date | None, date | None]:
    monday = today - timedelta(days=today.weekday())
    if value == "next_week":
        return monday + timedelta(days=7), monday + timedelta(days=13)
    if value == "this_week":
        return None, monday + timedelta(days=6)
    if value == "weekend":
        saturday = monday + timedelta(days=5)
        return (saturday if saturday > today else None), monday + timedelta(days=6)
    if value == "next_weekend":
        return monday + timedelta(days=12), monday + timedelta(days=13)
    return None, None


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
    rule("remind me then", f"{T} (?:PARTDAY|DATE|FILL|COMMA){{0,3}} REMIND (?:THEN|FILL)* END", _later_at),
    rule("remind me about", f"REMIND FILL? COMMA? ABOUT {T} (?:PARTDAY)? END", _later_at),
    rule("remind me in a bit", "REMIND NEAR{0,4} COMMA (?:ABOUT|FILL|IN){0,2} DUR END", _later_min),
    rule("remind me at", "REMIND NEAR{0,3} PARTDAY COMMA (?:AT|ABOUT)? (?:CLOCK|CLOCKISH)", _later_at),
    rule(
        "remind me at",
        "REMIND (?:ABOUT|FILL|PARTDAY){0,2} HALF [NUM ONE] (?:PARTDAY)?",
        lambda page, hit: _half(page, hit),
    ),
    rule("remind me at", "REMIND NEAR{0,2} AT HALF [NUM ONE] (?:PARTDAY)?", lambda page, hit: _half(page, hit)),
    rule("remind me in", "REMIND NEAR{0,4}? (?:IN|FOR|AFTER|ABOUT|COLON)? (?:ABOUT|FILL|ONLY)? DUR", _later_min),
    rule("remind me at", "REMIND (?:ABOUT)? NUM (?=PLAN|FILL|END|PARTDAY|THEN|BECAUSE)", _at_hour),
    rule("snooze", "REMIND (?:IN|FOR|AFTER|ABOUT|COLON|DASH|FILL)? (?:ABOUT|FILL)? NUM (?!UNIT)", _later_min),
    rule("remind me at about", "REMIND NEAR{3,8}? ABOUT NUM (?=$|STOP|COMMA)", _later_at),
    rule(
        "in a while",
        "(?:^|[STOP COMMA BUT]) (?:FILL|LATER|COMMA|ASK|WORD|OR){0,2} IN (?:ABOUT|FILL)? DUR(?!AGO)",
        _in_a_while,
    ),
    rule("in a while", "^(?:FILL)* IN (?:ABOUT|FILL)? NUM (?:FILL)* (?:STOP)* $", _later_min),
    rule("wait until", f"LATER (?:UNTIL|AT) {T} (?:PARTDAY)?(?!UNIT)", _later_at),
    rule("give me a while", "(?:^|(?<=[STOP COMMA BUT])) (?:FILL)* LATER (?:ABOUT|FILL)? NUM END", _later_min),
    rule("give me a while", "LATER (?:ABOUT|FILL|IN|ONLY|WORD|FOR)? DUR", _later_min),
    rule("not yet", "(?:^|(?<=STOP)) (?:FILL)* LATER (?:FILL)* COMMA (?:ABOUT|FILL|IN|LATER){0,2} DUR END", _not_yet),
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


_HAPPENED = frozenset(
    {"woke", "opened", "came", "got", "started", "began", "went", "left", "arrived", "rained", "broke", "was", "were",
     "turned", "fell", "hit", "rang", "called", "landed", "gave", "had", "did", "knew", "stirred", "appeared"}
)  # fmt: skip
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
        "IS (?:ABOUT|FILL|ONLY|THE|MAX){0,2} DUR (?=MAX|SPARE|DATE|BEFORE|PARTDAY|UNTIL|FOR|FILL|TO|END)",
        _got,
    ),
    rule("at most this much", "(?:^|(?<=[COMMA STOP AND BUT FILL])) MAX (?:ABOUT)? NUM (?=DATE|PARTDAY|END)", _have),
    rule("this much until", "DUR (?:UNTIL|BEFORE) (?!DATE|CLOCK|SELF|PART|SENSE|NEG|IT|STOPPED) NEAR{0,3} END", _until),
    rule("so much of it", f"HAVE {_LEAD} NUM OF IT END", _have),
    rule("all there is", "DUR [^ASK]{0,14} SPARE", _all_there_is),
    rule("left of a break", "[DUR NUM] AGO [ON OF] (?:THE)? [OFF PARTDAY] (?=END|AND)", _have),
    rule("no more than this", "[DUR NUM] (?:OF|THE|FILL|WORD){0,2} (?:SPARE|MAX)", _have),
)
