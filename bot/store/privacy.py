"""Everything about one person: gathered for them, or erased. The tables are found by themselves: none is left out."""

from datetime import datetime
from hashlib import sha256

from sqlalchemy import ColumnElement, Table, delete, select, update
from sqlalchemy.orm import Session as Transaction

from bot.store.seen import forget_all, person
from bot.store.tables import AddressRow, Base, ClearanceRow, InboxRow, NoticeRow, RouteRow, TombstoneRow
from bot.store.unit import ERASED

OWN = tuple(table for table in reversed(Base.metadata.sorted_tables) if "who" in table.columns)
"""All tables that name a person, children first."""

INBOX = Base.metadata.tables[InboxRow.__tablename__]


def erase(tx: Transaction, who: str) -> None:
    """All rows about *who* go. Of their messages only the ids stay, so that a late copy has no effect."""
    forget_all(tx)
    blank = {"chat": "", "sender": "", "text": None, "press": None, "file": None}
    tx.execute(update(InboxRow).where(_said_by(tx, who)).values(blank))
    tx.execute(delete(RouteRow).where(RouteRow.chat.in_(_chats_of(tx, who))))
    for table in OWN:
        tx.execute(delete(table).where(table.c.who == who))
    _forget_coach(tx, who)
    tx.expire_all()
    tx.info[ERASED] = True


def _forget_coach(tx: Transaction, who: str) -> None:
    """Where *who* was a coach, what others keep names nobody."""
    tx.execute(delete(NoticeRow).where((NoticeRow.coach == who) | (NoticeRow.passed_to == who)))
    tx.execute(update(NoticeRow).where(NoticeRow.seen_by == who).values(seen_by=None))
    tx.execute(update(ClearanceRow).where(ClearanceRow.told_by == who).values(told_by=""))


def _said_by(tx: Transaction, who: str) -> ColumnElement[bool]:
    """Which messages came from *who*: a message is kept before anybody knows whose it is, so it names a chat alone."""
    chats = _chats_of(tx, who)
    return InboxRow.sender.in_(chats) | InboxRow.chat.in_(chats)


def _chats_of(tx: Transaction, who: str) -> tuple[str, ...]:
    return (who, *tx.scalars(select(AddressRow.chat).where(AddressRow.who == who)))


def remember_erased(tx: Transaction, who: str, at: datetime) -> None:
    """Leave a mark without a name, so that a copy of old records can be erased again."""
    if tx.get(TombstoneRow, mark_of(who)) is None:
        tx.add(TombstoneRow(mark=mark_of(who), erased_at=at))


def mark_of(who: str) -> str:
    """What is kept of the name of somebody who left."""
    return sha256(who.encode()).hexdigest()


def rows_about(tx: Transaction, who: str) -> tuple[tuple[Table, tuple[dict[str, object], ...]], ...]:
    """All rows about *who*, table by table, as they are kept; last the messages that came from them."""
    wanted = [(table, table.c.who == who) for table in reversed(OWN)] + [(INBOX, _said_by(tx, who))]
    return tuple((table, _rows(tx, table, whose)) for table, whose in wanted)


def _rows(tx: Transaction, table: Table, whose: ColumnElement[bool]) -> tuple[dict[str, object], ...]:
    found = tx.execute(select(table).where(whose).order_by(*table.primary_key)).mappings()
    return tuple(dict(row) for row in found)


def is_known(tx: Transaction, who: str) -> bool:
    """Whether anything is kept of *who*."""
    return person(tx, who) is not None
