"""Copying a file of records while it is in use: whole at one moment, with its name only when all of it is there."""

import os
import sqlite3
from contextlib import closing
from pathlib import Path

from bot.store.errors import StoreError

BESIDE = ("-wal", "-shm")
"""Endings of the files that belong to a database in use."""

BEFORE = ".before-"
"""Stands between the name of the records and the version that they were upgraded to, in the name of a copy of them."""


class BadCopy(StoreError):
    """The copy can't be made, or can't be used."""


def copy_whole(source: Path, target: Path) -> None:
    """Copy the records in *source*, look the copy through, then give it its name, in place of what had that name.

    Raises `BadCopy`, `OSError` or `sqlite3.Error`; what had the name is still there then.
    """
    part = part_of(target)
    try:
        copy_file(source, part)
        check_file(part)
        keep_for_good(part, target)
    finally:
        remove(part)


def part_of(target: Path) -> Path:
    """Where a copy stands until all of it is there."""
    return target.with_name(f"{target.name}.part")


def copy_file(source: Path, part: Path) -> None:
    """Copy also what stands only in the log beside *source*; nobody else may read the copy."""
    part.unlink(missing_ok=True)
    part.touch(mode=0o600)
    with closing(sqlite3.connect(source)) as live, closing(sqlite3.connect(part)) as copy:
        live.backup(copy)
        copy.execute("PRAGMA journal_mode=DELETE")


def check_file(path: Path) -> None:
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


def keep_for_good(part: Path, target: Path) -> None:
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


def remove(path: Path) -> None:
    """The file goes, with those that belong to it."""
    for ending in ("", *BESIDE):
        path.with_name(path.name + ending).unlink(missing_ok=True)


def copy_before(path: Path, version: str) -> Path:
    """Where the copy of the records at *path* stands that was made before they were upgraded to *version*."""
    return path.with_name(f"{path.name}{BEFORE}{version}")


def copies_before(path: Path) -> tuple[Path, ...]:
    """All copies of the records at *path* that were made before an upgrade, in order of version."""
    return tuple(sorted(each for each in path.parent.iterdir() if each.name.startswith(f"{path.name}{BEFORE}")))
