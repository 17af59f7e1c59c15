"""Questions: they tell of nothing that was done or missed, and may ask for the plan."""

from bot.reading.lexicon import listed
from bot.reading.page import Found, Key, Page
from bot.reading.rules.asked import ANSWER
from bot.reading.rules.asking import question_spans
from bot.reading.tags import Tag, pattern

_QUESTION = pattern("QUEST NEAR{0,7} (?:DATE|SPAN|PARTDAY|CHALLENGE)")
_TOLD = frozenset({Key.DID, Key.MISSED, Key.STUCK, Key.EFFORT, Key.TALLY})
_DAMAGE = listed("body", "damage")


def questions(page: Page) -> None:
    """Take away what questions only seem to tell: `is 62 too old for a half marathon?`, `should I skip today?`."""
    if not page.found:
        return
    asked = frozenset(place for start, end in question_spans(page) for place in range(start, end))
    if asked:
        page.found = [fact for fact in page.found if fact.first not in asked or not _only_asked(page, fact)]


def _only_asked(page: Page, fact: Found) -> bool:
    """Whether a fact within a question says nothing of what is so: a deed, or harm that is feared ("hurt my knees")."""
    if fact.key is Key.BODY:
        return any(page.words[place] in _DAMAGE for place in range(max(0, fact.first - 2), fact.last + 1))
    return fact.key in _TOLD and fact.rule != ANSWER


def plan_asked(page: Page) -> None:
    """`how much must I do today?`: the plan of today or of the week, if nothing else was wished."""
    if page.has(Key.WANTS, Key.MOVE, Key.OFF, Key.LATER_AT, Key.LATER_MIN):
        return
    for hit in _QUESTION.finditer(page.line):
        item = page.items[hit.end() - 1]
        week = item.value == "this_week" or (item.tag is Tag.CHALLENGE and page.words[item.last] == "week")
        today = item.value in ("+0", "tonight", "+1")
        if week or today:
            page.add(Key.WANTS, "week" if week else "today", hit.start(), hit.end(), "question")
            return
