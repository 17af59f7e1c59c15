"""Which messages a sender may hand to a door now, and what became of each try. Order is kept within a chat."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import ColumnElement, Select, Update, delete, exists, func, or_, select, update
from sqlalchemy.orm import Session as Transaction
from sqlalchemy.orm import aliased

from bot.messages import Outgoing
from bot.store.locks import free_at
from bot.store.outbox import is_help, outgoing
from bot.store.routes import leads_elsewhere
from bot.store.tables import InboxRow, OutboxRow

WAITS = (timedelta(seconds=2), timedelta(minutes=10))
"""What a message waits after its first try; it doubles with each further one, up to the second."""


@dataclass(frozen=True, slots=True)
class Try:
    """One try to send a message. *number*: which one, counted from 1; *key*: of the message, *who*: for whom."""

    message: Outgoing
    row: int
    number: int
    key: str
    who: str


@dataclass(frozen=True, slots=True)
class Parked:
    """Messages that are never sent: behind which door, why, how many, since when."""

    door: str
    reason: str
    count: int
    since: datetime


@dataclass(frozen=True, slots=True)
class Claim:
    """What a sender asks for. *lease*: how long nobody else gets what is given; *process*: its own name."""

    door: str
    now: datetime
    lease: timedelta
    most: int
    process: str


def claim(tx: Transaction, wish: Claim) -> tuple[Try, ...]:
    """The oldest message of each chat that waits, help before all others; nobody else gets them for the lease."""
    rows = tx.scalars(_heads(wish).with_for_update(skip_locked=True, of=OutboxRow)).all()
    for row in rows:
        row.tries += 1
        row.held_until = wish.now + wish.lease
    tx.flush()
    return tuple(Try(outgoing(row), row.id, row.tries, row.key, row.who) for row in rows)


def _waits() -> tuple[ColumnElement[bool], ...]:
    return (OutboxRow.sent.is_(False), OutboxRow.parked.is_(None))


def _heads(wish: Claim) -> Select[OutboxRow]:
    older, helps = aliased(OutboxRow), is_help()
    before = exists().where(
        older.door == OutboxRow.door,
        older.chat == OutboxRow.chat,
        older.id < OutboxRow.id,
        older.sent.is_(False),
        older.parked.is_(None),
    )
    wanted = select(OutboxRow).where(
        *_waits(),
        OutboxRow.door == wish.door,
        free_at(OutboxRow.held_until, wish.now),
        or_(helps, ~before),
        ~leads_elsewhere(wish.process, wish.now),
    )
    return wanted.order_by(helps.desc(), OutboxRow.id).limit(wish.most)


def later(tx: Transaction, tried: Try, now: datetime, wait: timedelta | None = None) -> None:
    """The door would not have it now: it is tried again after *wait*, or after a while that grows with each try."""
    first, longest = WAITS
    grown = min(longest, first * 2 ** min(tried.number - 1, 20))
    tx.execute(_of(tried).values(held_until=now + max(grown, wait or grown)))


def park(tx: Transaction, tried: Try, reason: str) -> None:
    """It is never sent. *reason*: for the host; none of the person's words."""
    tx.execute(_of(tried).values(parked=reason, held_until=None))


def drop(tx: Transaction, tried: Try) -> None:
    """It is not sent, and its key is free for what is said in its place."""
    tx.execute(delete(OutboxRow).where(OutboxRow.id == tried.row, OutboxRow.sent.is_(False)))


def _of(tried: Try) -> Update:
    there = (OutboxRow.id == tried.row, OutboxRow.tries == tried.number, OutboxRow.sent.is_(False))
    return update(OutboxRow).where(*there)


def parked(tx: Transaction) -> tuple[Parked, ...]:
    """What is never sent, by door and reason."""
    wanted = (OutboxRow.door, OutboxRow.parked, func.count(), func.min(OutboxRow.at))
    rows = tx.execute(select(*wanted).where(OutboxRow.parked.is_not(None)).group_by(OutboxRow.door, OutboxRow.parked))
    return tuple(Parked(door, str(reason), count, since) for door, reason, count, since in sorted(rows))


def let_go(tx: Transaction, tries: Iterable[Try]) -> None:
    """These were taken but not tried: somebody else may have them at once."""
    for tried in tries:
        tx.execute(_of(tried).values(held_until=None))


def over(tx: Transaction, door: str, waiting: Mapping[str, str]) -> frozenset[str]:
    """Which of these messages were answered, with all that this caused sent. *waiting*: id and chat of each."""
    asked = select(InboxRow.transport_id).where(InboxRow.door == door, InboxRow.transport_id.in_(waiting))
    answered = set(tx.scalars(asked.where(InboxRow.done)))
    left = tx.execute(select(OutboxRow.key, OutboxRow.chat).where(*_waits(), OutboxRow.door == door)).all()
    causes = {key.removeprefix(f"{door}:").rpartition(":")[0] for key, _ in left if key.startswith(f"{door}:")}
    chats = {chat for _, chat in left}
    return frozenset(each for each in answered - causes if waiting[each] not in chats)
