"""What can happen to a conversation."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import StrEnum

from bot.conversation.says import Asks
from bot.reading.facts import Reading
from planning.terms.choices import Role


class DueKind(StrEnum):
    """Things that fall due by the clock; at one instant in this order."""

    CLOSE = "close"
    HOME = "home"
    COUNT = "count"
    FOLLOW_UP = "follow_up"
    PUSH = "push"
    EVENING = "evening"
    NUDGE = "nudge"
    REVIEW = "review"
    DEPUTY = "deputy"
    DIGEST = "digest"


TOO_LATE = timedelta(hours=3)
"""What fell due longer ago is told as late, or not at all."""


@dataclass(frozen=True, slots=True)
class Heard:
    """Somebody wrote something (or pressed a button that stands for words). *id*: of the message, unique by door.

    *edited*: it is the new wording of an earlier message, whose effects were taken back.
    """

    id: str
    reading: Reading
    private: bool = True
    edited: bool = False


@dataclass(frozen=True, slots=True)
class Opened:
    """Somebody pressed a button that opens a question."""

    id: str
    asks: Asks


@dataclass(frozen=True, slots=True)
class Outdated:
    """Somebody pressed a button whose question is over, or one that was meant for somebody else."""

    id: str


@dataclass(frozen=True, slots=True)
class Shared:
    """Somebody sent a file. *name*: as the sender called it."""

    id: str
    name: str


@dataclass(frozen=True, slots=True)
class Due:
    """Something fell due: its kind, the local date that it was planned for, how often it was put off."""

    kind: DueKind
    on: date
    ordinal: int = 0
    at: datetime | None = None
    """The UTC instant that it was due at; None where it does not matter."""

    def key(self, who: str) -> str:
        """The natural key of the message that it leads to."""
        return f"{self.kind}:{who}:{self.on}:{self.ordinal}"


@dataclass(frozen=True, slots=True)
class Invited:
    """Somebody who isn't enrolled sent a code. *role*: what it opens, None: nothing; *coach*: whose runner they become.

    *mark*: the code as it is kept, to use it up; *called*: what the coach is called.
    """

    id: str
    text: str
    role: Role | None = None
    coach: str | None = None
    called: str = ""
    mark: str = ""


Event = Invited | Heard | Opened | Outdated | Shared | Due
