"""Everything about one person: gathered for them, or erased. The tables are found by themselves: none is left out."""

from datetime import datetime
from hashlib import sha256

from sqlalchemy import Table, delete, select, update
from sqlalchemy.orm import Session as Transaction

from bot.store.tables import AddressRow, Base, InboxRow, PersonRow, TombstoneRow

OWN = tuple(table for table in reversed(Base.metadata.sorted_tables) if "who" in table.columns)
"""All tables that name a person, children first."""


def erase(tx: Transaction, who: str) -> None:
    """All rows about *who* go. Of their messages only the ids stay, so that a late copy has no effect."""
    chats = (who, *tx.scalars(select(AddressRow.chat).where(AddressRow.who == who)))
    blank = {"chat": "", "sender": "", "text": None, "press": None, "file": None}
    tx.execute(update(InboxRow).where(InboxRow.sender.in_(chats) | InboxRow.chat.in_(chats)).values(blank))
    for table in OWN:
        tx.execute(delete(table).where(table.c.who == who))
    tx.expire_all()


def remember_erased(tx: Transaction, who: str, at: datetime) -> None:
    """Leave a mark without a name, so that a copy of old records can be erased again."""
    mark = sha256(who.encode()).hexdigest()
    if tx.get(TombstoneRow, mark) is None:
        tx.add(TombstoneRow(mark=mark, erased_at=at))


def rows_about(tx: Transaction, who: str) -> tuple[tuple[Table, tuple[dict[str, object], ...]], ...]:
    """All rows about *who*, table by table, as they are kept."""
    gathered = []
    for table in reversed(OWN):
        found = tx.execute(select(table).where(table.c.who == who).order_by(*table.primary_key)).mappings()
        gathered.append((table, tuple(dict(row) for row in found)))
    return tuple(gathered)


def is_known(tx: Transaction, who: str) -> bool:
    """Whether anything is kept of *who*."""
    return tx.get(PersonRow, who) is not None
