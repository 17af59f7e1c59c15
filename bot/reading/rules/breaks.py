"""Days off: from when, to when."""

from datetime import date, timedelta
from re import Match

from bot.reading.facts import Off
from bot.reading.lexicon import listed
from bot.reading.page import Found, Key, Page
from bot.reading.rules.clauses import sentences
from bot.reading.tags import Tag, pattern
from bot.reading.when import coming_day

LONGEST_BREAK = 400
"""Days; a longer break is no break that a plan can wait for."""


_OFF_CUE = pattern(
    "(?<!SINCE)(?<!SINCE THE)(?<!DONE)(?<!DONE THE)OFF|(?:^|(?<=STOP)|(?<=COMMA)|(?<=USED)|(?<=BECAUSE))(?:FILL)*"
    "NEG(?=UNTIL|FROM|[OF FROM] SELF FROM|FOR DAYS [FROM FILL]|WORD DATE AND DATE)|"
    "NEG (?:SESSION|ACT)? THEN (?=$|[STOP COMMA])|(?<=DAYS OF)NEG|"
    "(?<=IN)PLACE|(?<=TO)PLACE|^(?:WORD|PLACE)(?=FOR DAYS FROM DATE)|"
    "PLAN(?=(?:THE|PLACE|WORD|OTHER|IN){1,4} (?:FROM|ON)? DATE (?:FOR DAYS|[UNTIL THROUGH TO] DATE))|"
    "RETURN (?=ON|DATE|THE)|(?<=STARTING)RETURN"
)


_NO_SESSION = pattern(
    "MISS_IT|NEG (?:FILL|WORD|ONE)? [SESSION ACT]|NEG WORD CHALLENGE|[SESSION ACT] (?:IS|FILL)? NEG|NO_TIME"
)


_FROM_TO = pattern("FROM (?:ON|THE|PARTDAY)? DATE (?:UNTIL|TO|THROUGH|DASH) (?:ON|THE)? DATE")


_NOT_TILL_BACK = pattern("(?:OFF|NEG [SESSION ACT]|MISS_IT) (?:FROM SELF)? (?:UNTIL? RETURN|[BEFORE UNTIL] USED)")
"""`at my sister's until the 17th. No sessions till I'm back.`"""
_THERE = pattern("IN PLACE")


_NO_TRAINING = pattern("[OFF MISS MISS_IT]|NEG (?:FILL|THE|WORD)* [SESSION ACT]")


_USED = pattern("USED")


_FIRST = pattern("FROM (?:ON|THE|PARTDAY)? DATE")


_LAST_BEFORE = pattern(
    "(?:UNTIL|RETURN|RETURN FROM? THE? WORD{1,2}|RETURN TO [WORD ACT SESSION]|(?<=OFF)BEFORE) "
    "(?:OFF)? (?:ON|THE|FILL|UNTIL|PARTDAY)? DATE"
)


_LAST = pattern("(?:THROUGH|TO|DASH|AND) (?:ON|THE|PARTDAY)? DATE")


_RANGE = pattern("DATE [PARTDAY FILL]? (?:THROUGH|TO|DASH|AND) (?:ON|THE|PARTDAY)? DATE")


_THROUGH = pattern("THROUGH (?:ON|THE|PARTDAY)? DATE")


_LENGTH = pattern("(?<!SINCE)DAYS")


_SPAN = pattern("SPAN")


def off(page: Page) -> None:
    """Days off: a cue, and a first day, a last day or a length, in one sentence."""
    if Tag.OFF in page.line:
        _name_days(page)
    for start, end in sentences(page.line):
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
    cues = (hit for hit in _OFF_CUE.finditer(line) if not _of_somebody(page, line, hit.start()))
    cue = next((hit for hit in cues if not _came_home(page, hit.start())), None)
    if cue is None and (_LAST_BEFORE.search(line) or _RANGE.search(line) or _THROUGH.search(line)):
        cue = _NO_SESSION.search(line)
    if cue is None and _FIRST.search(line) and _LENGTH.search(line):
        cue = _NO_SESSION.search(line)
    if cue is None and _NOT_TILL_BACK.search(page.line):
        cue = _LAST_BEFORE.search(line)
    if cue is None and _FROM_TO.search(line) and _NO_SESSION.search(page.line):
        cue = _FROM_TO.search(line)
    if cue is None and any(fact.value == "pause" or _says_off(page, fact) for fact in page.found):
        cue = _USED.search(line, start)
    if cue is None and _own_day_off(page, line):
        return True
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
        first = _day(page, hit) or first
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
        return _own_day_off(page, line)
    low, high = min(a for a, _ in used), max(b for _, b in used)
    if _only_there(page, line, first):
        page.add(Key.PLACE_UNTIL, last, low, high, "while away")
    else:
        page.add(Key.OFF, Off(first if first != page.today else None, last), low, high, "days off")
    page.claim(low, high)
    return True


_DAY_OFF = pattern(
    "OFF (?:ON|FOR|THE|FILL){0,2} DATE|DATE (?:FILL|IS|SELF){0,2} OFF|(?:WORD|RETURN) DATE (?:NEG|WORD|SPARE)"
)


def _own_day_off(page: Page, line: str) -> bool:
    """`can't train on friday`, `keep friday free`: one day ahead, if nothing but that is said of it."""
    for hit in _DAY_OFF.finditer(line):
        day = _day(page, hit)
        first, last = page.items[hit.start()], page.items[hit.end() - 1]
        off = next(page.pick(hit, Tag.OFF), None)
        free = page.words[first.first] in _KEPT and page.words[last.first] in _FREE
        said = free or (off is not None and page.words[off.last] in _NO_TRAINING_THAT_DAY)
        if said and day is not None and day > page.today:
            page.add(Key.OFF, Off(day, day), hit.start(), hit.end(), "day off")
            page.claim(hit.start(), hit.end())
            return True
    return False


_KEPT = listed("off", "kept")
_FREE = listed("off", "free")
_NO_TRAINING_THAT_DAY = listed("off", "day")


def _says_off(page: Page, fact: Found) -> bool:
    """`off sick till thursday`: ill, and away from work too."""
    return fact.key is Key.ILL and page.words[fact.first] == "off"


def _of_somebody(page: Page, line: str, cue: int) -> bool:
    """`my daughter is away till Sunday`: not the sender."""
    start = max(line.rfind(mark, 0, cue) for mark in (Tag.COMMA, Tag.AND, Tag.BECAUSE, Tag.STOP)) + 1
    who = line.find(Tag.OTHER, start, cue)
    return who >= 0 and Tag.SELF not in line and page.words[page.items[who].last] != "they"


def _came_home(page: Page, cue: int) -> bool:
    """`flew home sunday`: it is over; `car back thursday`: something else comes back."""
    first = page.items[cue].first
    return page.line[cue] == Tag.RETURN and first > 0 and page.words[first - 1] in _CAME


_CAME = listed("breaks", "came")


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
