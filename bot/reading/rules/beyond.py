"""Facts beyond the log: stuck now, the weather outside, corrections, days for good, where somebody is while away."""

from collections.abc import Iterable, Iterator
from datetime import time
from re import Match

from bot.reading.facts import Habit, Weather
from bot.reading.page import Finding, Key, Page, Produce, rule
from bot.reading.rules.plain import is_fever
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import WEEKDAYS, active_time, part_of
from planning.terms.choices import Weekday

HOTTEST_F = 130.0
KMH_PER_MPH = 1.609344  # exact (international mile)
KMH_PER_KNOT = 1.852  # exact (international nautical mile)
WARMEST_C = 56.0
"""Hotter air was never measured (World Meteorological Organization, 1913; from memory): above it is Fahrenheit."""


def _stuck(page: Page, _hit: Match[str]) -> Iterable[Finding]:
    earlier = any(tag == Tag.DATE and page.items[i].value != "+0" for i, tag in enumerate(page.line))
    if not earlier and not page.has(Key.MOVE, Key.OFF, Key.MISSED):
        yield Key.STUCK, True


def _wall(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.STOPPED)
    if word is not None and "wall" in page.words[word.first : word.last + 1]:
        yield from _stuck(page, hit)


def _correct(_page: Page, _hit: Match[str]) -> Iterable[Finding]:
    yield Key.CORRECT, True


def _celsius(value: float, unit: str) -> float:
    if unit == "f" or (unit != "c" and value > WARMEST_C):
        return round((value - 32) * 5 / 9, 1)
    return value


def _degrees(page: Page, hit: Match[str]) -> Iterable[Finding]:
    number = page.first(hit, Tag.NUM)
    unit = page.first(hit, Tag.DEGREE)
    if number is None or (unit is not None and unit.value not in ("", "c", "f")):
        return
    cold = (
        any(item.value == "minus" for item in page.pick(hit, Tag.SKY, Tag.DASH))
        or Tag.DASH in page.line[hit.start() : hit.end()]
    )
    yield Key.WEATHER, Weather(c=_celsius(-number.n if cold else number.n, unit.value if unit else ""))


def _felt(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`feels like 38`, `temp 33`: degrees without the word."""
    word = page.first(hit, Tag.SKY)
    below = Tag.DASH in page.line[hit.start() : hit.end()]
    if below or (word is not None and word.value in ("temp", "out", "minus")):
        yield from _degrees(page, hit)


def _hot_out(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`96 out here`: so much is no minutes."""
    number, verb = page.first(hit, Tag.NUM), page.first(hit, Tag.IS)
    now = verb is None or page.words[verb.last] in ("is", "s")
    off = page.first(hit, Tag.OFF)
    now = now and (off is None or page.words[off.last] == "out")
    if number is not None and now and WARMEST_C < number.n <= HOTTEST_F:
        yield from _degrees(page, hit)


def _out(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`it's 36 out`."""
    word = page.first(hit, Tag.OFF)
    if word is not None and page.words[word.last] == "out":
        yield from _degrees(page, hit)


def _sky(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """Humidity, wind or air quality: a word and its number, either first."""
    number, word = page.first(hit, Tag.NUM), page.first(hit, Tag.SKY)
    unit = page.first(hit, Tag.DEGREE)
    if number is None:
        return
    kind = word.value if word else "humidity" if unit and unit.value == "percent" else ""
    if kind == "humidity" and number.n <= 100:
        yield Key.WEATHER, Weather(humidity=number.n)
    elif kind == "wind":
        yield Key.WEATHER, Weather(wind_kmh=_kmh(number.n, unit.value if unit else "kmh"))
    elif kind == "aqi":
        yield Key.WEATHER, Weather(aqi=number.n)


def _share(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`33C 60%`: percent after degrees is humidity."""
    word = page.first(hit, Tag.SHARE)
    if word is not None and page.words[word.last] in ("%", "percent"):
        yield Key.WEATHER, Weather(humidity=round(word.n * 100))


def _kmh(speed: float, unit: str) -> float:
    return round(speed * {"mph": KMH_PER_MPH, "knots": KMH_PER_KNOT}.get(unit, 1.0), 1)


def _feverish(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`temp 38.7`: a body temperature, not the air's."""
    number, word = page.first(hit, Tag.NUM), page.first(hit, Tag.SKY)
    if number is None or word is None or word.value != "temp" or _outside(page):
        return
    if is_fever(number.n):
        yield Key.ILL, True
        yield Key.FEVER, True


def _outside(page: Page) -> bool:
    return any(item.tag is Tag.SKY and item.value != "temp" for item in page.items)


def _habit(page: Page) -> Iterator[tuple[Habit, int, int]]:
    cue = page.line.find(Tag.HABIT)
    weekly = page.line.find(Tag.WEEKLY)
    first = page.items[cue].first if cue > 0 else 0
    if first and page.words[first] == "always" and page.words[first - 1] in ("am", "is", "are", "was"):
        return
    if (cue < 0 and weekly < 0) or page.has(Key.DID, Key.MISSED):
        return
    places = [i for i, tag in enumerate(page.line) if tag in (Tag.DATE, Tag.WEEKLY)]
    days = sorted({Weekday(WEEKDAYS.index(name)) for i in places for name in _names(page.items[i])})
    named = cue if cue >= 0 else weekly
    stop = page.line.find(Tag.STOP, named)
    start, stop = page.line.rfind(Tag.STOP, 0, named) + 1, stop if stop >= 0 else len(page.line)
    at = _time_named(page, start, stop)
    ends = [i for i in (cue, weekly, *places) if i >= 0]
    asked = (
        weekly >= 0
        and Tag.OTHER not in page.line
        and (at is not None or not {Tag.MOVE, Tag.PLAN}.isdisjoint(page.line[start:stop]))
    )
    if (days or at) and (cue >= 0 or asked):
        times = [hit.end() for hit in _AT.finditer(page.line, start, stop)]
        yield Habit(tuple(days), at), min(ends), max([max(ends) + 1, *times])


def _names(item: Item) -> list[str]:
    if item.value == "weekends":
        return ["sat", "sun"]
    return [item.value] if item.value in WEEKDAYS else []


def _time_named(page: Page, start: int, stop: int) -> time | None:
    found = _AT.search(page.line, start, stop)
    if found is None:
        return None
    item = page.items[found.end() - 1]
    part = next((part_of(each) for each in page.items if each.tag is Tag.PARTDAY), None)
    return active_time(item, part)


_AT = pattern("(?:AT (?:ABOUT)?|DATE|WEEKLY|TO|HABIT) (?:CLOCK|CLOCKISH|NUM(?!UNIT|DEGREE))|CLOCK")


def habit(page: Page) -> None:
    """Days or times for good: "from now on tue and thu at 6"; it claims them, so that nothing is moved."""
    for value, start, end in _habit(page):
        page.add(Key.HABIT, value, start, end, "from now on")
        page.claim(start, end)
        return


def place(page: Page) -> None:
    """The city or country that a break or a journey is in."""
    for index, item in enumerate(page.items):
        if item.tag is Tag.PLACE and index and page.items[index - 1].tag in _INTO:
            first, last = page.tokens[item.first], page.tokens[item.last]
            here = item.value == "city" and _I_AM.search(page.line[:index]) is not None
            if here or page.has(Key.OFF) or any(each.tag in _JOURNEY for each in page.items):
                page.add(Key.PLACE, page.text[first.start : last.end], index, index + 1, "place")
            return


_I_AM = pattern("(?:^|[STOP COMMA FILL AND BUT]) SELF IS (?:FILL)* IN $")
_INTO = frozenset({Tag.IN, Tag.TO, Tag.FROM, Tag.THE, Tag.FOR, Tag.AT, Tag.OFF})
_JOURNEY = frozenset({Tag.OFF, Tag.SPAN, Tag.UNTIL, Tag.RETURN, Tag.THROUGH})
_OUT = "(?:IS|AT|ABOUT|COLON|FILL|OF|DASH|THE){0,3}"
WEATHER = (
    rule("body temperature", f"SKY {_OUT} NUM (?:DEGREE)?", _feverish),
    rule("body temperature", "NUM (?:DEGREE)? SKY", _feverish),
    rule("degrees", "(?:DASH|SKY)? NUM DEGREE (?!SIDE)(?:SKY)?", _degrees),
    rule("degrees outside", f"SKY {_OUT} NUM (?!UNIT|DEGREE) SKY?", _felt),
    rule("degrees outside", "IS ABOUT? (?:SKY)? NUM SKY", _felt),
    rule("degrees outside", "(?:^|(?<=[STOP COMMA AND])) (?:NUM [SKY OFF]|IT IS NUM (?=AND|COMMA|BUT|STOP))", _hot_out),
    rule("sky word and number", f"SKY {_OUT} NUM DEGREE?", _sky),
    rule("number and sky word", "NUM DEGREE? (?:OF)? SKY", _sky),
    rule("degrees out", "(?<=IT IS) ABOUT? NUM OFF (?=END|AND|THE|SELF)", _out),
    rule("degrees below zero", "IS DASH NUM (?!UNIT)", _felt),
    rule("percent after degrees", "(?<=USED)COMMA? (?:AND|WITH)? SHARE (?:OF)? SKY?", _share),
    rule("percent after degrees", "(?<=USED)COMMA? (?:AND)? NUM DEGREE", _sky),
)


def _ice(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.SKY)
    if word is not None and word.value == "ice":
        yield Key.WEATHER, Weather(ice=True)


BAD_NIGHT_H = 4.5
"""Hours that a bad night counts as when none are named (common practice, no source)."""


def _slept(page: Page, hit: Match[str]) -> Iterable[Finding]:
    hours = page.first(hit, Tag.DUR)
    word = page.first(hit, Tag.NIGHT)
    if hours is not None and 0 < hours.n <= 14 * 60:
        yield Key.SLEPT, round(hours.n / 60, 2)
    elif word is not None and word.value == "bad":
        yield Key.SLEPT, BAD_NIGHT_H


def _no_time(page: Page, hit: Match[str]) -> Iterable[Finding]:
    item = page.items[hit.start()]
    if page.words[item.first : item.first + 2] == ["no", "time"]:
        yield Key.NO_TIME, True


def _lost(page: Page, _hit: Match[str]) -> Iterable[Finding]:
    """`my dad died years ago` is no news."""
    if Tag.LONG_AGO not in page.line:
        yield Key.LOSS, True


def _true(key: Key) -> Produce:
    return lambda _page, _hit: ((key, True),)


DAY = (
    rule("ice underfoot", "SKY", _ice, claims=False),
    rule("hours slept", "NIGHT (?:ABOUT|ONLY|FILL|WORD)? DUR", _slept),
    rule("hours of sleep", "DUR (?:OF)? (?:FILL)? NIGHT", _slept),
    rule("bad night", "NIGHT", _slept, claims=False),
    rule("low day", "LOW_DAY", _true(Key.LOW_DAY), claims=False),
    rule("loss", "LOSS", _lost, claims=False),
    rule("no time today", "INSTEAD", _no_time, claims=False),
    rule("no time", "NO_TIME", _true(Key.NO_TIME), claims=False),
)
STUCK = (rule("can't go on", "STUCK", _stuck, claims=False), rule("hit the wall", "STOPPED", _wall, claims=False))
AMOUNT = "(?:ABOUT|ONLY|FILL|THE)? [NUM DUR DIST ONE]"
CORRECT = (
    rule("correction", "CORRECT(?!TO|AGO)", _correct, claims=False),
    rule("this, not that", f"[IT THE] IS {AMOUNT} COMMA? NEG {AMOUNT}", _correct, claims=False),
)
