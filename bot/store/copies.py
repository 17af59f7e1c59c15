"""Copies of the records in a file: made while they are in use, looked at, put back."""

import os
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import select, update
from sqlalchemy.engine import make_url

from bot.store.engine import SQLITE, file_of, open_engine
from bot.store.errors import NoRecords, StoreError
from bot.store.privacy import erase, mark_of, remember_erased
from bot.store.tables import OutboxRow, PersonRow, TombstoneRow
from bot.store.unit import Store

HELD = "restored"
"""Why a message of a copy that was put back is not sent: it is as old as the copy."""

BESIDE = ("-wal", "-shm")
"""Endings of the files that belong to a database in use."""


class BadCopy(StoreError):
    """The copy can't be made, or can't be used."""


def back_up(url: str, target: Path) -> int:
    """Copy the records at *url* to the new file *target*, whole at one moment, while they are in use; its bytes.

    The copy is looked at before it gets its name. Raises `BadCopy` or `NoRecords`.
    """
    source = _file_at(url)
    if target.exists():
        raise BadCopy(f"{target}: is there already; name a new file")
    part = target.with_name(f"{target.name}.part")
    try:
        _copy(source, part)
        _check_file(part)
        _keep_for_good(part, target)
    except (OSError, sqlite3.Error) as wrong:
        raise BadCopy(f"{target}: can't be written ({wrong})") from wrong
    finally:
        _remove(part)
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
    part = target.with_name(f"{target.name}.part")
    try:
        _check_file(copy)
        _copy(copy, part)
        done = _tidy(part, _marks_in(newer) if newer else {})
        _remove(target)
        _keep_for_good(part, target)
    except (OSError, sqlite3.Error) as wrong:
        raise BadCopy(f"{target}: can't be written ({wrong})") from wrong
    finally:
        _remove(part)
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


def _copy(source: Path, part: Path) -> None:
    """Also what stands only in the log beside *source*."""
    part.unlink(missing_ok=True)
    part.touch(mode=0o600)
    with closing(sqlite3.connect(source)) as live, closing(sqlite3.connect(part)) as copy:
        live.backup(copy)
        copy.execute("PRAGMA journal_mode=DELETE")


def _remove(path: Path) -> None:
    for ending in ("", *BESIDE):
        path.with_name(path.name + ending).unlink(missing_ok=True)


def _check_file(path: Path) -> None:
    """Raises `BadCopy` if the file is no whole copy of records."""
    try:
        with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as copy:
            faults = [row[0] for row in copy.execute("PRAGMA integrity_check")]
            orphans = copy.execute("PRAGMA foreign_key_check").fetchall()
            copy.execute("SELECT version_num FROM alembic_version").fetchone()
    except sqlite3.Error as wrong:
        raise BadCopy(f"{path}: is no copy of records ({wrong})") from wrong
    if faults != ["ok"] or orphans:
        raise BadCopy(f"{path}: is damaged")


def _marks_in(path: Path) -> dict[str, datetime]:
    """Marks of those who left, as these records have them."""
    if not path.is_file():
        raise BadCopy(f"{path}: no records stand there")
    store = Store.open(f"sqlite:///{path}")
    with store.begin() as tx:
        marks = {row.mark: row.erased_at for row in tx.scalars(select(TombstoneRow))}
    store.close()
    return marks


def _tidy(path: Path, marks: dict[str, datetime]) -> Restored:
    """Hold the messages, erase who left."""
    store = Store.open(f"sqlite:///{path}")
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


def _keep_for_good(part: Path, target: Path) -> None:
    """The file gets its name when all of it is on the disk; the name is on the disk when this returns."""
    _sync(part)
    part.rename(target)
    _sync(target.parent)


def _sync(path: Path) -> None:
    handle = os.open(path, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
