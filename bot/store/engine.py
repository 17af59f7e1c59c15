"""The connection to the records, set up so that nothing acknowledged is lost.

SQLite through SQLAlchemy as it comes loses updates without an error: no BEGIN is sent before a SELECT. So every
transaction here starts with BEGIN IMMEDIATE, and every commit is on the disk before it is said to be done (FULL).
PostgreSQL gets limits, so that a process that hangs or is cut off lets go of what it holds.
"""

import sqlite3
from pathlib import Path
from typing import Any

from sqlalchemy import URL, Connection, Engine, ExceptionContext, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError
from sqlalchemy.pool import StaticPool

from bot.store.errors import NoRecords

PRAGMAS = ("journal_mode=WAL", "synchronous=FULL", "foreign_keys=ON", "busy_timeout=5000", "secure_delete=ON")

SQLITE, POSTGRES = "sqlite", "postgresql"

SERVER_LIMITS = (
    "statement_timeout=30s",
    "lock_timeout=10s",
    "idle_in_transaction_session_timeout=30s",
    "tcp_keepalives_idle=4",
    "tcp_keepalives_interval=2",
    "tcp_keepalives_count=2",
    "tcp_user_timeout=8s",
    "timezone=UTC",
)
"""A process whose network is cut loses its connection, and with it its locks, after 4 + 2 x 2 seconds."""

OWN_LIMITS = {"keepalives_idle": 4, "keepalives_interval": 2, "keepalives_count": 2, "tcp_user_timeout": 8_000}
"""Seconds, and milliseconds: the process itself learns of it as soon; else it could wait for two hours."""

CONNECT_SECONDS = 5

IN_MEMORY = ":memory:"
"""SQLite's name for records that end with the program."""


def _on_connect(connection: Any, _record: object) -> None:
    if isinstance(connection, sqlite3.Connection):
        connection.isolation_level = None
        for pragma in PRAGMAS:
            connection.execute(f"PRAGMA {pragma}")


def _on_begin(connection: Connection) -> None:
    if connection.dialect.name == SQLITE:
        connection.exec_driver_sql("BEGIN IMMEDIATE")


def _on_error(context: ExceptionContext) -> None:
    """The server's errors quote what was to be kept; only the kind of the fault may be told."""
    told, state = context.sqlalchemy_exception, getattr(context.original_exception, "sqlstate", None)
    if told is not None and state is not None:
        told.args = (f"{type(context.original_exception).__name__} ({state})",)


def is_there(engine: Engine) -> bool:
    """Whether records may stand at that place; a file that isn't there holds none, and looking must not make one."""
    path = engine.url.database
    return engine.dialect.name != SQLITE or (path is not None and Path(path).is_file())


def file_of(engine: Engine) -> Path | None:
    """The file that holds the records; None where a server or the memory does."""
    path = engine.url.database
    return Path(path) if engine.dialect.name == SQLITE and path and path != IN_MEMORY else None


def _with_driver(url: URL) -> URL:
    return url.set(drivername="postgresql+psycopg") if url.drivername in (POSTGRES, "postgres") else url


def open_engine(url: str) -> Engine:
    """The engine for *url*. Values never stand in logs or error texts. Raises `NoRecords` for a URL that is none."""
    try:
        parsed = _with_driver(make_url(url))
    except ArgumentError as wrong:
        raise NoRecords(f'--db: "{url}" is no database URL; write sqlite:///lamppost.sqlite3') from wrong
    pool: dict[str, Any] = {"pool_size": 1, "max_overflow": 4}
    if parsed.database == IN_MEMORY:
        pool = {"poolclass": StaticPool, "connect_args": {"check_same_thread": False}}
    server: dict[str, Any] = {}
    if parsed.drivername.startswith(POSTGRES):
        limits = " ".join(f"-c {each}" for each in SERVER_LIMITS)
        named = {"options": limits, "connect_timeout": CONNECT_SECONDS, "application_name": "lamppost"}
        server = {
            "connect_args": named | OWN_LIMITS,
            "pool_pre_ping": True,
        }
    try:
        engine = create_engine(parsed, hide_parameters=True, **pool, **server)
    except (ArgumentError, ImportError, TypeError) as wrong:
        shown = parsed.render_as_string(hide_password=True)
        raise NoRecords(f'--db: "{shown}" is no database URL; write sqlite:///lamppost.sqlite3') from wrong
    event.listen(engine, "connect", _on_connect)
    event.listen(engine, "begin", _on_begin)
    event.listen(engine, "handle_error", _on_error)
    return engine
