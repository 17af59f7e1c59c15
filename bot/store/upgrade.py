"""Bringing the tables to the version of the program. The migration library is loaded only when there is work for it."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial

from sqlalchemy import Engine, inspect, text
from sqlalchemy.exc import DatabaseError

from bot.logs import tell
from bot.store.copying import BadCopy, copy_before, copy_whole
from bot.store.engine import file_of
from bot.store.errors import NewerRecords, NoRecords

HEAD = "0002"
"""The newest migration, as its file names it."""


def version_of(engine: Engine) -> str | None:
    """The version of the tables, None for new records."""
    with _told_in_one_line(), engine.connect() as connection:
        if not inspect(connection).has_table("alembic_version"):
            return None
        return connection.execute(text("SELECT version_num FROM alembic_version")).scalar()


@contextmanager
def _told_in_one_line() -> Iterator[None]:
    """What the database finds wrong with the place, as `NoRecords`."""
    try:
        yield
    except DatabaseError as wrong:
        reason = str(wrong.orig).splitlines()[0]
        raise NoRecords(f"--db: the records can't be opened ({reason}); name a file that can be written") from wrong


def bring_up_to_date(engine: Engine, *, copied: bool = True) -> None:
    """Make or upgrade the tables. *copied*: records of an earlier version in a file are copied beside it before that.

    Raises `NewerRecords` for tables of a later version than this program knows.
    """
    version = version_of(engine)
    if version == HEAD:
        return
    from bot.store.migrations.run import known_versions, upgrade

    if version is not None and version not in known_versions():
        raise NewerRecords(f"the records are of version {version}, newer than this program ({HEAD}); upgrade it")
    with _told_in_one_line():
        upgrade(engine, first=partial(_copy_first, engine) if copied else lambda _version: None)


def _copy_first(engine: Engine, version: str | None) -> None:
    """Nobody writes meanwhile, so the copy has all that the old tables ever held."""
    path = file_of(engine)
    if path is None or version in (None, HEAD):
        return
    target = copy_before(path, HEAD)
    try:
        copy_whole(path, target)
    except (OSError, sqlite3.Error, BadCopy) as wrong:
        reason = f"no copy of the records could be made before their upgrade ({wrong})"
        raise NoRecords(f"--db: {reason}; nothing was changed, make room for {target}") from wrong
    tell("copied_before_upgrade", what=HEAD)
