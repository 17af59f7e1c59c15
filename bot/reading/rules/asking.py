"""Where a reply asks: the tokens of each question, so that nothing in them is taken for told."""

from collections.abc import Iterator

from bot.reading.page import Page
from bot.reading.tags import Tag

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


LONGEST = 40
"""Tokens; a question is no longer, and time stays linear."""


def question_spans(page: Page) -> Iterator[tuple[int, int]]:
    """The tokens of each question, from the first word of its clause to its mark."""
    if _INVERTED.isdisjoint(page.words):
        return
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
        length = length if marked else min(length, _told_from(words))
        if words[1:2] == ("have",) and words[0] in ("should", "could", "would"):
            continue
        if (marked or words[:2] in _SURE) and not _owned(words[:length]):
            yield first, first + length


_GOES_ON = frozenset(
    {"that", "did", "done", "walked", "ran", "jogged", "only", "got", "managed", "the", "missed", "skipped"}
)


def _told_from(words: tuple[str, ...]) -> int:
    """Where something told may follow a question without its mark: after a comma, or "and did 27"."""
    for place, word in enumerate(words):
        after = words[place + 1] if place + 1 < len(words) else ""
        if word in (",", "but") or (word == "and" and (after in _GOES_ON or after.isdigit())):
            return place
    return len(words)


_SUBJECTS = frozenset({"i", "we", "that", "because", "after", "if"})


def _owned(words: tuple[str, ...]) -> bool:
    """Whether the question goes on to tell of something done: `is it okay that I walked 20?`."""
    return any(
        word in _SUBJECTS
        and words[place + 3 :]
        and (words[place + 3].endswith("ed") or words[place + 3] in ("did", "ran"))
        for place, word in enumerate(words[2:])
    )
