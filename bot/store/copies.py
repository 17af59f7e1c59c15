"""Copies of the records in a file: made while they are in use, looked at, put back."""

import sqlite3
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import select, update
from sqlalchemy.engine import make_url

from bot.store.copying import BadCopy, check_file, copy_file, copy_whole, keep_for_good, part_of, remove
from bot.store.engine import SQLITE, file_of, open_engine
from bot.store.errors import NoRecords
from bot.store.privacy import erase, mark_of, remember_erased
from bot.store.tables import OutboxRow, PersonRow, TombstoneRow
from bot.store.unit import Store

HELD = "restored"
"""Why a message of a copy that was put back is not sent: it is as old as the copy."""


def back_up(url: str, target: Path) -> int:
    """Copy the records at *url* to the new file *target*, whole at one moment, while they are in use; its bytes.

    The copy is looked at before it gets its name. Raises `BadCopy` or `NoRecords`.
    """
    source = _file_at(url)
    if target.exists():
        raise BadCopy(f"{target}: is there already; name a new file")
    try:
        copy_whole(source, target)
    except (OSError, sqlite3.Error) as wrong:
        raise BadCopy(f"{target}: can't be written ({wrong})") from wrong
    return target.stat().st_size


@dataclass(frozen=True, slots=True)
class Restored:
    """*held*: messages that were not sent when the copy was made; *erased*: people who had left since."""

    held: int
    erased: int


def restore(copy: Path, url: str, newer: Path | None = None) -> Restored:
    """Put a *copy* where no records stand. *newer*: the records that it takes the place of, moved away.

    Messages that were not sent yet are kept but not sent: nobody wants a reminder of the day of the copy. Whoever had
    left by the time of the *newer* records is erased again. Raises `BadCopy`, `NoRecords` or `NewerRecords`.
    """
    engine = open_engine(url)
    target = file_of(engine)
    if target is None:
        raise BadCopy(f"restore puts a copy into a file; {server_hint(url, 'pg_restore')}")
    if target.exists():
        raise BadCopy(f"{target}: records stand there; move them away first, with the files ending in -wal and -shm")
    part = part_of(target)
    try:
        check_file(copy)
        copy_file(copy, part)
        done = _tidy(part, _marks_in(newer) if newer else {})
        remove(target)
        keep_for_good(part, target)
    except (OSError, sqlite3.Error) as wrong:
        raise BadCopy(f"{target}: can't be written ({wrong})") from wrong
    finally:
        remove(part)
    return done


def server_hint(url: str, program: str) -> str:
    """What to type for records on a server, without the password."""
    shown = make_url(url).set(drivername="postgresql").render_as_string(hide_password=True)
    call = f'pg_dump --format=custom --file=FILE "{shown}"'
    if program == "pg_restore":
        call = f'pg_restore --clean --if-exists --dbname="{shown}" FILE'
    return f"for records on PostgreSQL: {call}"


def _file_at(url: str) -> Path:
    engine = open_engine(url)
    if engine.dialect.name != SQLITE:
        raise BadCopy(server_hint(url, "pg_dump"))
    path = file_of(engine)
    if path is None or not path.is_file():
        raise NoRecords(f"--db: no records stand at {path}")
    return path


def _marks_in(path: Path) -> dict[str, datetime]:
    """Marks of those who left, as these records have them."""
    if not path.is_file():
        raise BadCopy(f"{path}: no records stand there")
    store = Store.open(f"sqlite:///{path}", copied=False)
    with store.begin() as tx:
        marks = {row.mark: row.erased_at for row in tx.scalars(select(TombstoneRow))}
    store.close()
    return marks


def _tidy(path: Path, marks: dict[str, datetime]) -> Restored:
    """Hold the messages, erase who left."""
    store = Store.open(f"sqlite:///{path}", copied=False)
    with store.begin() as tx:
        waits = (OutboxRow.sent.is_(False), OutboxRow.parked.is_(None))
        held = tx.scalars(select(OutboxRow.id).where(*waits)).all()
        tx.execute(update(OutboxRow).where(*waits).values(parked=HELD))
        left = [who for who in tx.scalars(select(PersonRow.who)) if mark_of(who) in marks]
        for who in left:
            erase(tx, who)
            remember_erased(tx, who, marks[mark_of(who)])
    store.tidy()
    store.close()
    return Restored(len(held), len(left))
