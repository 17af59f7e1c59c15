"""What was held up too long: messages by the clock that a door could not take, and due times on old zone data."""

from datetime import date, datetime

from sqlalchemy.orm import Session as Transaction

from bot.conversation.agenda import agenda, is_settled
from bot.conversation.events import TOO_LATE, Due, DueKind
from bot.store import due, locks, outbox, people, sending
from bot.turn.turns import fall_due

TIMED = (DueKind.PUSH, DueKind.EVENING, DueKind.NUDGE, DueKind.REVIEW)
"""What is about a certain hour: later it would not be true any more."""

LATE = "late"
"""Why such a message was not sent."""


def is_too_late(tried: sending.Try, now: datetime) -> bool:
    """Whether a message by the clock has waited for so long that it must not be sent as if it were on time."""
    return _due_of(tried) is not None and now - tried.message.at > TOO_LATE


def take_back(tx: Transaction, tried: sending.Try, now: datetime, door: str) -> None:
    """The message is not sent. The push falls due once more, and what is said then is said as late."""
    named = _due_of(tried)
    if named is None or named.kind is not DueKind.PUSH:
        sending.park(tx, tried, LATE)
        return
    locks.hold(tx, tried.who)
    known = people.find_known(tx, tried.who, now)
    if known.profile is None or is_settled(known, named.on):
        sending.park(tx, tried, LATE)
        return
    sending.drop(tx, tried)
    outbox.put(tx, *fall_due(tx, due.Claim(tried.who, named, tried.message.at), now, door))


def _due_of(tried: sending.Try) -> Due | None:
    """What the message told, by its key: kind, person, day, how often it was put off."""
    kind, _, rest = tried.key.partition(":")
    if kind not in TIMED:
        return None
    _who, day, ordinal = rest.rsplit(":", 2)
    return Due(DueKind(kind), date.fromisoformat(day), int(ordinal), tried.message.at)


def renew(tx: Transaction, who: str, now: datetime) -> None:
    """Due times of *who* in the future are computed anew; what is due already stays."""
    locks.hold(tx, who)
    due.set_agenda(tx, who, agenda(people.find_known(tx, who, now), now), kept_until=now)
