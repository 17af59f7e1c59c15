"""Sentences of a coach from somebody who is none: they do nothing, not even to the one who writes them."""

from datetime import datetime

from bot.conversation.coach.days import days_in
from bot.conversation.coach.deeds import deed_of
from bot.conversation.coach.lexicon import folded, pattern_of, words
from bot.conversation.coach.names import LONGEST_NAME, MARK
from bot.conversation.coach.orders import Clear, HoldWeek


def speaks_of_another(text: str, here: datetime) -> bool:
    """Whether the message of a runner is about somebody else, as a coach would write it: "sam: hold this week".

    A heading ("update: ...") and words of their own ("my", "me") make it theirs.
    """
    said = folded(text)
    verb = pattern_of("tell", "verbs").match(said)
    said = said[verb.end() :].strip() if verb else said
    mark = MARK.search(said[: LONGEST_NAME + 2])
    if mark is None or mark.start() == 0:
        return False
    head, rest = said[: mark.start()], said[mark.end() :]
    if _is_own(head, here) or pattern_of("another", "own").search(rest):
        return False
    deed = deed_of(rest, here)
    return isinstance(deed, HoldWeek | Clear) or (deed is not None and _is_ordered(rest))


def _is_own(head: str, here: datetime) -> bool:
    """Whether what stands before the colon is no other person."""
    return head in words("another", "headings") or len(head.split()) > 2 or bool(days_in(head, here).coming)


def _is_ordered(rest: str) -> bool:
    """Whether the sentence begins as an order does."""
    verbs = ("makes", "move", "drop", "ease")
    return any(pattern_of("deed", name).match(rest) for name in verbs)
