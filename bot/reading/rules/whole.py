"""Replies that are nothing but a word or two of the product: `week`, `data pls`, `LATER!`, `/start`."""

from functools import cache

from bot.reading.lexicon import load, words_of
from bot.reading.page import Key, Page
from bot.reading.tags import Tag

_LEFT_OUT = frozenset({"please", "now", ".", "!", "?", ",", "…", '"', "'"})
LONGEST = 8
"""Tokens; a longer reply is no bare word."""


def whole(page: Page) -> bool:
    """Read *page* as a bare word of the product; False if it is none, so that the other rules have their turn."""
    if not 0 < len(page.words) <= LONGEST:
        return False
    words = tuple(page.words)
    said = _meanings().get(words) or _meanings().get(_core(words))
    if said is None:
        return False
    table, value = said
    if table == "want":
        page.add(Key.WANTS, value, 0, len(page.items), "whole reply")
    elif table == "later":
        page.add(Key.LATER_MIN, float(value), 0, len(page.items), "whole reply")
    else:
        page.items = [item._replace(tag=Tag.FILL) for item in page.items]
    return True


def _core(words: tuple[str, ...]) -> tuple[str, ...]:
    """*words* without politeness, marks and the slash of a command."""
    kept = tuple(word for word in words if word not in _LEFT_OUT)
    return kept[1:] if kept[:1] == ("/",) and kept[1:] != ("start",) else kept


@cache
def _meanings() -> dict[tuple[str, ...], tuple[str, str]]:
    """What each bare reply means: the table of the word list and its value."""
    return {
        words_of(phrase): (table, value)
        for table, meanings in load("whole").items()
        for value, phrases in meanings.items()
        for phrase in phrases
    }
