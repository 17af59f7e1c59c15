"""Questions: they tell of nothing that was done or missed, and may ask for the plan."""

from collections.abc import Iterator

from bot.reading.page import Found, Key, Page
from bot.reading.rules.asked import ANSWER
from bot.reading.tags import Tag, pattern

_QUESTION = pattern("QUEST NEAR{0,7} (?:DATE|SPAN|PARTDAY)")
_STARTS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.BUT, Tag.AND, Tag.THEN})
_ENDS = frozenset({".", "!", "?", ";"})
_LEADS = frozenset(
    {
        "so",
        "and",
        "but",
        "or",
        "hi",
        "hey",
        "also",
        "okay",
        "coach",
        "please",
        "just",
        "quick",
        "question",
        "well",
        "hello",
    }
)
_INVERTED = frozenset(
    {"is", "are", "will", "does", "do", "should", "shall", "can", "could", "would", "am", "may", "must", "has", "any",
     "how", "what", "when", "where", "which", "who", "why", "was"}
)  # fmt: skip
_SURE = frozenset(
    {("should", "i"), ("will", "i"), ("do", "i"), ("can", "i"), ("could", "i"), ("may", "i"), ("shall", "i"),
     ("am", "i"), ("is", "it"), ("how", "do"), ("how", "can"), ("how", "to"), ("what", "if"), ("any", "tips"),
     ("any", "advice"), ("what", "is"), ("what", "are"),
     ("how", "come"), ("why", "is"), ("why", "do"), ("why", "are"), ("why", "so"), ("why", "am"),
     ("why", "does"), ("does", "it"), ("when", "will"), ("when", "can"), ("when", "do"), ("must", "i"),
     ("would", "it"), ("is", "there"), ("what", "happens"), ("how", "should"), ("will", "it"), ("do", "you")}
)  # fmt: skip
"""Two words with which a question starts even if its mark was left out."""
_TOLD = frozenset({Key.DID, Key.MISSED, Key.STUCK, Key.EFFORT, Key.TALLY})
_DAMAGE = frozenset({"hurt", "damage", "ruin", "wreck", "injure", "strain", "harm", "kill"})


def questions(page: Page) -> None:
    """Take away what questions only seem to tell: `is 62 too old for a half marathon?`, `should I skip today?`."""
    if not page.found or _INVERTED.isdisjoint(page.words):
        return
    asked = frozenset(place for start, end in _spans(page) for place in range(start, end))
    if asked:
        page.found = [fact for fact in page.found if fact.first not in asked or not _only_asked(page, fact)]


def _only_asked(page: Page, fact: Found) -> bool:
    """Whether a fact within a question says nothing of what is so: a deed, or harm that is feared ("hurt my knees")."""
    if fact.key is Key.BODY:
        return any(page.words[place] in _DAMAGE for place in range(max(0, fact.first - 2), fact.last + 1))
    return fact.key in _TOLD and fact.rule != ANSWER


LONGEST = 40
"""Tokens; a question is no longer, and time stays linear."""


def _spans(page: Page) -> Iterator[tuple[int, int]]:
    """The tokens of each question, from the first word of its clause to its mark."""
    for index, item in enumerate(page.items):
        if index and page.line[index - 1] not in _STARTS:
            continue
        first = item.first
        while first < min(item.first + 4, len(page.words) - 1) and page.words[first] in _LEADS:
            first += 1
        if page.words[first] not in _INVERTED:
            continue
        words = tuple(page.words[first : first + LONGEST])
        length = next((place for place, word in enumerate(words) if word in _ENDS), len(words))
        marked = words[length : length + 1] == ("?",)
        if (marked or words[:2] in _SURE) and not _owned(words[:length]):
            yield first, first + length


_SUBJECTS = frozenset({"i", "we", "that", "because", "after", "if"})


def _owned(words: tuple[str, ...]) -> bool:
    """Whether the question goes on to tell of something done: `is it okay that I walked 20?`."""
    return any(
        word in _SUBJECTS
        and words[place + 3 :]
        and (words[place + 3].endswith("ed") or words[place + 3] in ("did", "ran"))
        for place, word in enumerate(words[2:])
    )


def plan_asked(page: Page) -> None:
    """`how much must I do today?`: the plan of today or of the week, if nothing else was wished."""
    if page.has(Key.WANTS, Key.MOVE, Key.OFF, Key.LATER_AT, Key.LATER_MIN):
        return
    for hit in _QUESTION.finditer(page.line):
        item = page.items[hit.end() - 1]
        week, today = item.value == "this_week", item.value in ("+0", "tonight", "+1")
        if week or today:
            page.add(Key.WANTS, "week" if week else "today", hit.start(), hit.end(), "question")
            return
