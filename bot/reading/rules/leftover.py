"""Minutes that no rule has read: those of the session, if the sentence speaks of nothing else that takes time."""

from bot.reading.facts import Asked, Did
from bot.reading.page import Key, Page
from bot.reading.rules.alone import ELSEWHERE, LONGEST_UNSAID, is_of_a_thing
from bot.reading.rules.asking import question_spans
from bot.reading.rules.kinds import kind_of
from bot.reading.rules.story import ON_FOOT
from bot.reading.tags import Tag, tags
from planning.terms.choices import Activity

_TOLD = (
    Key.DID, Key.MISSED, Key.HAVE, Key.LATER_AT, Key.LATER_MIN, Key.MOVE, Key.OFF, Key.WANTS, Key.SURE, Key.SLEPT,
    Key.HABIT, Key.ALARM,
)  # fmt: skip
_OPEN = (None, Asked.DONE, Asked.PAIN)
_AGAINST = tags("PLAN OTHER LONG_AGO AGO SINCE QUEST REMIND LATER MOVE LOSS ASK UNTIL")
_LASTED = frozenset(
    {"for", "after", "about", "since", "last", "another", "it", "this", "that", "in", "within", "by", "every", "over"}
)
_SIGNS = (Key.DANGER, Key.PAST_DANGER)


def leftover(page: Page) -> None:
    """`seventeen and a half minutes is what the watch says`, where nothing else was done, missed or asked for."""
    if page.asked not in _OPEN or page.has(*_TOLD):
        return
    places = [index for index, tag in enumerate(page.line) if tag == Tag.DUR]
    if len(places) == 1 and _may_be_session(page, places[0]):
        item = page.items[places[0]]
        page.add(Key.DID, Did(_named(page), item.n), places[0], places[0] + 1, "minutes left over")


def _named(page: Page) -> Activity:
    """The one activity that is named, be it in "the whole run"; else the session."""
    acts = {item.value for item in page.items if item.tag is Tag.ACT}
    acts |= {
        ON_FOOT[word]
        for item in page.items
        if item.tag in (Tag.SHARE, Tag.COURSE) and (word := page.words[item.last]) in ON_FOOT
    }
    return kind_of(acts.pop()) if len(acts) == 1 else Activity.SESSION


def _may_be_session(page: Page, index: int) -> bool:
    item = page.items[index]
    start = page.sentence_start(index)
    end = page.sentence_end(index)
    words = page.words[page.items[start].first : page.items[end - 1].last + 1]
    if not 0 < item.n <= LONGEST_UNSAID or not _AGAINST.isdisjoint(page.line[start : end + 1]):
        return False
    if (
        not ELSEWHERE.isdisjoint(words)
        or is_of_a_thing(page, start, index)
        or any(low <= item.first < high for low, high in question_spans(page))
    ):
        return False
    before = page.words[item.first - 1] if item.first else ""
    return before not in _LASTED or not page.has(*_SIGNS, Key.BODY)
