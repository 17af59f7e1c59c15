"""The session is to be on another day or time."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, timedelta
from re import Match

from bot.reading.facts import MoveTo, PartOfDay
from bot.reading.page import Key, Page
from bot.reading.rules.clauses import sentences
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import active_time, coming_day, next_time, part_of

TIMES = (Tag.CLOCK, Tag.CLOCKISH, Tag.NUM, Tag.ONE)


_MOVE_CUE = pattern("[MOVE INSTEAD]")


_OTHERS_MOVE = pattern("(?:OTHER|THE CLOCKISH [GOT IS]) MOVE $")
"""`the plumber postponed to Friday`."""
_DAY = pattern(
    "(?:DATE|PARTDAY|CLOCK|CLOCKISH|(?<=AT)[NUM ONE]|NUM(?=DATE|PARTDAY|INSTEAD)|(?<=DATE)NUM|(?<=PARTDAY)NUM)"
)


def move(page: Page) -> None:
    """The session is to be on another day or time: a cue and a day ahead in one sentence."""
    for start, end in sentences(page.line):
        piece = page.line[start:end]
        cue = _MOVE_CUE.search(piece)
        hits = [
            start + hit.start()
            for hit in _DAY.finditer(piece)
            if piece[max(0, hit.start() - 1) : hit.start()] not in (Tag.INTENDED, Tag.SINCE)
            and not _told_by_sign(page, start + hit.start())
        ]
        if cue is not None and page.has(Key.SURE) and page.items[start + cue.start()].value == "plan":
            continue
        if cue is not None and _OTHERS_MOVE.search(piece[: cue.end()]) and Tag.SELF not in piece:
            continue
        cue = cue or _asked_over(piece, page.line[end : end + 1])
        if (
            cue is None
            or not hits
            or (cue[0] == Tag.INSTEAD and _told(page, start, end) and not _wished(page, start, end))
        ):
            continue
        if (to := _TO_DAY.search(piece)) is not None:
            day = start + to.end() - 1
            following = next((index for index in hits if index > day and page.line[index] == Tag.DATE), end)
            hits = [index for index in hits if index < following and (index >= day or page.line[index] != Tag.DATE)]
        hits = _asked_for(page, (start, end), start + cue.start(), hits)
        if not hits:
            continue
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
        if Tag.MISS in page.line[first:last] and not first <= cue < last:
            continue
        if _REASON.search(page.line, first, last + 1) and last < cue and any(index > cue - NEAR for index in hits):
            continue
        if ahead or first <= cue < last or _TOLD_BESIDES.isdisjoint(page.line[first:last]):
            kept += own
    return kept


_REASON = pattern("AT [NUM CLOCK CLOCKISH] BECAUSE")
"""`the plumber comes at 2 so tonight instead`: why, not when."""
_TOLD_BESIDES = frozenset({Tag.PART, Tag.SENSE, Tag.EFFORT, Tag.DONE, Tag.ACT, Tag.USED, Tag.HAVE, Tag.REMIND})


def _segments(line: str, start: int, end: int) -> Iterable[tuple[int, int]]:
    for index in range(start, end):
        if line[index] in (Tag.COMMA, Tag.BECAUSE, Tag.AND):
            yield start, index
            start = index + 1
    yield start, end


def _told_by_sign(page: Page, index: int) -> bool:
    """`I'd rather not wake up tomorrow`."""
    item = page.items[index]
    return any(fact.value == "self_harm" and fact.first <= item.first <= fact.last + NEAR for fact in page.found)


NEAR = 2
"""Tokens; a day so soon after a sign is of the sign."""


def _said_with(page: Page, cue: int, hits: list[int]) -> list[int]:
    """Of days and times at *hits* those before the next clause, if they name both: "to 7 tonight, I finish at 6"."""
    end = next((place for place in range(cue + 1, len(page.line)) if page.line[place] in _NEXT_CLAUSE), -1)
    near = [index for index in hits if cue <= index < end]
    tags = {page.line[index] for index in near}
    whole = bool(tags & {Tag.DATE, Tag.PARTDAY}) and len(tags) > 1
    whole = whole or (bool(near) and near[0] <= cue + 2 and page.line[near[0]] in TIMES)
    return near if whole else hits


_TIME_AFTER = pattern(
    "(?:AFTER WORD|PARTDAY|INSTEAD|FILL)* COMMA? (?:FILL|ABOUT|AT|WORD|MAYBE_DAY){1,2} "
    "(?:CLOCK|CLOCKISH|HALF? [NUM ONE]) (?=END)|"
    "(?:FILL|INSTEAD|PARTDAY)* COMMA? (?:CLOCK|CLOCKISH|HALF [NUM ONE]) (?=END)"
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


_NEXT_CLAUSE = frozenset({Tag.COMMA, Tag.BECAUSE, Tag.SELF, Tag.TALLY})


_TO_DAY = pattern("MOVE (?:IT|THE|SESSION|ACT|FILL|DATE)* TO (?:THE)? DATE")


_RATHER = pattern("MISS_IT (?:PARTDAY|FILL)* COMMA? (?:FILL)* DATE (?:PARTDAY|CLOCK|AMPM|FILL)* $")


_OVER_TO = pattern("PLAN (?:FILL|THE)? DATE NEAR{0,4} TO DATE")


def _asked_over(piece: str, mark: str) -> Match[str] | None:
    """`could wednesday's one go to thursday?`, `not going to make it tonight, monday?`"""
    return (_OVER_TO.search(piece) or _RATHER.search(piece)) if mark == Tag.ASK else None


def _part_after(page: Page, end: int) -> PartOfDay | None:
    """The part of the day that the next sentence prefers ("Morning is best")."""
    after = [item for item in page.items[end + 1 : end + 3] if item.tag is not Tag.MASS]
    alone = len(after) == len(page.items[end + 1 : end + 3])
    return next((part_of(item) for item in after if item.tag is Tag.PARTDAY), None) if alone else None


def _wished(page: Page, start: int, end: int) -> bool:
    """`tomorrow morning instead please, did 20 min`: a day ahead right beside the word for it."""
    hit = _INSTEAD_THEN.search(page.line, start, end)
    day = coming_day(page.items[hit.start()], page.today) if hit else None
    return day is not None and day > page.today and "please" in page.words


_INSTEAD_THEN = pattern("DATE (?:PARTDAY|CLOCK|AT|NUM)* INSTEAD")


def _told(page: Page, start: int, end: int) -> bool:
    """Whether the stretch tells of something done, so that "instead" names what it replaced."""
    words = page.words[page.items[start].first : page.items[end - 1].last + 1] if end > start else []
    return not _WENT.isdisjoint(words) or any(
        tag in (Tag.DONE, Tag.STOPPED) or (tag == Tag.ACT and page.words[item.first].endswith(("ed", "ran", "swam")))
        for tag, item in zip(page.line[start:end], page.items[start:end], strict=True)
    )


_WENT = frozenset({"went", "came", "walked", "jogged", "ran", "took"})


def target(page: Page, named: list[Item]) -> MoveTo | None:
    """Where to: the last day ahead that was named, with its time or part of the day."""
    days = [day for item in named if item.tag is Tag.DATE and (day := coming_day(item, page.today)) is not None]
    parts = [item for item in named if item.tag is Tag.PARTDAY]
    parts = [item for item in parts if item.value != "this_morning"] or parts
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
