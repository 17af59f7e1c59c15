"""How a complaint went on: worse, eased, there throughout, gone, or one of an earlier day."""

from bot.reading.page import Page
from bot.reading.rules.piece import Piece
from bot.reading.tags import Tag
from planning.terms.choices import Course


def course_of(page: Page, piece: Piece) -> Course:
    """How it went on; of "kept getting worse the whole time" that it got worse."""
    said = [Course(page.items[index].value) for index in piece.courses]
    return next((each for each in reversed(said) if each is not Course.SAME), said[-1])


def is_no_worse(page: Page, piece: Piece) -> bool:
    """`not worse`, `did not get any worse`, `worse yesterday`: says nothing of how it goes on."""
    course = piece.courses[0]
    denied = any(0 < course - neg <= 3 for neg in piece.negs)
    return page.items[course].value == Course.WORSE and (denied or (not piece.senses and is_long_gone(page, piece)))


def is_gone(page: Page, piece: Piece) -> bool:
    """`groin strain gone`: the complaint itself is over."""
    well = page.items[piece.well[0]]
    over = not _OVER.isdisjoint(page.words[well.first : well.last + 1])
    return over and piece.well[0] > max(piece.senses)


_OVER = frozenset({"gone", "cleared", "healed", "resolved", "disappeared", "vanished"})


def is_long_gone(page: Page, piece: Piece) -> bool:
    """Whether *piece* tells of an earlier day ("was sore yesterday", "troubled me last week")."""
    return any(
        tag in (Tag.SPAN, Tag.LONG_AGO)
        or (tag == Tag.DATE and page.items[place].value != "+0" and not _is_compared(page, place))
        for place, tag in enumerate(page.line[piece.start : piece.end], piece.start)
    )


def _is_compared(page: Page, index: int) -> bool:
    """`worse than yesterday`: how it is now, beside how it was."""
    first = page.items[index].first
    return page.words[first - 1 : first] in (["than"], ["as"])


_FIRST = frozenset({"first", "initially", "begin", "start", "beginning"})


def is_at_first(page: Page, piece: Piece) -> bool:
    """`stiff at first, then fine`: it went off, and was not always well."""
    now = not _TODAY.isdisjoint(page.said(piece))
    return not now and (piece.joint == Tag.THEN or not _FIRST.isdisjoint(page.words))


_TODAY = frozenset({"now", "today"})
