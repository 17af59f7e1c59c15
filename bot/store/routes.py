"""Through which process a chat speaks, where several serve: its messages go out there as long as that one lives."""

from collections.abc import Collection
from datetime import datetime

from sqlalchemy import ColumnElement, bindparam, delete, exists, select, tuple_, update
from sqlalchemy.dialects.postgresql import insert
from sqlalchemy.orm import Session as Transaction

from bot.store.locks import has_many_writers
from bot.store.tables import OUTBOX, ROUTE, RouteRow


def speaks_through(tx: Transaction, door: str, chat: str, process: str, until: datetime) -> None:
    """The chat speaks through *process*; nobody else sends to it before *until*."""
    if has_many_writers(tx):
        told = {"process": process, "until": until}
        row = insert(RouteRow).values(door=door, chat=chat, **told)
        tx.execute(row.on_conflict_do_update(index_elements=["door", "chat"], set_=told))


def renew(tx: Transaction, process: str, until: datetime) -> None:
    """The process is alive: its chats are its own until then. It waits for nobody who is taking one of them over."""
    if has_many_writers(tx):
        key = tuple_(RouteRow.door, RouteRow.chat)
        free = select(RouteRow.door, RouteRow.chat).where(RouteRow.process == process).with_for_update(skip_locked=True)
        tx.execute(
            update(RouteRow).where(key.in_(free)).values(until=until).execution_options(synchronize_session=False)
        )


def end(tx: Transaction, door: str, chats: Collection[str], process: str) -> None:
    """These chats no longer speak through *process*."""
    if chats and has_many_writers(tx):
        mine = (RouteRow.door == door, RouteRow.process == process, RouteRow.chat.in_(chats))
        tx.execute(delete(RouteRow).where(*mine))


def leads_elsewhere() -> ColumnElement[bool]:
    """Whether a message has to go out through another process than *process*, at *now*."""
    same = (ROUTE.c.door == OUTBOX.c.door, ROUTE.c.chat == OUTBOX.c.chat)
    return exists().where(*same, ROUTE.c.process != bindparam("process"), ROUTE.c.until > bindparam("now"))
