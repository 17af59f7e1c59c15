"""How many sessions somebody has done, for a challenge or of a week."""

from collections.abc import Iterable
from re import Match

from bot.reading.facts import Asked, Tally
from bot.reading.lexicon import listed
from bot.reading.page import Finding, Key, Page, rule
from bot.reading.tags import Item, Tag

MOST_SESSIONS = 31
"""A tally above this is no count of sessions."""


def _minutes_said(page: Page, count: Item) -> bool:
    """`21 minutes of the 25`: not sessions."""
    told = set(page.words[count.first : count.last + 1])
    return bool(told & {"minutes", "minute"}) or (count.tag is Tag.RATIO and 14 < count.m == page.planned_min)


def _tally(page: Page, hit: Match[str]) -> Iterable[Finding]:
    count = page.first(hit, Tag.RATIO, Tag.NUM, Tag.ONE)
    if count is None or _minutes_said(page, count) or _count_of_things(page, hit) or _of_a_match(page, hit.start()):
        return
    if count.n % 1 or count.n > MOST_SESSIONS or count.m > MOST_SESSIONS:
        return
    if page.asked is Asked.SURE and count.m == 10:
        return
    if count.tag is Tag.RATIO and count.m % 1 == 0 and count.n <= count.m:
        yield Key.TALLY, Tally(int(count.n), int(count.m))
    elif count.tag is not Tag.RATIO:
        yield Key.TALLY, Tally(int(count.n))


def _few_of_few(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`2 of 4`: too few for minutes; "3/4" is a share."""
    count = page.first(hit, Tag.RATIO)
    if count is None or page.asked is not None or "of" not in page.words[count.first : count.last + 1]:
        return
    if count.m <= MOST_A_WEEK and count.m != page.planned_min:
        yield from _tally(page, hit)


def _count_of_things(page: Page, hit: Match[str]) -> bool:
    """`heron count 3`: a count of what stands before it, unless that is a group."""
    first = page.items[hit.start()].first
    if page.words[first] not in ("count", "tally", "score") or page.line[hit.start() - 1 : hit.start()] != Tag.WORD:
        return False
    return page.words[first - 1] not in _GROUPS


_GROUPS = listed("counted", "groups")
_TEAMS = listed("counted", "teams")


def _of_a_match(page: Page, start: int) -> bool:
    """`our cricket lot lost 3 of 5 this month`: games, no sessions."""
    return page.words[max(0, page.items[start].first - 1)] in ("lost", "won", "drew", "drawn", "scored")


def _of_the_group(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`our group: I have completed 2 out of 3`."""
    count = page.first(hit, Tag.RATIO)
    if count is not None and not _TEAMS.isdisjoint(page.words[: count.first]):
        yield from _tally(page, hit)


def _of_a_group(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`tell the team I've ticked off 5 of 6`: too few for minutes, in a reply that speaks of a group."""
    count = page.first(hit, Tag.RATIO)
    if count is None or _TEAMS.isdisjoint(page.words) or _OUT_OF.isdisjoint(page.words[count.first : count.last + 1]):
        return
    things = page.line[hit.end() : hit.end() + 1] == Tag.WORD and page.words[count.last + 1].endswith("s")
    rated = count.m == 10 and Tag.PART in page.there
    most = MOST_SESSIONS if Tag.CHALLENGE in page.there or "challenge" in page.words else MOST_OF_A_FORTNIGHT
    if count.m <= most and count.m != page.planned_min and not things and not rated:
        yield from _tally(page, hit)


_OUT_OF = frozenset({"of", "from"})
MOST_OF_A_FORTNIGHT = 14


def _told_once(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`on 4 now for the league, 30 done`: a second number is none, once a count is told."""
    if not page.has(Key.TALLY):
        yield from _tally(page, hit)


def _count_and_goal(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`five sessions done out of six`."""
    done, goal = [int(item.n) for item in page.pick(hit, Tag.NUM, Tag.ONE)][:2]
    if done <= goal <= MOST_SESSIONS:
        yield Key.TALLY, Tally(done, goal)


def _down(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`2 down, 2 to go`."""
    numbers = [int(item.n) for item in page.pick(hit, Tag.NUM, Tag.ONE)]
    said, *_, left = [page.words[item.last] for item in page.pick(hit, Tag.CHANGE, Tag.DONE, Tag.AGO)]
    most = MOST_A_WEEK if said == "done" else MOST_SESSIONS
    if said in ("down", "done") and left in ("go", "left") and sum(numbers) <= most:
        yield Key.TALLY, Tally(numbers[0], sum(numbers))


MOST_A_WEEK = 7


def _week_count(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`4 this week`: sessions, as no week has room for more than seven."""
    count, week = page.first(hit, Tag.NUM, Tag.ONE), page.first(hit, Tag.SPAN)
    if count is not None and week is not None and week.value == "this_week" and count.n <= MOST_A_WEEK:
        yield from _tally(page, hit)


def _nth(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.NTH)
    if word is not None:
        yield Key.TALLY, Tally(int(word.n))


def _nth_day(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`that's my 3rd this week`: an ordinal that looks like a day of the month."""
    day = page.first(hit, Tag.DATE)
    if day is not None and day.value.startswith("0-"):
        yield Key.TALLY, Tally(int(day.value[2:]))


TALLIES = (
    rule("count and goal", "[NUM ONE] [SESSION CHALLENGE] (?:DONE|FILL)* [OF FROM] (?:THE)? NUM", _count_and_goal),
    rule("so many for so many", "NUM FOR NUM (?=SPAN|CHALLENGE)", _count_and_goal),
    rule("so many for so many", "(?:^|(?<=[TALLY SELF STOP])) NUM FOR NUM (?=END)", _count_and_goal),
    rule("done and to go", "[NUM ONE] [CHANGE DONE] (?:COMMA|AND|FILL|BUT)* [NUM ONE] CHANGE? AGO", _down),
    rule("session of the goal", "SESSION (?:ON|FILL)? RATIO (?:DONE|CHALLENGE|SPAN)*", _tally),
    rule(
        "count made",
        "(?:TALLY (?:FILL|ABOUT|AT|SESSION){0,2} [NUM ONE] (?:DONE|SESSION|CHALLENGE|SPAN|FILL|CHANGE|END)"
        "|(?:HAVE|ON|DONE|AT) (?:FILL|ABOUT|AT){0,2} [NUM ONE] SESSION)",
        _tally,
    ),
    rule("count by ordinal", "(?:TALLY|DONE|IS)? (?:FILL)? NTH (?:FILL){0,2} (?:[DONE SPAN CHALLENGE]|(?=END))", _nth),
    rule("count by ordinal", "TALLY (?:FILL)? NTH", _nth),
    rule("count by ordinal", "TALLY THE? DATE (?:SESSION|ONE|FILL|DONE)? (?:SPAN|CHALLENGE)", _nth_day),
    rule("part of the goal", "TALLY (?:FILL|ABOUT|ON|AT|SELF|COLON|DASH){0,2} RATIO CHALLENGE?", _tally),
    rule(
        "part of the goal",
        "RATIO (?:FILL|DONE|SESSION|AND|FOR|THE){0,4} (?:CHALLENGE|SPAN|SESSION|WORD IS? CHALLENGE)",
        _tally,
    ),
    rule(
        "so many of so many", "^(?:FILL|COMMA)* RATIO (?:DONE|FILL|STOP|COMMA)* (?=MOOD? (?:FILL|STOP)* $)", _few_of_few
    ),
    rule("so many of so many", "(?<=STOP) (?:FILL|COMMA)* RATIO (?:FILL|STOP)* (?=MOOD (?:FILL|STOP)* $)", _few_of_few),
    rule("so many of so many", "(?<=STOP) (?:FILL|COMMA)* RATIO FILL (?:STOP)* $", _few_of_few),
    rule("so many of so many", "SELF (?:FILL)* [HAVE GOT] (?:FILL)* RATIO (?=END)", _few_of_few),
    rule("so many of so many", "(?<!DONE)RATIO DONE (?=END)", _few_of_few),
    rule("so many of so many", "BECAUSE (?:FILL|THE|IS|IT)* RATIO (?:FILL)* END", _few_of_few),
    rule(
        "count so far",
        "TALLY (?:CHALLENGE|FILL)? (?:IS|COLON|CHANGE|TO|AT|FILL){1,4} [NUM ONE] (?=END|AND|CHALLENGE|SPAN)",
        _tally,
    ),
    rule("so many from me", "(?:^|(?<=[STOP COMMA])) (?:FILL|TALLY)* RATIO FROM SELF", _tally),
    rule("count of the group", "RATIO", _of_a_group),
    rule("count by ordinal", "DATE ONE (?=DONE|SPAN|CHALLENGE)", _nth_day),
    rule("part of the week", "SPAN (?:SELF|HAVE|DONE|IS|FILL|COLON){1,4} RATIO (?=END|FILL|CHALLENGE)", _tally),
    rule("count of the week", "(?<!UNIT)(?:^|(?<=[COMMA STOP DONE])) [NUM ONE] SPAN", _week_count),
    rule("count for the challenge", "DONE? [NUM ONE] (?:FILL|DONE|SESSION|IN){0,2} CHALLENGE", _tally),
    rule(
        "challenge then count",
        "CHALLENGE (?:TALLY|COLON|SELF|HAVE|DASH|IS|AT|DONE|COMMA|FILL|WORD|FROM|FOR|THE){0,6} "
        "(?:RATIO DONE?|[NUM ONE] IS? (?:DONE|FILL?(?=END)))",
        _told_once,
    ),
    rule(
        "of the group", "(?:COLON|COMMA|DASH|IN|FOR) (?:SELF|HAVE|IS|DONE|FILL)* RATIO (?=END|DONE|FILL)", _of_the_group
    ),
)
