"""The desk between doors and turns: messages are kept before they are answered, and answered before they are marked."""

from collections.abc import Callable, Iterable
from datetime import datetime
from typing import TypeVar

from sqlalchemy.exc import DatabaseError
from sqlalchemy.orm import Session as Transaction

from bot.logs import note
from bot.messages import Incoming, Outgoing
from bot.store import inbox, outbox
from bot.store.unit import Store
from bot.turn import Turns
from bot.turn.tell import unkept_answer

Answer = TypeVar("Answer")


class Desk:
    """What doors talk to. One thread, one writer."""

    def __init__(self, store: Store, door: str) -> None:
        """*door*: behind which people are looked for who were not met anywhere yet."""
        self.store = store
        self.turns = Turns(store, door)
        self.started = False
        self.loose: list[Outgoing] = []
        """Answers that could not be kept because nothing could."""
        self.turns.answer_waiting()

    def clock(self) -> datetime | None:
        """The instant up to which everything was done; None on new records."""
        return self._look(inbox.clock, None)

    def is_new(self, door: str, message_id: str) -> bool:
        """Whether no message with this id was kept."""
        return self._look(lambda tx: inbox.is_new(tx, door, message_id), otherwise=True)

    def advance(self, until: datetime, now: datetime | None = None) -> None:
        """Do what falls due up to *until*; each thing on time, or at *now* if that is given."""
        try:
            if not self.started:
                self.turns.start_clock(until)
                self.started = True
            self.turns.sweep(until, now)
            with self.store.begin() as tx:
                inbox.set_clock(tx, until)
        except DatabaseError as fault:
            note("not_swept", row=0, fault=type(fault).__name__)

    def receive(self, incoming: Incoming) -> None:
        """Keep a message, then answer it. A known id has no second effect.

        When nothing can be kept (disk full, read-only) that is said at once, and danger is answered all the same.
        """
        try:
            if self.turns.accept(incoming):
                self.turns.answer_waiting()
        except DatabaseError as fault:
            note("not_kept", row=0, fault=type(fault).__name__)
            self.loose.append(unkept_answer(incoming))

    def unsent(self, door: str) -> tuple[Outgoing, ...]:
        """Messages that wait for the door, in order; those first that could not be kept."""
        loose = tuple(each for each in self.loose if each.door == door)
        nothing: tuple[Outgoing, ...] = ()
        return (*loose, *self._look(lambda tx: outbox.unsent(tx, door), nothing))

    def _look(self, question: Callable[[Transaction], Answer], otherwise: Answer) -> Answer:
        """Ask the records; *otherwise* when they can't be opened just now."""
        try:
            with self.store.begin() as tx:
                return question(tx)
        except DatabaseError:
            return otherwise

    def mark_sent(self, ids: Iterable[str]) -> None:
        """The door has delivered these."""
        sent = frozenset(ids)
        self.loose = [each for each in self.loose if each.id not in sent]
        kept = [each for each in sent if each.startswith(outbox.PREFIX)]
        if kept:
            with self.store.begin() as tx:
                outbox.mark_sent(tx, kept)
