"""Bringing the tables to the version of the program. The migration library is loaded only when there is work for it."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Engine, inspect, text
from sqlalchemy.exc import DatabaseError

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


def bring_up_to_date(engine: Engine) -> None:
    """Make or upgrade the tables. Raises `NewerRecords` for tables of a later version than this program knows."""
    version = version_of(engine)
    if version == HEAD:
        return
    from bot.store.migrations.run import known_versions, upgrade

    if version is not None and version not in known_versions():
        raise NewerRecords(f"the records are of version {version}, newer than this program ({HEAD}); upgrade it")
    with _told_in_one_line():
        upgrade(engine)
