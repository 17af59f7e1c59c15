"""Which messages a sender may hand to a door now, and what became of each try. Order is kept within a chat."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import Update, bindparam, delete, exists, func, or_, select, update
from sqlalchemy.orm import Session as Transaction

from bot.messages import Outgoing
from bot.store.locks import LONGEST_HOLD, hold_times, is_free
from bot.store.outbox import is_help, outgoing
from bot.store.plain import plain
from bot.store.routes import leads_elsewhere
from bot.store.tables import INBOX, OUTBOX

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


_OLDER = OUTBOX.alias()
_OLDER_WAITS = exists().where(
    _OLDER.c.door == OUTBOX.c.door,
    _OLDER.c.chat == OUTBOX.c.chat,
    _OLDER.c.id < OUTBOX.c.id,
    _OLDER.c.sent.is_(False),
    _OLDER.c.parked.is_(None),
)
_WAITS = (OUTBOX.c.sent.is_(False), OUTBOX.c.parked.is_(None))
_HEADS = (
    select(OUTBOX)
    .where(
        *_WAITS,
        OUTBOX.c.door == bindparam("door"),
        is_free(OUTBOX.c.held_until),
        or_(is_help(), ~_OLDER_WAITS),
        ~leads_elsewhere(),
    )
    .order_by(is_help().desc(), OUTBOX.c.id)
    .limit(bindparam("most"))
    .with_for_update(skip_locked=True, of=OUTBOX)
)
_TAKEN = update(OUTBOX).where(OUTBOX.c.id.in_(bindparam("rows", expanding=True)))


def claim(tx: Transaction, wish: Claim) -> tuple[Try, ...]:
    """The oldest message of each chat that waits, help before all others; nobody else gets them for the lease."""
    asked = {"door": wish.door, "process": wish.process, "most": wish.most, **hold_times(wish.now)}
    rows = plain(tx).execute(_HEADS, asked).all()
    if rows:
        held = {"tries": OUTBOX.c.tries + 1, "held_until": wish.now + wish.lease}
        plain(tx).execute(_TAKEN.values(**held), {"rows": [row.id for row in rows]})
    return tuple(Try(outgoing(row), row.id, row.tries + 1, row.key, row.who) for row in rows)


def later(tx: Transaction, tried: Try, now: datetime, wait: timedelta | None = None) -> None:
    """The door would not have it now: it is tried again after *wait*, or after a while that grows with each try.

    Whoever asks for more than an hour is asked again after each one, since nothing is held for longer.
    """
    first, longest = WAITS
    grown = min(longest, first * 2 ** min(tried.number - 1, 20))
    plain(tx).execute(_of(tried).values(held_until=now + min(LONGEST_HOLD, max(grown, wait or grown))))


def park(tx: Transaction, tried: Try, reason: str) -> None:
    """It is never sent. *reason*: for the host; none of the person's words."""
    plain(tx).execute(_of(tried).values(parked=reason, held_until=None))


def drop(tx: Transaction, tried: Try) -> None:
    """It is not sent, and its key is free for what is said in its place."""
    plain(tx).execute(delete(OUTBOX).where(OUTBOX.c.id == tried.row, OUTBOX.c.sent.is_(False)))


def _of(tried: Try) -> Update:
    there = (OUTBOX.c.id == tried.row, OUTBOX.c.tries == tried.number, OUTBOX.c.sent.is_(False))
    return update(OUTBOX).where(*there)


def parked(tx: Transaction) -> tuple[Parked, ...]:
    """What is never sent, by door and reason."""
    wanted = (OUTBOX.c.door, OUTBOX.c.parked, func.count(), func.min(OUTBOX.c.at))
    rows = plain(tx).execute(
        select(*wanted).where(OUTBOX.c.parked.is_not(None)).group_by(OUTBOX.c.door, OUTBOX.c.parked)
    )
    return tuple(Parked(door, str(reason), count, since) for door, reason, count, since in sorted(rows))


def let_go(tx: Transaction, tries: Iterable[Try]) -> None:
    """These were taken but not tried: somebody else may have them at once."""
    for tried in tries:
        plain(tx).execute(_of(tried).values(held_until=None))


def over(tx: Transaction, door: str, waiting: Mapping[str, str]) -> frozenset[str]:
    """Which of these messages were answered, with all that this caused sent. *waiting*: id and chat of each."""
    asked = select(INBOX.c.transport_id).where(INBOX.c.door == door, INBOX.c.transport_id.in_(waiting))
    answered = set(plain(tx).scalars(asked.where(INBOX.c.done)))
    left = plain(tx).execute(select(OUTBOX.c.key, OUTBOX.c.chat).where(*_WAITS, OUTBOX.c.door == door)).all()
    causes = {key.removeprefix(f"{door}:").rpartition(":")[0] for key, _ in left if key.startswith(f"{door}:")}
    chats = {chat for _, chat in left}
    return frozenset(each for each in answered - causes if waiting[each] not in chats)
