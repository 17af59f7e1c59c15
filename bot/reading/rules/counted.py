"""Which amounts may be something done: no clock times, no counts of people, no time that only passed."""

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.clauses import Clause
from bot.reading.rules.passed import HOURS, only_passed
from bot.reading.tags import Item, Tag, pattern

MORE = frozenset({"another", "more", "extra", "further"})
ON = frozenset({Tag.COMMA, Tag.AND, Tag.THEN})
_NOT_MINUTES = listed("counted", "things")


def counts(page: Page, clause: Clause, index: int) -> bool:
    """Whether an amount may be something done."""
    before = page.line[index - 1] if index > clause.start else ""
    not_all = before == Tag.ABOUT and page.words[page.items[index].first - 1] in ("full", "whole", "entire")
    denied = Tag.NEG in page.line[max(clause.start, index - 5) : index] and not _DID_ALL.search(
        page.line[max(0, index - 3) : index]
    )
    if before == Tag.STUCK or (not_all and denied) or page.line[index + 1 : index + 2] == Tag.LONG_AGO:
        return False
    if _like_that(page, index):
        return False
    if (
        before in _NOT_AFTER
        or (before == Tag.UNIT and page.line[index] != Tag.DUR)
        or (before == Tag.BY and not clause.acts)
    ):
        return False
    if stopped_there(page, index) or _said_done(page, index) or of_a_day(page, index) or is_own(page, index):
        return True
    if _asked_for(page, clause) or _measured(page, clause, index) or only_passed(page, clause, index):
        return False
    if clause.joint == Tag.AND and _STRETCHED.search(page.line[: clause.start]) and page.line[index] == Tag.DUR:
        return True
    bare = clause.aches and not (clause.acts or clause.told or clause.sessions)
    ends = _THOUGH.match(page.line, index + 1) is not None
    after_all = before == Tag.AFTER and clause.negs and page.items[index].n == page.planned_min
    if bare and index > opening(page, clause) and not (whole_said(page, index) or ends or after_all):
        return False
    item, tag = page.items[index], page.line[index]
    ahead = any(page.items[place].value[:1] == "+" and page.items[place].value != "+0" for place in clause.dates)
    if ahead and before == Tag.AT and not (clause.acts or clause.told or clause.sessions):
        return False
    if tag == Tag.NUM:
        return _bare_number(page, clause, index)
    if tag == Tag.RATIO:
        return item.m != 10 or (clause.told and page.planned_min == 10)
    return True


def _like_that(page: Page, index: int) -> bool:
    """`been like that half an hour`, `my heart races, 40 min of this`: how long a sign or complaint lasted."""
    item = page.items[index]
    before, after = page.words[max(0, item.first - 2) : item.first], page.words[item.last + 1 : item.last + 3]
    lasting = before[:1] == ["like"] and before[-1] in ("it", "that", "this")
    return lasting or (after == ["of", "this"] and page.has(Key.DANGER))


def whole_said(page: Page, index: int) -> bool:
    """`shins on fire the whole 20`, `could chat the entire 35 min`."""
    before = page.words[max(0, page.items[index].first - 2) : page.items[index].first]
    return before[-1:] in _WHOLE or before == ["all", "the"]


_WHOLE = (["entire"], ["whole"], ["full"])
_THOUGH = pattern("BUT(?:$|STOP|COMMA)")
"""`thighs rubbed raw 26 tho`."""
_DID_ALL = pattern("(?<!NEG)DONE ABOUT $")
_NOT_AFTER = frozenset({Tag.NEG, Tag.SINCE, Tag.UNTIL, Tag.BEFORE, Tag.INTENDED})


_STRETCHED = pattern("ACT THE? PART AND $")
"""`stretched my quads and hammies 4 mins`."""


def _said_done(page: Page, index: int) -> bool:
    """`sixteen minutes done out of the twenty-eight`: one piece that says so itself."""
    item = page.items[index]
    return page.line[index] == Tag.RATIO and "done" in page.words[item.first : item.last + 1]


def of_a_day(page: Page, index: int) -> bool:
    """`yesterday's forty minutes`."""
    own = page.line[index - 2 : index] == Tag.DATE + Tag.IS and page.line[index] in (Tag.DUR, Tag.NUM)
    return own and page.words[page.items[index - 1].last] == "s"


def is_own(page: Page, index: int) -> bool:
    """`stood up after my eighteen minutes`: those that were due."""
    item = page.items[index]
    return page.line[index] == Tag.DUR and page.words[max(0, item.first - 2) : item.first] == ["after", "my"]


def _asked_for(page: Page, clause: Clause) -> bool:
    """`can we make it 20?`: a wish or a question."""
    if clause.told or clause.acts:
        return False
    line = page.line[clause.start : clause.end]
    return Tag.MOVE in line or any(
        tag == Tag.QUEST and page.words[page.items[i].last] != "which" for i, tag in enumerate(line, clause.start)
    )


def _measured(page: Page, clause: Clause, index: int) -> bool:
    """A heart rate ("hr", which is an hour too), blood sugar, sessions of a goal, people, squats: of something else."""
    item = page.items[index]
    lead = page.items[clause.start].first
    lead = 0 if clause.joint == Tag.COMMA and index == clause.start and not clause.told else lead
    if not _MEASURED.isdisjoint(page.words[max(lead, item.first - 5) : item.first]) and page.line[index] in (
        Tag.NUM,
        Tag.DIST,
    ):
        return True
    if page.line[index] == Tag.RATIO and item.m <= MOST_OF_A_WEEK and page.has(Key.TALLY):
        return True
    if page.line[index] == Tag.NUM and item.n >= SLOWEST_FAST and any(fact.value == "heart" for fact in page.found):
        return True
    rate = page.line[index] == Tag.NUM and "hour" in page.words[max(lead, item.first - 3) : item.first]
    if rate and item.n >= SLOWEST_FAST:
        return True
    after = page.words[item.last + 1] if item.last + 1 < len(page.words) else ""
    it_is = page.line[index - 2 : index] == Tag.IT + Tag.IS
    warm = LEAST_HOT <= item.n <= MOST_HOT and (it_is or after in ("out", "outside")) and not clause.told
    warm = warm or (LEAST_HOT_F <= item.n <= MOST_HOT_F and not clause.told and not clause.acts)
    if warm and any(fact.value == "heat" for fact in page.found):
        return True
    return item.first in page.signs or after in _NOT_MINUTES or (page.line[index] == Tag.NUM and _of_people(page, item))


_MEASURED = listed("counted", "measured")


LEAST_HOT, MOST_HOT = 27, 50
"""Degrees Celsius of a hot day, as beside a sign of heat: "38 out and I've been sick"."""
LEAST_HOT_F, MOST_HOT_F = 90, 122
"""Degrees Fahrenheit of one; so many minutes somebody would say that they did."""
SLOWEST_FAST = 60
"""Beats a minute: beside a sign of the heart a bare number from here on is its rate (common practice, no source)."""


def _bare_number(page: Page, clause: Clause, index: int) -> bool:
    """Whether a number without a unit may be minutes."""
    item = page.items[index]
    before = page.line[index - 1] if index > clause.start else ""
    at_night = before == Tag.AT and page.line[index + 1 : index + 2] == Tag.PARTDAY
    at_night = at_night or page.line[index - 2 : index] in (Tag.PARTDAY + Tag.AT, Tag.DATE + Tag.AT)
    at_night = at_night or _HOURS.search(page.line[max(0, index - NEAR) : index]) is not None
    at_hour = (
        before == Tag.AT
        and page.line[index - 2 : index - 1] in (Tag.WORD, Tag.FILL, Tag.OTHER, Tag.IS)
        and item.n <= HOURS
    )
    if (
        at_hour
        and page.line[index + 1 : index + 2] in ("", Tag.STOP, Tag.COMMA, Tag.BECAUSE, Tag.BUT)
        and Tag.STOPPED not in page.line
    ):
        return False
    at_night = at_night or page.words[max(0, item.first - 2) : item.first] in (["out", "about"], ["out", "at"])
    if at_night or _is_to_come(page, clause, index):
        return False
    if _counted_moves(page, index) or _of_things(page, index) or _names_or_tells_time(page, index):
        return False
    if (
        item.n <= FEW
        and not (clause.acts or clause.told or clause.sessions)
        and item.first
        and not item.value.isdigit()
    ):
        return False
    if clause.others and not clause.acts and not clause.told and not whole_said(page, index):
        return False
    if _of_somebody(page, clause, index):
        return False
    more = item.first > 0 and page.words[item.first - 1] in MORE
    more = more or (index == clause.start and clause.joint in ON and _is_more(page, index))
    more = more or whole_said(page, index)
    more = more or is_the_plan(page, clause, index)
    more = more or (index == opening(page, clause) and page.words[item.first - 1 : item.first] in _QUICK)
    more = more or out_with(page, clause, index) or _SO_FAR_IN.match(page.line, index + 1) is not None
    told = more or bool(clause.acts or clause.told or clause.sessions) or not clause.words
    at = before == Tag.AT or page.words[item.first - 1 : item.first] == ["at"]
    home = at and Tag.RETURN in page.line[clause.start : index]
    return 0 < item.n <= 999 and told and not (at and not clause.told) and not home


def is_the_plan(page: Page, clause: Clause, index: int) -> bool:
    """`29 with the headtorch gang`, when 29 minutes were due: a clause that opens with just what was due."""
    due = page.items[index].n == page.planned_min and not clause.aches
    return due and page.line[index + 1 : index + 2] not in (Tag.IS, Tag.EFFORT_KEY)


def _is_more(page: Page, index: int) -> bool:
    """`and 12 back`, `then 6 more for luck`, and not "6 more to go"."""
    last = page.items[index].last
    after = page.words[last + 1 : last + 2]
    return bool(after) and after[0] in _ADDED and page.words[last + 2 : last + 3] not in (["to"], ["left"], ["than"])


_ADDED = frozenset({"back", "home", "more", "extra", "further"})
_QUICK = (["quick"], ["swift"], ["cheeky"], ["steady"], ["solid"])
FEW = 3
"""Up to this a number in words and without a unit counts something else: "three kids in the bath, two in a strop"."""
_NUMBERED = listed("counted", "numbered")
_NOW = frozenset({"now", "already", "here", "outside", "out"})


def _names_or_tells_time(page: Page, index: int) -> bool:
    """`round terminal 2`, `both of my 2 ribs`, `it's 7 now`, `down 0.4`, `pain 6/10, was 3`: a name, parts, the time, a
    change, a level."""
    item = page.items[index]
    before, after = page.line[max(0, index - 2) : index], page.line[index + 1 : index + 2]
    if page.words[item.first - 1 : item.first] and page.words[item.first - 1] in _NUMBERED and item.first:
        return True
    if before == Tag.OTHER + Tag.OF or (before == Tag.ON + Tag.THE and item.n % 1):
        return True
    if page.words[item.first - 1 : item.first] == ["say"] and item.n % 1 and item.first:
        return True
    if before == Tag.IT + Tag.IS and page.words[item.last + 1 : item.last + 2] and page.words[item.last + 1] in _NOW:
        return True
    if before[-1:] == Tag.IS and Tag.PART in page.there and Tag.RATIO in page.line[:index]:
        return True
    weighed = Tag.WEIGH in page.there or page.has(Key.WEIGHT)
    if before[-1:] in (Tag.IS, Tag.FROM) and weighed:
        return True
    return (before[-1:] == Tag.CHANGE and item.n < 10 and weighed) or (after == Tag.PART and item.n <= FEW)


def out_with(page: Page, clause: Clause, index: int) -> bool:
    """`35 with the pram`, `20 in the rain`: an amount that opens its clause, and where or with whom it was done."""
    item = page.items[index]
    if item.n < LEAST_OUT or index != opening(page, clause) or clause.aches or clause.plan is not None:
        return False
    after = page.words[item.last + 1 : min(item.last + 7, page.items[clause.end - 1].last + 1)]
    number = page.line[index] == Tag.NUM and not page.has(Key.DANGER)
    so_far = (
        number and page.line[index + 1 : index + 2] == Tag.IN and after[:1] == ["in"] and _FULL_OF.isdisjoint(after[:5])
    )
    about = number and after[:1] and after[0] in _ABOUT_PLACE and len(after) > 1
    company = so_far or about or page.line[index + 1 : index + 3] in (Tag.WITH + Tag.THE, Tag.WITH + Tag.OTHER)
    return company or (after[:1] in (["in"], ["on"]) and not _OUTSIDE.isdisjoint(after[1:4]))


LEAST_OUT = 5
_FULL_OF = listed("counted", "full_of")
"""After "20 in" these tell of people or of time that was spent."""
_OUTSIDE = listed("places", "outside")
_ABOUT_PLACE = listed("places", "along") - {"to", "up", "over"}
_SO_FAR_IN = pattern("IN (?:FILL)* (?:[COURSE THEN COMMA AND BUT STOP DASH]|$)")
"""`12 in then went woozy`."""
NEAR = 12
"""Items; what says how an amount is meant stands no further before it."""
_HOURS = pattern("AT NUM (?:[COMMA AND] NUM)*[COMMA AND] $")
"""`baby up at 3, 4 and 5`."""


def _is_to_come(page: Page, clause: Clause, index: int) -> bool:
    """`25 tonight after work`, in the morning."""
    after = page.items[index + 1] if index + 1 < len(page.items) else None
    lead = page.line.rfind(Tag.PARTDAY, 0, index)
    if lead >= 0 and page.items[lead].value == "later":
        return not clause.told and not clause.acts
    tonight = after is not None and after.tag is Tag.PARTDAY and after.value == "tonight"
    return tonight and page.at.hour < MIDDAY and not clause.told and not clause.acts


MIDDAY = 12
_HELD = frozenset({"had", "took", "made", "got", "has"})
_ANOTHER = pattern("THE WORD [DONE GOT IS]")


def _of_somebody(page: Page, clause: Clause, index: int) -> bool:
    """`the vicar had three`: said of somebody else, with a word that may be of anything."""
    if index - clause.start < 3 or page.words[page.items[index - 1].first] not in _HELD:
        return False
    return _ANOTHER.match(page.line, index - 3) is not None


def _of_people(page: Page, item: Item) -> bool:
    """`fourteen of us`."""
    after = page.words[item.last + 1 : item.last + 3]
    if page.words[max(0, item.first - 2) : item.first] == ["did", "all"]:
        return False
    return after[:1] == ["of"] and after[1:] in (["us"], ["them"], ["you"], ["whom"], ["those"], ["these"])


MOVES = listed("counted", "moves")
"""Exercises that are counted, not timed."""


MOST_OF_A_WEEK = 14
"""Up to this many "3 of 4" beside a tally are sessions, not minutes."""


def _counted_moves(page: Page, index: int) -> bool:
    """`20 squats`, `3 x 8 squats` count squats, not minutes."""
    if page.line[index + 1 : index + 3] == Tag.TIMES + Tag.NUM:
        index += 2
    elif page.line[index + 1 : index + 2] == Tag.TIMES:
        index += 1
    after = page.items[index + 1] if index + 1 < len(page.items) else None
    if (
        _EACH_SET.search(page.line[max(0, index - NEAR) : index])
        and page.words[page.items[page.line.rindex(Tag.ACT, 0, index)].last] in MOVES
    ):
        return True
    return after is not None and after.tag is Tag.ACT and page.words[after.last] in MOVES


_EACH_SET = pattern("ACT COLON? NUM TIMES $")


def _of_things(page: Page, index: int) -> bool:
    """`had two hundred dinners to plate`: a count of what follows, if that is a plural."""
    hit = _NOUN.match(page.line, index + 1)
    nouns = [page.words[item.last] for item in page.items[hit.start() : hit.end()]] if hit else []
    return bool(nouns) and nouns[0] not in _JOINING and any(_is_plural(word) for word in nouns)


def _is_plural(word: str) -> bool:
    return len(word) > SHORTEST_PLURAL and word[-1] == "s" and word[-2] not in "su" and word not in _NO_PLURALS


_NOUN = pattern("WORD{1,2}")
_JOINING = listed("counted", "joining")
SHORTEST_PLURAL = 3
_NO_PLURALS = listed("counted", "no_plurals")


def opening(page: Page, clause: Clause) -> int:
    """Index of the first item of *clause* that is no filler."""
    fillers = (Tag.FILL, Tag.ABOUT, Tag.ONLY, Tag.THE, Tag.IS)
    return next((i for i in range(clause.start, clause.end) if page.line[i] not in fillers), clause.start)


ENDED_BY = 20
"""Tokens; what tells that it ended there stands no further after it."""
_ENDED = listed("counted", "ended")
"""Of somebody with a sign of danger: "sugar went too low after 14 min, sat in the car"."""


def stopped_there(page: Page, index: int) -> bool:
    """`dizzy at 11 min, stopped there`: a minute named before a stop without one of its own."""
    named = (
        page.line[index - 1 : index] in (Tag.AT, Tag.AFTER)
        or page.line[index - 2 : index] == Tag.AT + Tag.THE
        or page.line[index + 1 : index + 2] == Tag.IN
    )
    last = page.items[index].last
    ended = page.has(Key.DANGER) and not _ENDED.isdisjoint(page.words[last + 1 : last + 1 + ENDED_BY])
    if not named or not (ended or Tag.STOPPED in page.line[index:]):
        return False
    item = page.items[index]
    return page.line[index] == Tag.DUR or (page.line[index] == Tag.NUM and item.n <= (page.planned_min or 0))
