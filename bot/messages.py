"""What doors and core say to each other."""

from dataclasses import dataclass
from datetime import date, datetime


@dataclass(frozen=True, slots=True)
class Bar:
    """One week of a picture: its Monday, minutes, minutes of the longest session."""

    monday: date
    minutes: float
    longest_min: float


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file that came in or goes out: name, media type, bytes.

    *bars*: a picture that is still to be drawn, which takes too long for a turn; no door gets to see them.
    """

    name: str
    type: str
    content: bytes
    bars: tuple[Bar, ...] = ()

    __pydantic_config__ = {"ser_json_bytes": "base64", "val_json_bytes": "base64"}  # noqa: RUF012 - bytes as JSON text


@dataclass(frozen=True, slots=True)
class Incoming:
    """One message from a chat system.

    *id*: the chat system's own id of it, unique within *door*; *chat*: where it was said; *sender*: who said it (the
    same as *chat* in a private chat); *at*: UTC instant. Just one of *text*, *press* (a button id) and *file* is given.
    *edits*: the id of an earlier message of theirs, of which *text* is the new wording.
    """

    door: str
    id: str
    chat: str
    sender: str
    at: datetime
    text: str | None = None
    press: str | None = None
    file: Attachment | None = None
    edits: str | None = None

    @property
    def private(self) -> bool:
        """Whether nobody else reads this chat."""
        return self.chat == self.sender


@dataclass(frozen=True, slots=True)
class Button:
    """A button under a message: opaque id and the label that is shown."""

    id: str
    label: str


@dataclass(frozen=True, slots=True)
class Outgoing:
    """One message to a chat system. *about*: one JSON object that says in facts what *text* says in words."""

    id: str
    door: str
    chat: str
    at: datetime
    text: str
    about: str
    buttons: tuple[Button, ...] = ()
    files: tuple[Attachment, ...] = ()
