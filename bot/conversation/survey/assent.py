"""Yes, no, or neither."""

from enum import StrEnum

from bot.conversation.survey.lexicon import words
from bot.conversation.survey.text import bare, holds, leads


class Assent(StrEnum):
    """What an answer to a yes-or-no question says."""

    YES = "yes"
    NO = "no"
    UNSURE = "unsure"


def assent(text: str) -> Assent | None:
    """What *text* says to a yes-or-no question; None: something else. "No problem" is a yes, "not sure" is neither."""
    said = bare(text)
    yes, no = leads(said, words("answers", "yes")), leads(said, words("answers", "no"))
    if leads(said, words("answers", "unsure")):
        return Assent.UNSURE
    if yes or no:
        return Assent.YES if len(yes or "") > len(no or "") else Assent.NO
    return Assent.UNSURE if holds(said, words("answers", "unsure")) else None


def has_but(text: str) -> bool:
    """Whether the answer holds back something ("yes, but not my weight")."""
    return holds(bare(text), words("answers", "but"))


def skips(text: str) -> bool:
    """Whether *text* is a wish not to answer, or not to know."""
    return withholds(text) or leads(bare(text), words("answers", "unknown")) is not None


def withholds(text: str) -> bool:
    """Whether *text* is a wish not to answer."""
    return leads(bare(text), words("answers", "withhold")) is not None
