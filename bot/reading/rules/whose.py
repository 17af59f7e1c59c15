"""Of whom and of which day a clause tells."""

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.clauses import Clause
from bot.reading.rules.story import Story
from bot.reading.tags import Tag, pattern
from bot.reading.when import past_day


def told_of_others(page: Page, clause: Clause) -> bool:
    """A clause whose subject is somebody else, and that does not take the sender in."""
    if not clause.others:
        return False
    if (
        all(page.words[page.items[i].last] == "they" for i in clause.others)
        and Tag.OTHER not in page.line[: clause.start]
    ):
        return False
    if _AFTER_SO_MUCH.search(page.line, clause.start, clause.end) or all(_no_subject(page, i) for i in clause.others):
        return False
    joined = page.line[max(0, clause.start - 2) : clause.start] == Tag.SELF + Tag.AND
    if joined or (clause.selves and clause.selves[0] < clause.others[0]):
        return False
    first = clause.others[0]
    if page.words[page.items[first].last] in _DEVICES and not _SAYING.isdisjoint(page.said(clause)):
        return False
    if clause.parts and page.words[page.items[first].last] == "they" and Tag.PART in page.line[clause.start : first]:
        return False
    if not _OURS.isdisjoint(page.said(clause)):
        return False
    if any(index < first for index in (*clause.acts, *clause.evidence, *clause.amounts, *clause.stops, *clause.shares)):
        return False
    return not any(index > first for index in clause.selves)


_AFTER_SO_MUCH = pattern("AFTER ABOUT? [DUR DIST] OF ACT")
"""`the dog pulled up lame after 23 minutes of walking`: told of both."""
_PREPOSITIONS = frozenset({Tag.WITH, Tag.FROM, Tag.OF, Tag.BY, Tag.AT, Tag.IN, Tag.ON, Tag.AFTER})


def _no_subject(page: Page, index: int) -> bool:
    """`tight from the baby carrier, walked 19`: somebody who does nothing."""
    before = page.line[max(0, index - 1) : index]
    before = page.line[max(0, index - 2) : index - 1] if before == Tag.THE else before
    return before in _PREPOSITIONS


_AND_BACK = pattern("FILL DATE$")
_THAT_WAS = pattern("[THE IT] IS FILL{0,2} DATE (?:PARTDAY|FILL)*$")


def day_of_both(page: Page, clause: Clause, story: Story) -> bool:
    """`squats and lunges in the kitchen last night`, `walked 9 km, that was on Saturday`, `walked to the shop and back
    yesterday`: the day is of what is told.

    The first is joined by "and", the others say nothing but the day.
    """
    if not clause.dates:
        return False
    if _THAT_WAS.match(page.line[clause.start : clause.end]) and "was" in page.said(clause)[:2]:
        return story.last is not None and story.last.on is None
    back = _AND_BACK.match(page.line[clause.start : clause.end]) is not None
    more = clause.joint == Tag.AND and (bool(clause.acts) or back) and not clause.amounts
    last = story.last
    return more and not clause.told and not clause.selves and last is not None and last.on is None


def of_long_ago(page: Page, clause: Clause) -> bool:
    """`I ran for the county in 1968`."""
    return Tag.LONG_AGO in page.line[clause.start : clause.end] and not clause.amounts


_DEVICES, _SAYING = listed("devices", "name"), listed("devices", "saying")
_OURS = frozenset({"our", "us", "ourselves"})
_THIS_DAY = frozenset({"tonight", "this_morning"})


def note_day(page: Page, clause: Clause, story: Story) -> None:
    """Keep the day that *clause* names for what it and the next ones tell."""
    if not clause.dates and Tag.PARTDAY not in page.there:
        return
    lead = page.items[clause.start - 1].first if clause.start else 0
    if clause.joint == Tag.BECAUSE and page.words[lead] == "since":
        return
    if Tag.PARTDAY in page.there:
        for index in range(clause.start, clause.end):
            if page.line[index] == Tag.PARTDAY and page.items[index].value in _THIS_DAY:
                story.day = None
    others = clause.others[0] if clause.others and told_of_others(page, clause) else clause.end
    for index in clause.dates:
        if index > others or Tag.SINCE in page.line[clause.start : index] or _is_cause(page, index):
            continue
        if _is_of_another(page, index):
            continue
        if page.items[index].value.startswith("0-") and page.line[index - 1 : index] != Tag.ON:
            continue
        if _of_her_day(page, clause, index) or (clause.plan is not None and clause.plan < index):
            continue
        if page.items[index].value == "+0":
            story.day = None
        elif _is_ahead(page, index):
            story.planned = True
        elif (day := past_day(page.items[index], page.today)) is not None:
            story.day = day if day != page.today else None


LONG_PAST = 200
"""Days; a day of the year that is further back is meant as the next one."""


def _is_ahead(page: Page, index: int) -> bool:
    """`fun run is on 24 May`, said in April."""
    item = page.items[index]
    month, _, _ = item.value.partition("-")
    day = past_day(item, page.today) if month.isdigit() and month != "0" and not item.n else None
    return day is not None and (page.today - day).days > LONG_PAST


def _is_cause(page: Page, index: int) -> bool:
    """`sore from yesterday`, `no worse than monday`: when something came from, no day of a session, unless that was
    something done ("from yesterday's rowing")."""
    before, after = page.line[index - 1 : index], page.line[index + 1 : index + 3]
    done = after[:1] == Tag.IS and after[1:] in _DONE_THEN
    first = page.items[index].first
    fall = _FROM_A_FALL.search(page.line[max(0, index - 4) : index]) is not None
    return (before in (Tag.FROM, Tag.AFTER) and not done) or fall or page.words[first - 1 : first] == ["than"]


def _is_of_another(page: Page, index: int) -> bool:
    """`9/10 sure for saturday`, `put on 1.5 kg over xmas`, `hurt myself on purpose last night`: a day of something
    that is no session."""
    first = page.items[index].first
    if page.words[max(0, first - 1) : first] == ["over"] or _to_come(page, first):
        return True
    rated = page.has(Key.SURE) and Tag.USED in page.line[max(0, index - 3) : index]
    harmed = (fact for fact in page.found if fact.value in _NO_SESSION)
    return rated or any(fact.first - 1 <= first <= fact.last + 2 for fact in harmed)


def _to_come(page: Page, first: int) -> bool:
    """`20 done, see you thursday`, `bring on saturday`."""
    before = page.words[max(0, first - 2) : first]
    return before in _TO_COME or (before[-1:] in (["bring"], ["roll"]) and page.words[first] == "on")


_TO_COME = (
    ["see", "you"],
    ["bring", "on"],
    ["roll", "on"],
    ["ready", "for"],
    ["till", "next"],
    ["same", "again"],
    ["back", "out"],
)
"""Before a day: "20 done, see you thursday"."""
_NO_SESSION = frozenset({"self_harm", "eating"})
_FROM_A_FALL = pattern("[FROM AFTER] (?:THE)? SUDDEN ON?$")
_DONE_THEN = (Tag.ACT, Tag.DUR, Tag.DIST, Tag.NUM)
_SUBJECTS = frozenset({"she", "he", "they"})


def _of_her_day(page: Page, clause: Clause, index: int) -> bool:
    """`did the walk with my sister she had chest pain last thursday`: the day is of what she had."""
    told = [*clause.evidence, *clause.acts]
    hers = [place for place in clause.others if page.words[page.items[place].last] in _SUBJECTS and place < index]
    return bool(hers and told) and min(told) < hers[-1] and not any(hers[-1] < place < index for place in clause.selves)
