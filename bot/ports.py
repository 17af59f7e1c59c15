"""What the rooms promise each other: the shapes that doors and clocks have, and what a door may ask of the core."""

from asyncio import Event
from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Protocol

from bot.messages import Incoming, Outgoing


class Clock(Protocol):
    """Where the present comes from."""

    def now(self) -> datetime:
        """The present as an aware instant; never earlier than the one before by more than the system's own jumps."""


class Desk(Protocol):
    """What a door may ask for. All of it is plain and blocking; one thread does it all."""

    def clock(self) -> datetime | None:
        """The instant up to which everything was done; None on new records."""

    def is_new(self, door: str, message_id: str) -> bool:
        """Whether no message with this id was kept."""

    def advance(self, until: datetime, now: datetime | None = None) -> None:
        """Do what falls due up to *until*; each thing on time, or at *now* if that is given."""

    def receive(self, incoming: Incoming) -> None:
        """Keep a message, then answer it. A known id has no second effect."""

    def unsent(self, door: str) -> tuple[Outgoing, ...]:
        """Messages that wait for the door, in order."""

    def mark_sent(self, ids: Iterable[str]) -> None:
        """The door has delivered these."""


class NotNow(Exception):
    """The chat system would not take a message now; it is tried again."""

    def __init__(self, wait: timedelta | None = None) -> None:
        """*wait*: how long it asked to be left in peace; None: it did not say."""
        super().__init__("not now")
        self.wait = wait


class Never(Exception):
    """The chat system will never take this message."""

    def __init__(self, reason: str) -> None:
        """*reason*: for the host; none of the person's words."""
        super().__init__(reason)
        self.reason = reason


class Reception(Protocol):
    """What a door of `serve` may ask for. Other threads and processes do the work."""

    async def keep(self, incoming: Incoming) -> bool:
        """Keep a message. Returns False if its id is known; raises `NotNow` when nothing can be kept."""

    async def over(self, incoming: Incoming) -> None:
        """Wait until a message that was kept is answered and all that this caused is sent."""

    def unkept(self, incoming: Incoming) -> Outgoing:
        """What is said when nothing can be kept: help if the message speaks of danger, else to send it again."""

    def meanwhile(self, incoming: Incoming) -> tuple[Outgoing, ...]:
        """Help for a message that can't be kept or answered yet, if it speaks of danger."""


class ServedDoor(Protocol):
    """A chat system behind `serve`."""

    name: str
    alone: bool
    """Whether only one process at a time may talk to the chat system."""

    async def serve(self, reception: Reception, stop: Event) -> None:
        """Take messages until *stop* is set; then finish what is in hand."""

    def chats(self) -> frozenset[str]:
        """Chats whose messages have to go out through this process; none where it makes no difference."""

    def is_open(self) -> bool:
        """Whether messages can be sent now."""

    async def send(self, message: Outgoing) -> None:
        """Hand a message over; it has arrived when this returns. Raises `NotNow` or `Never`."""
