"""A day ahead that is offered without a word for moving: `so tomorrow please`, `would friday 7pm suit?`."""

from collections.abc import Iterator
from re import Match

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.moves import TIMES, target
from bot.reading.tags import Item, Tag, pattern

_TIME = "(?:AT|IN|ON|ABOUT)* (?:CLOCK|CLOCKISH|PARTDAY|NUM)? (?:IN|ON)? (?:PARTDAY)?"
_BARE = pattern(
    f"^(?:FILL|COMMA)* (?:ON|AT|FOR)? DATE {_TIME} (?:FILL|COMMA|STOP|ASK|PARTDAY)* (?:COMMA [THE IT]? WORD{{1,2}})? $"
)
_ASKED = pattern(
    f"^(?:FILL|COMMA)* [PLAN IS WORD] DATE {_TIME} (?:IS)? (?:WELL|WORD|INSTEAD|MOVE) "
    "(?:FOR (?:THE|ONE|IT|SELF|FILL|SESSION)+)? (?:FILL|ASK|STOP)* $"
)
_ASKING = frozenset({"would", "could", "does", "can", "is", "will", "might"})
_SUITING = listed("off", "suits")
_EDGE = "(?:^|[STOP COMMA ASK BUT BECAUSE AND DASH])"
_WISHED = pattern(f"{_EDGE} (?:FILL|ABOUT|OR)* (?:ON|AT|FOR|IN)? DATE {_TIME} (?:FILL)* (?=$|ASK|STOP|COMMA)")
_SETTLED = pattern(f"{_EDGE} (?:FILL|ABOUT|OR)* (?:ON|AT|FOR|IN)? DATE {_TIME} IT? [PLAN IS WORD FILL DONE]{{1,4}} END")
_SO_BE_IT = frozenset(
    {("will", "do"), ("would", "do"), ("it", "must", "be"), ("it", "is"), ("it", "is", "then"), ("it", "will", "be"),
     ("it", "will", "have", "to", "be"), ("it", "shall", "be"), ("it", "has", "to", "be"), ("would", "suit"),
     ("suits",), ("will", "suit"), ("will", "work"), ("would", "work"), ("is", "doable"), ("is", "possible"),
     ("will", "do", "me"), ("would", "be", "grand"), ("it", "is", "so")}
)  # fmt: skip
_ONLY_THEN = pattern(f"SELF (?:WORD|PLAN|HAVE)? ONLY (?:ON|AT|FOR|WORD|DONE)? DATE {_TIME} (?=$|STOP|COMMA|BUT)")
_GIVEN = pattern(f"{_EDGE} (?:FILL)* LATER DATE {_TIME} (?:FILL|INSTEAD)* (?=$|ASK|STOP|COMMA)")
"""`rained out, give me saturday`."""
_ELSE = (Key.DID, Key.MISSED, Key.MOVE, Key.OFF, Key.HAVE, Key.LATER_AT, Key.LATER_MIN, Key.WANTS, Key.TALLY)
"""With one of these a day ahead has another meaning, or is told well enough."""


def bare_day(page: Page) -> None:
    """`tomorrow 6am please`: nothing but a day ahead and a time."""
    hit = None if page.found else _BARE.search(page.line)
    value = target(page, _named(page, hit)) if hit else None
    asked = hit is not None and "please" in page.words
    if hit and value is not None and value.on != page.today and (value.at or value.part or asked):
        page.add(Key.MOVE, value, hit.start(), hit.end(), "a day ahead")


def suggested_day(page: Page) -> None:
    """`would tomorrow work?`, `it's lashing, so tomorrow please`, `thursday it is`: a day ahead that is offered."""
    busy = page.has(*_ELSE)
    if page.has(Key.MOVE, Key.OFF, Key.LATER_AT, Key.LATER_MIN):
        return
    for hit in _wished(page) if busy else _offers(page):
        value = target(page, _named(page, hit))
        if value is not None and value.on != page.today and (value.at or value.part or not busy):
            page.add(Key.MOVE, value, hit.start(), hit.end(), "a day offered")
            page.found = [fact for fact in page.found if fact.rule != "no session"]
            return


def _wished(page: Page) -> Iterator[Match[str]]:
    """`so tomorrow please`, `friday 7pm?`"""
    for hit in _WISHED.finditer(page.line):
        wished = "please" in _words(page, hit) or page.line[hit.end() : hit.end() + 1] == Tag.ASK
        if wished and hit.start() > 0:
            yield hit


def _offers(page: Page) -> Iterator[Match[str]]:
    """The stretches that offer a day."""
    asked = None if page.found else _ASKED.search(page.line)
    if asked is not None and _asks_whether(page, asked):
        yield asked
    yield from _wished(page)
    for hit in _SETTLED.finditer(page.line):
        after = page.line.rindex(Tag.DATE, 0, hit.end())
        while page.line[after] in (Tag.DATE, Tag.AT, Tag.IN, Tag.ON, *TIMES, Tag.PARTDAY):
            after += 1
        if tuple(page.words[page.items[after].first : page.items[hit.end() - 1].last + 1]) in _SO_BE_IT:
            yield hit
    yield from _ONLY_THEN.finditer(page.line)
    yield from _GIVEN.finditer(page.line)


def _asks_whether(page: Page, hit: Match[str]) -> bool:
    first = page.first(hit, Tag.PLAN, Tag.IS, Tag.WORD)
    words = {page.words[item.last] for item in page.pick(hit, Tag.WELL, Tag.WORD, Tag.INSTEAD, Tag.MOVE)}
    return first is not None and page.words[first.first] in _ASKING and not words.isdisjoint(_SUITING)


def _named(page: Page, hit: Match[str]) -> list[Item]:
    return list(page.pick(hit, Tag.DATE, Tag.PARTDAY, *TIMES))


def _words(page: Page, hit: Match[str]) -> list[str]:
    return page.words[page.items[hit.start()].first : page.items[hit.end() - 1].last + 1]
