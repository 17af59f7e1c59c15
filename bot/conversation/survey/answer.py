"""What comes of an answer."""

from dataclasses import dataclass

from bot.conversation.draft import Draft
from bot.conversation.says import Slot
from bot.conversation.survey.echo import Line


@dataclass(frozen=True, slots=True)
class Taken:
    """It was understood, and stands in *draft*. *got*: the line that says so, where it isn't the usual one."""

    draft: Draft
    got: Line | None = None


@dataclass(frozen=True, slots=True)
class Unclear:
    """The question is asked again, or the one at which *draft* stands now. *hint*: the sentence that helps on."""

    draft: Draft
    hint: str
    slots: tuple[Slot, ...] = ()


@dataclass(frozen=True, slots=True)
class TooYoung:
    """Somebody under 18."""


@dataclass(frozen=True, slots=True)
class Leaving:
    """All is to be erased."""


Answer = Taken | Unclear | TooYoung | Leaving
