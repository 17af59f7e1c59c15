"""Numbers without a unit: which of them may be minutes, and which are a clock time, a name, a count or a change."""

from bot.reading.lexicon import listed
from bot.reading.page import Key
from bot.reading.rules.clauses import Amount
from bot.reading.rules.passed import HOURS
from bot.reading.tags import Tag, pattern

LONGEST = 999
"""Minutes."""


def may_be_minutes(number: Amount) -> bool:
    """Whether a number without a unit may be minutes."""
    if not 0 < number.item.n <= LONGEST or any(other(number) for other in _NO_MINUTES):
        return False
    return number.of_deed or not number.clause.words or any(told(number) for told in _MINUTES)


def _at_night(number: Amount) -> bool:
    """`at 3 in the morning`, `last night at 11`, `baby up at 3, 4 and 5`, `out at 6`."""
    page = number.page
    timed = number.before == Tag.AT and number.next == Tag.PARTDAY
    dated = page.line[number.place - 2 : number.place] in (Tag.PARTDAY + Tag.AT, Tag.DATE + Tag.AT)
    listed_too = _HOURS.search(number.behind(NEAR)) is not None
    return timed or dated or listed_too or number.said(2) in (["out", "about"], ["out", "at"])


def _at_that_hour(number: Amount) -> bool:
    """`dinner is at 7`."""
    line, place = number.page.line, number.place
    if number.before != Tag.AT or number.item.n > HOURS or Tag.STOPPED in line:
        return False
    of_thing = line[place - 2 : place - 1] in (Tag.WORD, Tag.FILL, Tag.OTHER, Tag.IS)
    return of_thing and number.next in ("", Tag.STOP, Tag.COMMA, Tag.BECAUSE, Tag.BUT)


def _to_come(number: Amount) -> bool:
    """`later 25`, `25 tonight after work`, in the morning."""
    page, clause = number.page, number.clause
    lead = page.line.rfind(Tag.PARTDAY, 0, number.place)
    if lead >= 0 and page.items[lead].value == "later":
        return not clause.told and not clause.acts
    tonight = number.next == Tag.PARTDAY and page.items[number.place + 1].value == "tonight"
    return tonight and page.at.hour < MIDDAY and not clause.told and not clause.acts


def _of_moves(number: Amount) -> bool:
    """`20 squats`, `3 x 8 squats` count squats, not minutes."""
    page, place = number.page, number.place
    if page.line[place + 1 : place + 3] == Tag.TIMES + Tag.NUM:
        place += 2
    elif number.next == Tag.TIMES:
        place += 1
    after = page.items[place + 1] if place + 1 < len(page.items) else None
    if (
        _EACH_SET.search(page.line[max(0, place - NEAR) : place])
        and page.words[page.items[page.line.rindex(Tag.ACT, 0, place)].last] in MOVES
    ):
        return True
    return after is not None and after.tag is Tag.ACT and page.words[after.last] in MOVES


def _of_things(number: Amount) -> bool:
    """`had two hundred dinners to plate`: a count of what follows, if that is a plural."""
    page = number.page
    hit = _NOUN.match(page.line, number.place + 1)
    nouns = [page.words[item.last] for item in page.items[hit.start() : hit.end()]] if hit else []
    return bool(nouns) and nouns[0] not in _JOINING and any(_is_plural(word) for word in nouns)


def _is_plural(word: str) -> bool:
    return len(word) > SHORTEST_PLURAL and word[-1] == "s" and word[-2] not in "su" and word not in _NO_PLURALS


def _a_name(number: Amount) -> bool:
    """`round terminal 2`, `both of my 2 ribs`, `on the 2.5`."""
    before = number.behind(2)
    numbered = not _NUMBERED.isdisjoint(number.said(1)) or (number.next == Tag.PART and number.item.n <= FEW)
    return numbered or before == Tag.OTHER + Tag.OF or (before == Tag.ON + Tag.THE and bool(number.item.n % 1))


def _the_time(number: Amount) -> bool:
    """`it's 7 now`, `say 7.30`."""
    said = number.said(1) == ["say"] and bool(number.item.n % 1)
    return said or (number.behind(2) == Tag.IT + Tag.IS and not _NOW.isdisjoint(number.after[:1]))


def _a_change(number: Amount) -> bool:
    """`down 0.4`, `pain 6/10, was 3`: of weight, or a level."""
    page, before = number.page, number.behind(1)
    if before == Tag.IS and Tag.PART in page.there and Tag.RATIO in page.line[: number.place]:
        return True
    weighed = Tag.WEIGH in page.there or page.has(Key.WEIGHT)
    return weighed and (before in (Tag.IS, Tag.FROM) or (before == Tag.CHANGE and number.item.n < MOST_CHANGE))


def _of_few(number: Amount) -> bool:
    """`three kids in the bath, two in a strop`."""
    return number.item.n <= FEW and not number.of_deed and number.first > 0 and not number.item.value.isdigit()


def _of_others(number: Amount) -> bool:
    """`my sister 12`, `the vicar had three`: of somebody else, maybe with a word that may be of anything."""
    clause, place = number.clause, number.place
    if clause.others and not clause.acts and not clause.told and not number.whole:
        return True
    if place - clause.start < 3 or number.page.words[number.page.items[place - 1].first] not in _HELD:
        return False
    return _ANOTHER.match(number.page.line, place - 3) is not None


def _at_home(number: Amount) -> bool:
    """`at 25`, where nothing was told, and `back home at 8`."""
    at = number.before == Tag.AT or number.said(1) == ["at"]
    back = Tag.RETURN in number.page.line[number.clause.start : number.place]
    return at and (back or not number.clause.told)


def _added(number: Amount) -> bool:
    """`another 12`, `and 12 back`, `then 6 more for luck`, and not "6 more to go"."""
    if not MORE.isdisjoint(number.said(1)):
        return True
    more = not _ADDED.isdisjoint(number.after[:1]) and number.after[1:2] not in (["to"], ["left"], ["than"])
    return more and number.place == number.clause.start and number.clause.joint in ON


def _whole(number: Amount) -> bool:
    return number.whole


def is_the_plan(amount: Amount) -> bool:
    """`29 with the headtorch gang`, when 29 minutes were due: a clause that opens with just what was due."""
    due = amount.item.n == amount.page.planned_min and not amount.clause.aches
    return due and amount.next not in (Tag.IS, Tag.EFFORT_KEY)


def _quick(number: Amount) -> bool:
    """`a cheeky 20`."""
    return number.opens and not _QUICK.isdisjoint(number.said(1))


def _so_far(number: Amount) -> bool:
    """`12 in then went woozy`."""
    return _SO_FAR_IN.match(number.page.line, number.place + 1) is not None


def out_with(amount: Amount) -> bool:
    """`35 with the pram`, `20 in the rain`: an amount that opens its clause, and where or with whom it was done."""
    page, clause, item, index = amount.page, amount.clause, amount.item, amount.place
    if item.n < LEAST_OUT or not amount.opens or clause.aches or clause.plan is not None:
        return False
    after = page.words[item.last + 1 : min(item.last + 7, page.items[clause.end - 1].last + 1)]
    number = page.line[index] == Tag.NUM and not page.has(Key.DANGER)
    so_far = number and amount.next == Tag.IN and after[:1] == ["in"] and _FULL_OF.isdisjoint(after[:5])
    about = number and after[:1] and after[0] in _ABOUT_PLACE and len(after) > 1
    company = so_far or about or page.line[index + 1 : index + 3] in (Tag.WITH + Tag.THE, Tag.WITH + Tag.OTHER)
    return company or (after[:1] in (["in"], ["on"]) and not _OUTSIDE.isdisjoint(after[1:4]))


_NO_MINUTES = (
    _at_night,
    _at_that_hour,
    _to_come,
    _of_moves,
    _of_things,
    _a_name,
    _the_time,
    _a_change,
    _of_few,
    _of_others,
    _at_home,
)
_MINUTES = (_added, _whole, is_the_plan, _quick, _so_far, out_with)

MORE = listed("counted", "more")
ON = frozenset({Tag.COMMA, Tag.AND, Tag.THEN})
MOVES = listed("counted", "moves")
"""Exercises that are counted, not timed."""
NEAR = 12
"""Items; what says how an amount is meant stands no further before it."""
FEW = 3
"""Up to this a number in words and without a unit counts something else."""
MOST_CHANGE = 10
"""Kilograms."""
LEAST_OUT = 5
MIDDAY = 12
SHORTEST_PLURAL = 3
_HOURS = pattern("AT NUM (?:[COMMA AND] NUM)*[COMMA AND] $")
_EACH_SET = pattern("ACT COLON? NUM TIMES $")
_NOUN = pattern("WORD{1,2}")
_ANOTHER = pattern("THE WORD [DONE GOT IS]")
_SO_FAR_IN = pattern("IN (?:FILL)* (?:[COURSE THEN COMMA AND BUT STOP DASH]|$)")
_JOINING = listed("counted", "joining")
_NO_PLURALS = listed("counted", "no_plurals")
_NUMBERED = listed("counted", "numbered")
_NOW = listed("counted", "time_now")
_HELD = listed("counted", "held")
_ADDED = listed("counted", "added")
_QUICK = listed("counted", "quick")
_FULL_OF = listed("counted", "full_of")
"""After "20 in" these tell of people or of time that was spent."""
_OUTSIDE = listed("places", "outside")
_ABOUT_PLACE = listed("places", "along") - {"to", "up", "over"}
