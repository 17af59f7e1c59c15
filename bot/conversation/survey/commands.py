"""Words that steer the survey instead of answering it."""

import re
from enum import StrEnum

from bot.conversation.draft import Draft, Step
from bot.conversation.survey.lexicon import rows, words
from bot.conversation.survey.route import applies
from bot.conversation.survey.text import bare, holds, leads, plain

ADULT = 18
I_AM = re.compile(
    r"\bi(?:'?m| am) (?:only |just )?(?P<age>[0-9]{1,2})"
    r"(?= *(?:$|[,.!;)]| and\b| but\b| years?\b| yrs?\b| ?yo\b| y/o))"
)


class Command(StrEnum):
    """What can be asked for at any question; each is the name of its row of words."""

    BACK = "back"
    KEEP = "keep"
    LEAVE = "leave"
    HELP = "help"
    WHY = "why"
    RESTART = "restart"


def says_under_age(text: str) -> bool:
    """Whether somebody says, whatever was asked, that they are from 10 to 17 years old."""
    found = I_AM.search(plain(text))
    return found is not None and 10 <= int(found["age"]) < ADULT


def command_in(text: str) -> Command | None:
    """The command that is the whole of *text*."""
    said = (bare(text), plain(text).strip(" .!"))
    return next((each for each in Command if any(form in words("commands", each) for form in said)), None)


def change_in(text: str, draft: Draft) -> Step | None:
    """The question that somebody wants to answer again ("change days"); None: none, or none that was answered."""
    return topic_in(text, draft) if leads(bare(text), words("commands", "change")) else None


def topic_in(text: str, draft: Draft) -> Step | None:
    """The answered question that *text* names."""
    named = (Step(name) for name, forms in rows("topics").items() if holds(bare(text), forms))
    return next((step for step in named if step in draft.answered and applies(step, draft)), None)
