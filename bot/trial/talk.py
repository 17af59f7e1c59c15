"""The bot's side of a trial: the real turns on records in memory, one thing after the other. Nothing is drawn."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import datetime

from sqlalchemy.orm import Session as Transaction

from bot.conversation.changes import KeepProfile, SetMarks
from bot.conversation.known import Marks, Rule
from bot.messages import Incoming, Outgoing
from bot.store import due, inbox, outbox
from bot.store.changes import keep
from bot.store.unit import Store
from bot.turn.turns import Turns, enrol, fall_due
from planning.terms.person import Profile

DOOR = "trial"
IN_MEMORY = "sqlite:///:memory:"

Messages = tuple[Outgoing, ...]


class Talk:
    """The bot and those whom it speaks to."""

    def __init__(self, profiles: Iterable[Profile], at: datetime, left_out: tuple[Rule, ...]) -> None:
        """All of them are enrolled at the UTC instant *at*, and spoken to without the rules that are *left_out*."""
        self.store = Store.open(IN_MEMORY)
        self.turns = Turns(self.store, DOOR)
        with self.store.begin() as tx:
            inbox.set_clock(tx, at)
            for profile in profiles:
                enrol(tx, KeepProfile(profile))
                keep(tx, profile.who, SetMarks(replace(Marks(), left_out=left_out)))

    def next_due(self, until: datetime) -> Messages | None:
        """What the next thing that falls due by *until* leads to; None: nothing does."""
        with self.store.begin() as tx:
            claim = due.next_claim(tx, until)
            if claim is None:
                return None
            outbox.put(tx, *fall_due(tx, claim, claim.at, DOOR))
            return _take(tx)

    def say(self, who: str, name: str, at: datetime, text: str) -> Messages:
        """What the bot answers to a *text*. *name*: of the message, unique."""
        self.turns.accept(Incoming(DOOR, name, who, who, at, text))
        self.turns.answer_some(1)
        with self.store.begin() as tx:
            return _take(tx)

    def close(self) -> None:
        """The records end."""
        self.store.close()


def _take(tx: Transaction) -> Messages:
    """What waits, in the order in which it was said."""
    messages = outbox.unsent(tx, DOOR)
    if messages:
        outbox.mark_sent(tx, (each.id for each in messages))
    return messages
