"""Which amounts may be something done: no heart rates, no counts of people, no time that only passed."""

from collections.abc import Callable

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.bare import may_be_minutes
from bot.reading.rules.clauses import AMOUNTS, Amount, Clause
from bot.reading.rules.passed import PASSED
from bot.reading.tags import Letter, Tag, pattern


def counts(page: Page, clause: Clause, index: int) -> bool:
    """Whether an amount may be something done."""
    amount = Amount.at(page, clause, index)
    for applies, verdict in _BY_TAG[amount.item.tag]:
        if applies(amount):
            return verdict
    return True


def _stuck_at(amount: Amount) -> bool:
    """`stuck on 20`."""
    return amount.before == Tag.STUCK


def _years_ago(amount: Amount) -> bool:
    """`20 years ago`."""
    return amount.next == Tag.LONG_AGO


def _not_all(amount: Amount) -> bool:
    """`could not do the full 25`."""
    page, place = amount.page, amount.place
    if amount.before != Tag.ABOUT or page.words[amount.first - 1] not in ("full", "whole", "entire"):
        return False
    denied = Tag.NEG in page.line[max(amount.clause.start, place - 5) : place]
    return denied and not _DID_ALL.search(amount.behind(3))


def _like_that(amount: Amount) -> bool:
    """`been like that half an hour`, `my heart races, 40 min of this`: how long a sign or complaint lasted."""
    said = amount.said(2)
    lasting = said[:1] == ["like"] and said[-1] in ("it", "that", "this")
    return lasting or (amount.after[:2] == ["of", "this"] and amount.page.has(Key.DANGER))


def _after_a_no(amount: Amount) -> bool:
    """`not 20`, `since 20`, `level 3`, `by 20`."""
    measured = amount.before == Tag.UNIT and amount.item.tag is not Tag.DUR
    return amount.before in _NOT_AFTER or measured or (amount.before == Tag.BY and not amount.clause.acts)


def stopped_there(amount: Amount) -> bool:
    """`dizzy at 11 min, stopped there`: a minute named before a stop without one of its own."""
    page, item, lead = amount.page, amount.item, amount.behind(2)
    if not (lead[-1:] in (Tag.AT, Tag.AFTER) or lead == Tag.AT + Tag.THE or amount.next == Tag.IN):
        return False
    ended = page.has(Key.DANGER) and not _ENDED.isdisjoint(page.words[item.last + 1 : item.last + 1 + ENDED_BY])
    if not (ended or Tag.STOPPED in page.line[amount.place :]):
        return False
    tag = page.line[amount.place]
    return tag == Tag.DUR or (tag == Tag.NUM and item.n <= (page.planned_min or 0))


def _said_done(amount: Amount) -> bool:
    """`sixteen minutes done out of the twenty-eight`: one piece that says so itself."""
    item = amount.item
    return "done" in amount.page.words[item.first : item.last + 1]


def of_a_day(amount: Amount) -> bool:
    """`yesterday's forty minutes`."""
    own = amount.behind(2) == Tag.DATE + Tag.IS and amount.page.line[amount.place] in (Tag.DUR, Tag.NUM)
    return own and amount.said(1) == ["s"]


def is_own(amount: Amount) -> bool:
    """`stood up after my eighteen minutes`, `shivering since my fifteen minutes`: those that were due."""
    minutes = amount.page.line[amount.place] == Tag.DUR
    return minutes and amount.said(2) in (["after", "my"], ["since", "my"])


def _asked_for(amount: Amount) -> bool:
    """`can we make it 20?`: a wish or a question."""
    page, clause = amount.page, amount.clause
    if clause.told or clause.acts or page.there.isdisjoint(_ASKING):
        return False
    line = page.line[clause.start : clause.end]
    return Tag.MOVE in line or any(
        tag == Tag.QUEST and page.words[page.items[i].last] != "which" for i, tag in enumerate(line, clause.start)
    )


def _beside_measured(amount: Amount) -> bool:
    """`hr 150` ("hr" is an hour too), `sugar 9`."""
    clause, page = amount.clause, amount.page
    lead = 0 if _opens_after_comma(amount) else page.items[clause.start].first
    near = page.words[max(lead, amount.first - 5) : amount.first]
    if not _MEASURED.isdisjoint(near):
        return True
    return "hour" in near[-3:] and amount.item.tag is Tag.NUM and amount.item.n >= SLOWEST_FAST


def _opens_after_comma(amount: Amount) -> bool:
    clause = amount.clause
    return clause.joint == Tag.COMMA and amount.place == clause.start and not clause.told


def _of_the_week(amount: Amount) -> bool:
    """`3 of 4 this week`: sessions."""
    return amount.item.m <= MOST_OF_A_WEEK and amount.page.has(Key.TALLY)


def _of_the_heart(amount: Amount) -> bool:
    """`heart going mad at 170`."""
    return amount.item.n >= SLOWEST_FAST and any(fact.value == "heart" for fact in amount.page.found)


def _of_heat(amount: Amount) -> bool:
    """`38 out and I've been sick`."""
    number, clause = amount.item.n, amount.clause
    if number < LEAST_HOT:
        return False
    outside = amount.behind(2) == Tag.IT + Tag.IS or amount.after[:1] in (["out"], ["outside"])
    warm = LEAST_HOT <= number <= MOST_HOT and outside and not clause.told
    warm = warm or (LEAST_HOT_F <= number <= MOST_HOT_F and not clause.told and not clause.acts)
    return warm and any(fact.value == "heat" for fact in amount.page.found)


def _of_a_sign_or_thing(amount: Amount) -> bool:
    """Numbers of a sign itself, steps, degrees, calories."""
    return amount.first in amount.page.signs or not _NOT_MINUTES.isdisjoint(amount.after[:1])


def _of_people(amount: Amount) -> bool:
    """`fourteen of us`."""
    if amount.said(2) == ["did", "all"] or amount.after[:1] != ["of"]:
        return False
    return amount.after[1:2] in (["us"], ["them"], ["you"], ["whom"], ["those"], ["these"])


def _stretched(amount: Amount) -> bool:
    """`stretched my quads and hammies 4 mins`."""
    clause = amount.clause
    return clause.joint == Tag.AND and _STRETCHED.search(amount.page.line[: clause.start]) is not None


def _in_a_complaint(amount: Amount) -> bool:
    """`knee hurts 20 a day`, and neither "20, knee hurts" nor "shins on fire the whole 20", "rubbed raw 26 tho"."""
    page, clause = amount.page, amount.clause
    if not clause.aches or amount.of_deed or amount.opens:
        return False
    after_all = amount.before == Tag.AFTER and clause.negs and amount.item.n == page.planned_min
    return not (amount.whole or _THOUGH.match(page.line, amount.place + 1) or after_all)


def _ahead(amount: Amount) -> bool:
    """`tomorrow at 20`."""
    if amount.before != Tag.AT or amount.of_deed:
        return False
    dates = (amount.page.items[place].value for place in amount.clause.dates)
    return any(day[:1] == "+" and day != "+0" for day in dates)


def _bare(amount: Amount) -> bool:
    """A number that is no minutes."""
    return not may_be_minutes(amount)


def _out_of_ten(amount: Amount) -> bool:
    """`6/10`, and not "did 6/10" of a session of ten minutes."""
    return amount.item.m == 10 and not (amount.clause.told and amount.page.planned_min == 10)


_VERDICTS = (
    (_stuck_at, False),
    (_years_ago, False),
    (_not_all, False),
    (_like_that, False),
    (_after_a_no, False),
    (stopped_there, True),
    (_said_done, True),
    (of_a_day, True),
    (is_own, True),
    (_asked_for, False),
    (_beside_measured, False),
    (_of_the_week, False),
    (_of_the_heart, False),
    (_of_heat, False),
    (_of_a_sign_or_thing, False),
    (_of_people, False),
    *((passed, False) for passed in PASSED),
    (_stretched, True),
    (_in_a_complaint, False),
    (_ahead, False),
    (_bare, False),
    (_out_of_ten, False),
)
"""The first that applies decides whether the amount counts; one that none applies to does."""
_ONLY_OF: dict[Callable[[Amount], bool], frozenset[Letter]] = {
    _said_done: frozenset({Tag.RATIO}),
    is_own: frozenset({Tag.DUR}),
    of_a_day: frozenset({Tag.DUR, Tag.NUM}),
    _beside_measured: frozenset({Tag.NUM, Tag.DIST}),
    _of_the_week: frozenset({Tag.RATIO}),
    _of_the_heart: frozenset({Tag.NUM}),
    _of_people: frozenset({Tag.NUM}),
    _stretched: frozenset({Tag.DUR}),
    _bare: frozenset({Tag.NUM}),
    _out_of_ten: frozenset({Tag.RATIO}),
}
"""Those that can apply to amounts of these tags alone."""
_BY_TAG = {tag: tuple(each for each in _VERDICTS if tag in _ONLY_OF.get(each[0], AMOUNTS)) for tag in AMOUNTS}

ENDED_BY = 20
"""Tokens; what tells that it ended there stands no further after it."""
MOST_OF_A_WEEK = 14
"""Up to this many "3 of 4" beside a tally are sessions, not minutes."""
LEAST_HOT, MOST_HOT = 27, 50
"""Degrees Celsius of a hot day."""
LEAST_HOT_F, MOST_HOT_F = 90, 122
"""Degrees Fahrenheit of one; so many minutes somebody would say that they did."""
SLOWEST_FAST = 60
"""Beats a minute: beside a sign of the heart a bare number from here on is its rate (common practice, no source)."""
_ASKING = frozenset({Tag.MOVE, Tag.QUEST})
_THOUGH = pattern("BUT(?:$|STOP|COMMA)")
_DID_ALL = pattern("(?<!NEG)DONE ABOUT $")
_NOT_AFTER = frozenset({Tag.NEG, Tag.SINCE, Tag.UNTIL, Tag.BEFORE, Tag.INTENDED})
_STRETCHED = pattern("ACT THE? PART AND $")
_NOT_MINUTES = listed("counted", "things")
_MEASURED = listed("counted", "measured")
_ENDED = listed("counted", "ended")
"""Of somebody with a sign of danger: "sugar went too low after 14 min, sat in the car"."""
