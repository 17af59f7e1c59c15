"""Messages in: kept once for each id, before anything is done about them."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Row, and_, bindparam, func, select, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session as Transaction

from bot.messages import Incoming
from bot.store.locks import has_many_writers
from bot.store.plain import plain
from bot.store.tables import ADDRESS, CLOCK, INBOX, ClockRow, InboxRow

_WAITS = select(INBOX).where(INBOX.c.done.is_(False))
_FIRST_OF_EACH = select(func.min(INBOX.c.id)).where(INBOX.c.done.is_(False)).group_by(INBOX.c.door, INBOX.c.sender)
_BEHIND = and_(ADDRESS.c.door == INBOX.c.door, ADDRESS.c.chat == INBOX.c.sender)
_HEADS = (
    select(INBOX, func.coalesce(ADDRESS.c.who, INBOX.c.sender).label("whose"))
    .select_from(INBOX.outerjoin(ADDRESS, _BEHIND))
    .where(INBOX.c.done.is_(False), INBOX.c.id.in_(_FIRST_OF_EACH))
    .order_by(INBOX.c.id)
    .limit(bindparam("most"))
    .with_for_update(skip_locked=True, of=INBOX)
)
_ROW = _WAITS.where(INBOX.c.id == bindparam("row")).with_for_update()
_SAME = select(INBOX.c.id).where(INBOX.c.door == bindparam("door"), INBOX.c.transport_id == bindparam("name"))
_KEEP_IN_FILE = sqlite.insert(INBOX).on_conflict_do_nothing().returning(INBOX.c.id)
_KEEP_ON_SERVER = postgresql.insert(INBOX).on_conflict_do_nothing().returning(INBOX.c.id)
_START_IN_FILE = sqlite.insert(CLOCK).on_conflict_do_nothing()
_START_ON_SERVER = postgresql.insert(CLOCK).on_conflict_do_nothing()


@dataclass(frozen=True, slots=True)
class Waiting:
    """A message that waits: its row, and whose it is: the person behind the private chat, if known."""

    row: int
    message: Incoming
    who: str


def is_new(tx: Transaction, door: str, transport_id: str) -> bool:
    """Whether no message with this id was kept."""
    return plain(tx).scalar(_SAME, {"door": door, "name": transport_id}) is None


def accept(tx: Transaction, incoming: Incoming) -> bool:
    """Keep a message. False if its id is known: then it has no effect."""
    row = {
        "door": incoming.door,
        "transport_id": incoming.id,
        "chat": incoming.chat,
        "sender": incoming.sender,
        "at": incoming.at,
        "text": incoming.text,
        "press": incoming.press,
        "file": incoming.file,
        "edits": incoming.edits,
        "done": False,
        "dead": False,
    }
    return plain(tx).scalar(_KEEP_ON_SERVER if has_many_writers(tx) else _KEEP_IN_FILE, row) is not None


def waiting(tx: Transaction) -> tuple[int, ...]:
    """Row ids of the messages that were kept but not yet answered, in order."""
    return tuple(plain(tx).scalars(select(INBOX.c.id).where(INBOX.c.done.is_(False)).order_by(INBOX.c.id)))


def texts(tx: Transaction) -> tuple[tuple[int, str], ...]:
    """Row ids of the messages that wait, in order, each with its text."""
    waits = select(INBOX.c.id, INBOX.c.text).where(INBOX.c.done.is_(False)).order_by(INBOX.c.id)
    return tuple((row.id, row.text or "") for row in plain(tx).execute(waits))


def heads(tx: Transaction, most: int) -> tuple[Waiting, ...]:
    """Up to *most* messages to be answered now, in order: nobody else gets them meanwhile.

    Only the oldest of each sender is given, and none that another process is at: so the order of one sender's messages
    is kept, and somebody who writes a thousand of them keeps nobody else waiting.
    """
    rows = plain(tx).execute(_HEADS, {"most": most})
    return tuple(Waiting(row.id, _message_of(row), row.whose) for row in rows)


def take(tx: Transaction, row_id: int) -> Incoming | None:
    """The message of one row, which is done when this transaction is kept. None if it was answered already."""
    row = plain(tx).execute(_ROW, {"row": row_id}).first()
    if row is None:
        return None
    done(tx, [row_id])
    return _message_of(row)


def done(tx: Transaction, rows: Sequence[int]) -> None:
    """The messages of these rows are answered when this transaction is kept."""
    plain(tx).execute(update(INBOX).where(INBOX.c.id.in_(rows)).values(done=True))


def _message_of(row: Row[Any]) -> Incoming:
    said = (row.text, row.press, row.file, row.edits)
    return Incoming(row.door, row.transport_id, row.chat, row.sender, row.at, *said)


def give_up(tx: Transaction, row_id: int) -> Incoming | None:
    """The message of a row that could not be answered: it is set aside, so that the others are answered."""
    incoming = take(tx, row_id)
    tx.execute(update(InboxRow).where(InboxRow.id == row_id).values(dead=True))
    return incoming


def clock(tx: Transaction) -> datetime | None:
    """The instant up to which everything was done; None on new records."""
    row = tx.get(ClockRow, 1)
    return None if row is None else row.at


def zones(tx: Transaction) -> str | None:
    """The version of the time zone data that the due times stand on; None: it was not noted."""
    row = tx.get(ClockRow, 1)
    return None if row is None else row.zones


def set_zones(tx: Transaction, version: str) -> None:
    """All due times stand on this version of the time zone data. The clock has started."""
    tx.get_one(ClockRow, 1).zones = version


def set_clock(tx: Transaction, at: datetime) -> None:
    """Everything was done up to *at*."""
    row = tx.get(ClockRow, 1, with_for_update=True)
    if row is None:
        plain(tx).execute(_START_ON_SERVER if has_many_writers(tx) else _START_IN_FILE, {"id": 1, "at": at})
        row = tx.get_one(ClockRow, 1, with_for_update=True)  # of two processes one has started it
    row.at = max(row.at, at)


def forget(tx: Transaction, incoming: Incoming) -> None:
    """Nothing of the message is kept but its id, so that a second copy still has no effect."""
    tx.execute(
        update(InboxRow)
        .where(InboxRow.door == incoming.door, InboxRow.transport_id == incoming.id)
        .values(chat="", sender="", text=None, press=None, file=None)
    )
