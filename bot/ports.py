"""What the rooms promise each other: the shapes that doors and clocks have, and what a door may ask of the core."""

from collections.abc import Iterable
from datetime import datetime
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
