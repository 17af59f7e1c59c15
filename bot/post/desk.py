"""The desk between doors and turns: messages are kept before they are answered, and answered before they are marked."""

from collections.abc import Callable, Iterable
from datetime import datetime
from typing import TypeVar

from sqlalchemy.exc import DatabaseError
from sqlalchemy.orm import Session as Transaction

from bot.logs import note
from bot.messages import Incoming, Outgoing
from bot.post.drawing import drawn
from bot.store import inbox, outbox
from bot.store.unit import Store
from bot.turn import Turns
from bot.turn.coaching import Draw, by_chance
from bot.turn.tell import help_meanwhile, unkept_answer

Answer = TypeVar("Answer")


class Desk:
    """What doors talk to. One thread, one writer."""

    def __init__(self, store: Store, door: str, draw: Draw = by_chance) -> None:
        """*door*: behind which people are looked for who were not met anywhere yet; *draw*: bytes for new codes."""
        self.store = store
        self.turns = Turns(store, door, draw)
        self.started = False
        self.loose: list[Outgoing] = []
        """Answers that could not be kept because nothing could."""
        self.delivered: set[str] = set()
        """Messages that the door has taken but that could not be marked yet."""
        self.owes = True
        """Whether messages may wait that were kept but not answered."""
        self.behind: tuple[datetime, datetime | None] | None = None
        """Up to where things fell due that could not be done yet."""
        self._catch_up()

    def clock(self) -> datetime | None:
        """The instant up to which everything was done; None on new records."""
        return self._look(inbox.clock, None)

    def is_new(self, door: str, message_id: str) -> bool:
        """Whether no message with this id was kept."""
        return self._look(lambda tx: inbox.is_new(tx, door, message_id), otherwise=True)

    def advance(self, until: datetime, now: datetime | None = None) -> None:
        """Do what falls due up to *until*; each thing on time, or at *now* if that is given."""
        if self._catch_up():
            self._sweep(until, now)

    def _catch_up(self) -> bool:
        """Do what a fault of the records has held up, in order. False when it still does."""
        if self.behind is not None and not self._sweep(*self.behind):
            return False
        return not self.owes or self._answer()

    def _sweep(self, until: datetime, now: datetime | None) -> bool:
        """Do what falls due. False when the records can't be written just now: then it is done later."""
        try:
            if not self.started:
                self.turns.start_clock(until)
                self.started = True
            self.turns.sweep(until, now)
            with self.store.begin() as tx:
                inbox.set_clock(tx, until)
        except DatabaseError as fault:
            note("not_swept", row=0, fault=type(fault).__name__)
            self.behind = (until, now)
            return False
        self.behind = None
        return True

    def receive(self, incoming: Incoming) -> None:
        """Keep a message, then answer it. A known id has no second effect.

        When nothing can be kept (disk full, read-only) that is said at once, and danger is answered all the same.
        """
        try:
            fresh = self.turns.accept(incoming)
        except DatabaseError as fault:
            note("not_kept", row=0, fault=type(fault).__name__)
            self.loose.append(unkept_answer(incoming))
            return
        self.owes = True  # also a known one may wait: who kept it may have died before it was answered
        if not self._catch_up() and fresh:
            self.loose.extend(help_meanwhile(incoming))

    def _answer(self) -> bool:
        """Answer all that waits. False when the records can't be written just now: then it is done later."""
        try:
            self.turns.answer_waiting()
        except DatabaseError as fault:
            note("not_answered", row=0, fault=type(fault).__name__)
            self.owes = True
            return False
        self.owes = False
        return True

    def unsent(self, door: str) -> tuple[Outgoing, ...]:
        """Messages that wait for the door, in order; those first that could not be kept."""
        nothing: tuple[Outgoing, ...] = ()
        loose = [each for each in self.loose if each.door == door]
        kept = self._look(lambda tx: outbox.unsent(tx, door), nothing)
        return (*loose, *(drawn(each) for each in kept if each.id not in self.delivered))

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
        self.delivered.update(each for each in sent if each.startswith(outbox.PREFIX))
        if not self.delivered:
            return
        try:
            with self.store.begin() as tx:
                outbox.mark_sent(tx, self.delivered)
        except DatabaseError as fault:
            note("not_marked", row=0, fault=type(fault).__name__)
        else:
            self.delivered.clear()
