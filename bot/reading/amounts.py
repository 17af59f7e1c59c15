"""Composite items: numbers with units become durations, distances, weights; pairs ratios; the rest times and days.

Each rewrite is a pattern over tags and a function from the matched items to the one that stands for them.
"""

import re
from collections.abc import Callable
from re import Pattern
from typing import NamedTuple

from bot.reading.leads import Led, lead, needs, sure
from bot.reading.lexicon import listed
from bot.reading.tags import Item, Letter, Tag, pattern

KM_PER_MILE = 1.609344  # exact (international mile)
KM_PER_YARD = 0.0009144  # exact (international yard)
KG_PER_POUND = 0.45359237  # exact (international pound)
POUNDS_PER_STONE = 14

_MINUTES = {"min": 1.0, "hour": 60.0, "sec": 1 / 60}
_KM = {"km": 1.0, "mile": KM_PER_MILE, "metre": 0.001, "yard": KM_PER_YARD}
_DAYS = {"day": 1.0, "week": 7.0, "fortnight": 14.0, "month": 30.0}
_KG = {"kg": 1.0, "lb": KG_PER_POUND, "stone": KG_PER_POUND * POUNDS_PER_STONE}
_FAR_METRES = 150
"""From here on "m" after a bare number means metres: nobody says "400m" for minutes of a beginner's walk."""

Build = Callable[[list[Item]], Item | None]


class Rewrite(NamedTuple):
    """A pattern over tags, and the item that stands for what it matched (None: leave it as it is)."""

    pattern: Pattern[str]
    build: Build
    needs: frozenset[Letter]
    lead: frozenset[Letter]


def _rewrite(text: str, build: Build) -> Rewrite:
    needed = needs(text)
    return Rewrite(pattern(text), build, sure(needed), lead(needed))


def _number(items: list[Item]) -> list[float]:
    return [each.n for each in items if each.tag in (Tag.NUM, Tag.ONE, Tag.HALF)]


def _over(items: list[Item], tag: Letter, n: float, m: float = 0.0, value: str = "") -> Item:
    return Item(tag, value, items[0].first, items[-1].last, n, m)


def _mixed(items: list[Item]) -> Item:
    """`two and a half`, `2 1/2` (written as a number and a fraction)."""
    return _over(items, Tag.NUM, items[0].n + items[-1].n)


def _range(items: list[Item]) -> Item | None:
    """`10-12`, `10 to 12`, `10 or 12`: the middle. Falling pairs are no range."""
    low, high = items[0].n, items[-1].n
    if not low < high or high > 2.5 * low + 10:
        return None
    return _over(items, Tag.NUM, (low + high) / 2, value="range")


def _ish(items: list[Item]) -> Item:
    return _over(items, Tag.NUM, items[0].n, value="ish")


def _measure(items: list[Item]) -> Item | None:
    """A number and its unit."""
    unit = next(each.value for each in items if each.tag is Tag.UNIT)
    n = _number(items)[0]
    if unit == "m":
        return _over(items, Tag.DIST, n / 1000) if n >= _FAR_METRES else _over(items, Tag.DUR, n, value="m")
    if unit in _MINUTES:
        return _over(items, Tag.DUR, n * _MINUTES[unit])
    if unit in _KM:
        return _over(items, Tag.DIST, n * _KM[unit], _KM[unit])
    if unit in _DAYS:
        return _over(items, Tag.DAYS, n * _DAYS[unit])
    return _over(items, Tag.MASS, n * _KG[unit], value=unit)


def _hour_and(items: list[Item]) -> Item | None:
    """`1 hour 20`, `1h 20 min`, `an hour and 10`, `2 hours and a half`."""
    if items[0].tag is Tag.DUR:
        if items[0].n % 60 or not items[0].n:
            return None
        hours = items[0].n
    else:
        hours = items[0].n * 60
    rest = items[-2] if items[-1].tag is Tag.UNIT else items[-1]
    extra = rest.n * 60 if rest.tag is Tag.MORE else rest.n
    return _over(items, Tag.DUR, hours + extra) if extra < 60 else None


def _min_sec(items: list[Item]) -> Item | None:
    """`32 min 10 sec`, `1 min 30`."""
    units = [each.value for each in items if each.tag is Tag.UNIT]
    n = _number(items)
    if (
        units[0] not in ("min", "m")
        or n[1] >= 60
        or units[1:] not in ([], ["sec"])
        or (len(units) == 1 and len(items) > 3)
    ):
        return None
    return _over(items, Tag.DUR, n[0] + n[1] / 60)


def _two_durations(items: list[Item]) -> Item | None:
    """`1 hour and 20 minutes`, `2 minutes 30 seconds`: a whole and a smaller part of it."""
    big, small = items[0].n, items[-1].n
    whole = big % 60 == 0 and small < 60 and small >= 1 and big >= 60
    return _over(items, Tag.DUR, big + small) if whole or (small < 1 <= big and big < 60) else None


def _stone(items: list[Item]) -> Item | None:
    """`12st 4`, `12 stone 4 lb`, `12 and a half stone`."""
    numbers = _number(items)
    if len(numbers) < 2:
        return None
    units = [each.value for each in items if each.tag is Tag.UNIT]
    if units[0] != "stone" or numbers[1] >= POUNDS_PER_STONE or (len(units) > 1 and units[1] != "lb"):
        return None
    return _over(items, Tag.MASS, (numbers[0] * POUNDS_PER_STONE + numbers[1]) * KG_PER_POUND, value="stone")


def _stone_first(items: list[Item]) -> Item | None:
    """`21st 3`: stones that look like a day of the month."""
    unit = items[2].value if len(items) > 2 else "lb"
    if not items[0].value.endswith("1st") or items[0].n < 21 or items[1].n >= POUNDS_PER_STONE or unit != "lb":
        return None
    return _over(items, Tag.MASS, (items[0].n * POUNDS_PER_STONE + items[1].n) * KG_PER_POUND, value="stone")


def _stone_half(items: list[Item]) -> Item | None:
    if items[1].value != "stone":
        return None
    return _over(items, Tag.MASS, (items[0].n + items[2].n) * POUNDS_PER_STONE * KG_PER_POUND, value="stone")


def _ratio(items: list[Item]) -> Item | None:
    """`15 of 25`, `22 min out of the 30`, `6/10`."""
    pair = [each for each in items if each.tag in (Tag.NUM, Tag.DUR)]
    if len(pair) != 2 or pair[1].n <= 0:
        return None
    return _over(items, Tag.RATIO, pair[0].n, pair[1].n)


def _hour_minutes(items: list[Item]) -> Item | None:
    """`an hour and ten`: minutes after whole hours, in steps of five as people say them."""
    hours, rest = items[0].n, items[-1].n
    if hours % 60 or not hours or not 5 <= rest <= 55 or rest % 5:
        return None
    return _over(items, Tag.DUR, hours + rest)


def _between(items: list[Item]) -> Item | None:
    """`between 5 and 6`: the middle."""
    if items[0].value != "between" or items[1].n >= items[3].n:
        return None
    return _over(items, Tag.NUM, (items[1].n + items[3].n) / 2)


def _colon(items: list[Item]) -> Item | None:
    """`32:10` as minutes and seconds, `1:05:00` and `1:10 h` as hours and minutes."""
    parts = [int(part) for part in items[0].value.split(":")]
    hours = len(items) > 1 and items[-1].value == "hour"
    if len(items) > 1 and not hours and items[-1].value != "min":
        return None
    return _over(items, Tag.DUR, colon_minutes(parts, hours))


def colon_minutes(parts: list[int], hours: bool = False) -> float:
    """Minutes of `h:mm:ss`, of `mm:ss`, or of `h:mm` if *hours*."""
    if len(parts) == 3:
        return parts[0] * 60 + parts[1] + parts[2] / 60
    return parts[0] * 60 + parts[1] if hours else parts[0] + parts[1] / 60


def _clock(items: list[Item]) -> Item | None:
    """A time with am or pm: minutes from midnight, sure."""
    half_day = next(each.value for each in items if each.tag is Tag.AMPM)
    start = items[0]
    if start.tag is Tag.NUM and start.n >= 100 and len(items) == 2:
        start = start._replace(n=start.n / 100)
    if start.tag is Tag.CLOCKISH:
        hour, minute = (int(part) for part in start.value.split(":")[:2])
    else:
        hour, minute = int(start.n), round(start.n % 1 * 100)
        if len(items) > 2 and items[1].tag is Tag.NUM:
            minute = int(items[1].n)
    if hour > 24 or minute > 59:
        return None
    if hour < 13:
        hour = hour % 12 + (12 if half_day == "pm" else 0)
    return _over(items, Tag.CLOCK, hour % 24 * 60 + minute, 1)


def _past(items: list[Item]) -> Item | None:
    """`half past 7`, `quarter to 6`, `20 past 5`, `half 5`: minutes from midnight, morning or evening not said."""
    hour = items[-1].n
    if not 1 <= hour <= 12 or hour % 1:
        return None
    shift = next((each.n for each in items if each.tag is Tag.PAST), 30.0)
    if not shift:
        return None
    return _over(items, Tag.CLOCK, (hour % 12) * 60 + shift)


def _minutes_past(items: list[Item]) -> Item | None:
    """`ten to seven`, `20 past 5`: minutes from midnight, morning or evening not said."""
    minutes, hour = items[0].n, items[-1].n
    if minutes not in (5, 10, 20, 25) or not 1 <= hour <= 12 or items[1].n:
        return None
    sign = -1 if items[1].tag is Tag.TO else 1
    return _over(items, Tag.CLOCK, (hour % 12) * 60 + sign * minutes)


def _minute_number(items: list[Item]) -> Item | None:
    """`at minute 9`: nine minutes in; `quit at mile 3`."""
    if items[0].value in ("mile", "km"):
        return _over(items, Tag.DIST, items[1].n * _KM[items[0].value], _KM[items[0].value])
    return _over(items, Tag.DUR, items[1].n) if items[0].value == "min" else None


def _minute_of(items: list[Item]) -> Item | None:
    """`reached minute 19 of 30`."""
    return _over(items, Tag.RATIO, items[1].n, items[1].m) if items[0].value == "min" else None


def _ratio_of_one(items: list[Item]) -> Item:
    """`completed one of four`."""
    return _over(items, Tag.RATIO, 1.0, items[2].n)


_RANKS = {"first": 1, "second": 2, "sec": 2, "third": 3}


def _rank(items: list[Item]) -> Item | None:
    """`from the third to the ninth`: a day of the month that elsewhere is a rank or a share."""
    day = _RANKS.get(items[-1].value)
    return _over(items, Tag.DATE, 0, 0, f"0-{day}") if day else None


def _and_a_bit(items: list[Item]) -> Item | None:
    """`2 kilometres and a half`, `8 minutes and a half`."""
    if items[1].value not in ("km", "mile", "min"):
        return None
    return _measure([items[0]._replace(n=items[0].n + items[2].n), items[1]])


_DAY_AND_MONTH = re.compile(r"(\d{1,2})\.(\d{1,2})")


def _dotted(items: list[Item]) -> Item | None:
    """`from 14.02. to 21.02.`: day and month, as written in much of Europe."""
    hit = _DAY_AND_MONTH.fullmatch(items[0].value)
    if hit is None or not (1 <= int(hit[1]) <= 31 and 1 <= int(hit[2]) <= 12):
        return None
    return _over(items, Tag.DATE, 0, 0, f"{int(hit[2])}-{int(hit[1])}")


def _oclock(items: list[Item]) -> Item | None:
    hour = items[0].n
    return _over(items, Tag.CLOCK, hour * 60, float(hour > 12)) if hour <= 24 else None


def _month_day(items: list[Item]) -> Item | None:
    """`2nd of Jan`, `Jan 2`, `2 January`, `the second of January`: a fixed day of the year."""
    month = next(each.n for each in items if each.tag is Tag.MONTH)
    day = next(each.n for each in items if each.tag in (Tag.ORDINAL, Tag.NUM))
    return _over(items, Tag.DATE, 0, 0, f"{month:.0f}-{day:.0f}") if 1 <= day <= 31 else None


def _second_of(items: list[Item]) -> Item | None:
    """`to the second of July`: a day that elsewhere is a unit."""
    return _over(items, Tag.DATE, 0, 0, f"{items[-1].n:.0f}-2") if items[0].value == "sec" else None


def _day_of_month(items: list[Item]) -> Item:
    return _over(items, Tag.DATE, 0, 0, f"0-{items[-1].n:.0f}")


def _iso(items: list[Item]) -> Item | None:
    year, month, day = (int(each.n) for each in items if each.tag is Tag.NUM)
    if not (2000 < year < 2100 and 1 <= month <= 12 and 1 <= day <= 31):
        return None
    return _over(items, Tag.DATE, year, 0, f"{month}-{day}")


def _days_ago(items: list[Item]) -> Item | None:
    if items[-1].value and items[-1].value != "ago":
        return None
    return _over(items, Tag.DATE, 0, 0, f"-{items[0].n:.0f}") if items[0].n <= 60 else None


def _hour_unit(items: list[Item]) -> Item | None:
    """`1 hour 20`, `1 hr and a half`: only when the first unit is an hour and the second, if said, minutes."""
    units = [each.value for each in items if each.tag is Tag.UNIT]
    if units[0] != "hour" or (len(units) > 1 and units[1] not in ("min", "m")):
        return None
    return _hour_and([each for each in items if each.tag not in (Tag.AND, Tag.DASH)])


def _hour_of_day(items: list[Item]) -> Item | None:
    """`at 17h`, `at 19.15 hours`, `at 1900 hrs`: as the clock has it in much of Europe."""
    hour, minute = divmod(items[0].n, 1)
    minute = round(minute * 100)
    if hour >= 100 and not minute:
        hour, minute = divmod(hour, 100)
    if items[-1].value != "hour" or not 6 <= hour <= 23 or minute >= 60 or (minute and minute % 5):
        return None
    return _over(items, Tag.CLOCK, hour * 60 + minute, 1.0)


def _hours_of_the_clock(items: list[Item]) -> Item | None:
    """`reminder, 1900 hrs`: hours and minutes in four digits, which count nothing."""
    return _hour_of_day(items) if items[0].n >= 100 else None


_DESCRIBED = listed("counted", "described")


def _described(items: list[Item]) -> Item | None:
    """`two solid hours`."""
    return (
        _measure([items[0], items[2]]) if items[1].tag in (Tag.WELL, Tag.MOOD) or items[1].value in _DESCRIBED else None
    )


def _laps(items: list[Item]) -> Item | None:
    """`4 laps of 400 m`, `800 metres four times`."""
    count = next(each.n for each in items if each.tag in (Tag.NUM, Tag.ONE))
    length = next(each.n for each in items if each.tag is Tag.DIST)
    return _over(items, Tag.DIST, count * length) if count == int(count) and count <= MOST_LAPS else None


MOST_LAPS = 200


def _lengths(items: list[Item]) -> Item | None:
    """`24 lengths of 25m`: of a pool or a track these are metres."""
    if items[1].value != "way" or items[-1].value != "m":
        return None
    return _laps([items[0], items[-1]._replace(tag=Tag.DIST, n=items[-1].n / 1000)])


def _both(items: list[Item]) -> Item | None:
    """`both 20 min halves`."""
    return _over(items, Tag.DUR, 2 * items[1].n) if items[0].value == "both" else None


def _times_over(items: list[Item]) -> Item | None:
    """`to work and home, 2 x 18 minutes`."""
    few = items[0].n == int(items[0].n) and items[0].n <= MOST_TIMES
    return _over(items, Tag.DUR, items[0].n * items[2].n) if few else None


MOST_TIMES = 10


def _half_a(items: list[Item]) -> Item | None:
    """`a mile of walking and half a mile of jogging`: not one and a half."""
    return _over(items, items[1].tag, items[1].n / 2) if items[0].n == 1 / 2 else None


def _quarter_of(items: list[Item]) -> Item | None:
    """`walking and a quarter of an hour on the bike`."""
    return _over(items, Tag.DUR, items[0].n * items[2].n) if items[2].n == 60 else None


FIRST_YEAR, LAST_YEAR = 1930, 2024
"""Years that somebody may tell of and that are long over."""


def _year(items: list[Item]) -> Item | None:
    """`in 1974`, `in spring of 2019`."""
    year = items[-1].n
    return _over(items, Tag.LONG_AGO, year) if year % 1 == 0 and FIRST_YEAR <= year <= LAST_YEAR else None


def _weekday_and_day(items: list[Item]) -> Item | None:
    """`friday 13th`: one day, named twice."""
    day = items[-1]
    named = items[0].value.isalpha() and "-" in day.value and day.value[0].isdigit()
    return _over(items, Tag.DATE, day.n, value=day.value) if named else None


def _there_and_back(items: list[Item]) -> Item | None:
    """`20 there and 25 back`, `1.2 miles out and 1.2 back`: the whole way, in the unit of the way there."""
    there, back = items[0], next(item for item in items[2:] if item.tag in (Tag.NUM, Tag.DUR, Tag.DIST))
    if items[1].value not in ("", "there") or (back.tag is not there.tag and back.tag is not Tag.NUM):
        return None
    scale = there.m if back.tag is Tag.NUM and there.tag is Tag.DIST else 1.0
    if back.tag is Tag.NUM and there.tag is Tag.DUR and there.n % 60 == 0:
        scale = 60.0
    return _over(items, there.tag, there.n + back.n * scale) if scale else None


def _less(items: list[Item]) -> Item | None:
    """`an hour less ten minutes`."""
    less = items[1].value in ("less", "minus") and items[0].n > items[2].n
    return _over(items, Tag.DUR, items[0].n - items[2].n) if less else None


def _short_of(items: list[Item]) -> Item | None:
    """`stopped 5 min short of the 30`: 25."""
    short = items[1].value == "short" and items[0].n < items[-1].n
    return _over(items, Tag.DUR, items[-1].n - items[0].n) if short else None


def _sum_of(items: list[Item]) -> Item:
    """`5 + 5 + 5 mins walking`."""
    return _over(items, Tag.DUR, sum(item.n for item in items if item.tag in (Tag.NUM, Tag.DUR)))


def _hour_and_minutes(items: list[Item]) -> Item | None:
    """`hour and 20`: nobody says one."""
    rest = items[2].n
    return _over(items, Tag.DUR, 60 + rest) if items[0].value == "hour" and 5 <= rest < 60 else None


_N = "[NUM ONE]"
REWRITES = tuple(
    _rewrite(text, build)
    for text, build in (
        ("(?<!THE)(?<!UNTIL)ORDINAL NUM(?: UNIT)?", _stone_first),
        ("NUM DASH NUM DASH NUM", _iso),
        ("(?<=[FROM TO UNTIL ON THROUGH])NUM STOP", _dotted),
        ("[ORDINAL NUM] OF? MONTH", _month_day),
        ("MONTH THE? [ORDINAL NUM]", _month_day),
        ("UNIT OF? MONTH", _second_of),
        ("THE? ORDINAL", _day_of_month),
        ("(?<=[FROM UNTIL THROUGH]) [WORD UNIT] (?=[TO DASH UNTIL THROUGH] THE? (?:DATE|ORDINAL))", _rank),
        ("(?<=[FROM UNTIL THROUGH]) WORD (?=[TO DASH UNTIL THROUGH])", _rank),
        ("(?<=ABOUT)THE? WORD(?=AND THE? DATE)", _rank),
        ("(?<=RETURN)THE NUM(?=$|STOP|COMMA|FILL)", _day_of_month),
        ("DATE ON? DATE", _weekday_and_day),
        ("MORE [DIST DUR]", _half_a),
        ("MORE OF DUR", _quarter_of),
        ("IN (?:THE? WORD|MONTH)? OF? NUM (?!UNIT)", _year),
        (f"{_N} UNIT MORE", _stone_half),
        (f"{_N} UNIT MORE", _and_a_bit),
        (f"{_N} MORE", _mixed),
        (f"{_N} UNIT (?:AND|COMMA)? NUM UNIT?(?!THE? NUM)", _stone),
        ("(?<=AT)NUM (?:TO|PAST|AFTER) [NUM ONE](?!UNIT)", _minutes_past),
        ("NUM PAST [NUM ONE](?!UNIT)", _minutes_past),
        (f"ABOUT {_N} AND NUM", _between),
        (f"{_N} (?:DASH|TO|OR) NUM (?!OF|SLASH)", _range),
        ("NUM DASH? ISH", _ish),
        (f"{_N} UNIT AND? NUM UNIT?", _hour_unit),
        (f"{_N} UNIT AND? NUM UNIT", _min_sec),
        (f"{_N} UNIT NUM(?=$|STOP|COMMA|ON THE|TO ACT|AND THE)", _min_sec),
        (f"(?<!ACT){_N} UNIT NUM(?=ACT(?:$|STOP|COMMA|WORD|FILL))", _min_sec),
        (f"{_N} DASH? UNIT MORE", _hour_unit),
        (f"{_N} UNIT MORE", _hour_unit),
        ("[NUM CLOCKISH] NUM? AMPM", _clock),
        ("CLOCKISH UNIT", _colon),
        ("(?<=AT)NUM UNIT(?!NUM)", _hour_of_day),
        ("NUM UNIT(?!NUM)", _hours_of_the_clock),
        ("(?:^|(?<=[COMMA STOP DONE FOR ABOUT THE])) UNIT AND NUM (?:UNIT)?", _hour_and_minutes),
        (f"{_N} [WORD FILL MOOD EFFORT ABOUT WELL] UNIT", _described),
        (f"{_N} DASH? UNIT", _measure),
        (
            "[NUM ONE] TIMES (?:OF|THE|FOR|BY)* DIST (?!OF? ACT [WITH AND COMMA SLASH THEN BUT] (?:THE|FILL)* DIST)",
            _laps,
        ),
        ("(?<![WITH AND COMMA SLASH THEN])DIST [NUM ONE] TIMES", _laps),
        ("NUM TIMES DUR", _lengths),
        ("(?<!ACT)NUM TIMES DUR(?=$|STOP|COMMA(?!EACH))", _times_over),
        ("SIDE DUR(?=WORD)", _both),
        ("DUR AND? DUR", _two_durations),
        ("[NUM DUR DIST] [WORD OFF] [AND COMMA THEN BUT]? [NUM DUR DIST] [BACK RETURN]", _there_and_back),
        ("DUR AND? MORE", _hour_and),
        ("DUR [CHANGE WORD SKY] DUR", _less),
        ("[NUM DUR] INTENDED THE? [NUM DUR]", _short_of),
        ("NUM AND NUM AND [NUM DUR] (?=[OF]? ACT)", _sum_of),
        ("[NUM DUR] (?:DONE? OF (?:THE? | THE [WORD INTENDED]) | SLASH) [NUM DUR]", _ratio),
        ("[NUM DUR] FROM (?:THE)? [NUM DUR] (?=$|STOP|COMMA|AND|BUT|DONE|FILL)", _ratio),
        ("(?<=[AT TO STOPPED UNTIL IN AFTER FROM BY])UNIT NUM", _minute_number),
        ("UNIT RATIO", _minute_of),
        ("ONE OF NUM(?=$|STOP|COMMA|DONE)", _ratio_of_one),
        ("PAST [NUM ONE]", _past),
        ("(?<=[AT TO UNTIL BY])HALF [NUM ONE](?!UNIT)", _past),
        ("(?<![NUM ONE DUR DIST DONE])HALF [NUM ONE](?=PARTDAY|INSTEAD|DATE)", _past),
        ("(?<=MOVE)HALF [NUM ONE](?!UNIT)", _past),
        ("DUR NUM(?=$|STOP|COMMA|WORD|FILL|ON THE|ACT|WITH)", _hour_minutes),
        ("DUR AND NUM(?=$|THE|WORD|STOP|COMMA|OF|ACT|FILL|ON|WITH|IN|AT)", _hour_minutes),
        ("[NUM ONE] OCLOCK", _oclock),
        ("DAYS AGO", _days_ago),
    )
)


_SHARED = pattern("[NUM DATE] (?:TO|DASH|UNTIL|THROUGH|AND) DATE")


def _share_month(items: list[Item], line: str) -> None:
    """`12 to 19 August`, `3rd to 10th of May`: the first day is of the same month."""
    for hit in _SHARED.finditer(line):
        first, last = items[hit.start()], items[hit.end() - 1]
        month, _, end = last.value.partition("-")
        day = first.n if first.tag is Tag.NUM else float(first.value[2:]) if first.value.startswith("0-") else 0.0
        if month.isdigit() and month != "0" and 1 <= day < float(end):
            items[hit.start()] = Item(Tag.DATE, f"{month}-{day:.0f}", first.first, first.last)


_COUNTED = frozenset({Tag.NUM, Tag.ONE, Tag.DUR, Tag.DAYS, Tag.CLOCKISH, Tag.ORDINAL, Tag.MONTH, Tag.PAST, Tag.DIST})


_LED = Led(rewrite.lead for rewrite in REWRITES)


def _built(rewrite: Rewrite, line: str, items: list[Item]) -> list[tuple[int, int, Item]]:
    """What *rewrite* makes of *line*: from where to where, and the item. What it leaves as it is may begin a later
    one: "20 min, 12 st 4" is no time, but its end is a weight."""
    found: list[tuple[int, int, Item]] = []
    hit = rewrite.pattern.search(line)
    while hit:
        built = rewrite.build(items[hit.start() : hit.end()])
        if built is not None:
            found.append((hit.start(), hit.end(), built))
        hit = rewrite.pattern.search(line, hit.start() + 1 if built is None else max(hit.end(), hit.start() + 1))
    return found


def compose(items: list[Item]) -> list[Item]:
    """*items* with amounts, times and dates put together."""
    line = "".join([item.tag for item in items])
    there = set(line)
    if not there & _COUNTED:
        return items
    due = _LED.due(there)[::-1]
    while due:
        place = due.pop()
        rewrite = REWRITES[place]
        if not rewrite.needs <= there:
            continue
        for start, end, built in reversed(_built(rewrite, line, items)):
            items[start:end] = [built]
            line = line[:start] + built.tag + line[end:]
            if built.tag not in there:
                there.add(built.tag)
                due = sorted({*due, *[later for later in _LED.due(built.tag) if later > place]}, reverse=True)
    if Tag.DATE in there:
        _share_month(items, line)
    return items
