"""The desk between doors and turns: messages are kept before they are answered, and answered before they are marked."""

from collections.abc import Iterable
from datetime import datetime

from bot.messages import Incoming, Outgoing
from bot.store import inbox, outbox
from bot.store.unit import Store
from bot.turn import Turns


class Desk:
    """What doors talk to. One thread, one writer."""

    def __init__(self, store: Store, door: str) -> None:
        """*door*: behind which people are looked for who were not met anywhere yet."""
        self.store = store
        self.turns = Turns(store, door)
        self.started = False
        self.turns.answer_waiting()

    def clock(self) -> datetime | None:
        """The instant up to which everything was done; None on new records."""
        with self.store.begin() as tx:
            return inbox.clock(tx)

    def is_new(self, door: str, message_id: str) -> bool:
        """Whether no message with this id was kept."""
        with self.store.begin() as tx:
            return inbox.is_new(tx, door, message_id)

    def advance(self, until: datetime, now: datetime | None = None) -> None:
        """Do what falls due up to *until*; each thing on time, or at *now* if that is given."""
        if not self.started:
            self.turns.start_clock(until)
            self.started = True
        self.turns.sweep(until, now)
        with self.store.begin() as tx:
            inbox.set_clock(tx, until)

    def receive(self, incoming: Incoming) -> None:
        """Keep a message, then answer it. A known id has no second effect."""
        if self.turns.accept(incoming):
            self.turns.answer_waiting()

    def unsent(self, door: str) -> tuple[Outgoing, ...]:
        """Messages that wait for the door, in order."""
        with self.store.begin() as tx:
            return outbox.unsent(tx, door)

    def mark_sent(self, ids: Iterable[str]) -> None:
        """The door has delivered these."""
        with self.store.begin() as tx:
            outbox.mark_sent(tx, ids)
