"""Where something else begins in a reply: marks, words that turn to the sender, and what a part of theirs does."""

from collections.abc import Sequence

from bot.reading.lexicon import listed
from bot.reading.tags import Token

SENTENCE_ENDS = frozenset({".", "!", "?", ";"})
ARTICLES = frozenset({"a", "an", "the"})
OWN = frozenset({",", "but", "i", "me", "my", "we", "myself"})
PREPOSITIONS = frozenset(
    {"on", "in", "at", "near", "by", "with", "from", "off", "behind", "after", "outside", "inside", "like", "as"}
)
"""After one of these a thing is where it happened or what it is like: "on the treadmill my chest hurt"."""


def word_at(tokens: Sequence[Token], place: int) -> str:
    """The word of token *place*; empty after the end."""
    return tokens[place].word if place < len(tokens) else ""


def is_mark(tokens: Sequence[Token], place: int) -> bool:
    """Whether *place* is a mark that parts what is said: a stop, an emoji, a slash between spaces, a bracket. A comma
    and a colon may go on, "#" stands for a number in words and "&" for "and"."""
    token = tokens[place]
    if token.word[0].isalnum() or token.word in _GOING_ON:
        return False
    return token.word != "/" or token.start > tokens[place - 1].end


_GOING_ON = frozenset({",", ":", "-", "'", "#", "&", "%"})


def of_sender(tokens: Sequence[Token], place: int) -> bool:
    """Whether what begins at *place* is told of the sender: "i", "my", or a part of theirs and what it does."""
    return word_at(tokens, place) in ("i", "my") or own_part(tokens, place)


def own_part(tokens: Sequence[Token], place: int) -> bool:
    """`the kids were in bed and chest feels tight`: a part of the sender, and what it does."""
    part = word_at(tokens, place) in PARTS
    after = word_at(tokens, place + 1)
    pain = after in ("pain", "pains") and word_at(tokens, place + 2) in ("started", "began", "came", "kicked")
    return part and (after in _DOES or after.endswith("ing") or pain)


PARTS = listed("others", "parts")
_DOES = listed("others", "does")
