"""The connection to the records, set up so that nothing acknowledged is lost.

SQLite through SQLAlchemy as it comes loses updates without an error: no BEGIN is sent before a SELECT. So every
transaction here starts with BEGIN IMMEDIATE, and every commit is on the disk before it is said to be done (FULL).
"""

import sqlite3
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

from bot.store.errors import NoRecords

PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=5000", "secure_delete=ON")


def _on_connect(connection: Any, _record: object) -> None:
    if isinstance(connection, sqlite3.Connection):
        connection.isolation_level = None
        for pragma in PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")


def _on_begin(connection: Connection) -> None:
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql("BEGIN IMMEDIATE")


def is_there(engine: Engine) -> bool:
    """Whether records may stand at that place; a file that isn't there holds none, and looking must not make one."""
    path = engine.url.database
    return engine.dialect.name != "sqlite" or (path is not None and Path(path).is_file())


def open_engine(url: str) -> Engine:
    """The engine for *url*. Values never stand in logs or error texts. Raises `NoRecords` for a URL that is none."""
    try:
        parsed = make_url(url)
        engine = create_engine(parsed, hide_parameters=True, pool_size=1, max_overflow=4)
    except (ArgumentError, ImportError, TypeError) as wrong:
        raise NoRecords(f'--db: "{url}" is no database URL; write sqlite:///lamppost.sqlite3') from wrong
    event.listen(engine, "connect", _on_connect)
    event.listen(engine, "begin", _on_begin)
    return engine
