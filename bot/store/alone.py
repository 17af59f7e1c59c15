"""That there is only one: one process on a file, and of several on a server one behind a door that allows only one."""

import fcntl
from pathlib import Path
from typing import TextIO

from sqlalchemy import Connection, Engine, func, select
from sqlalchemy.exc import DBAPIError

from bot.store.engine import POSTGRES, file_of
from bot.store.errors import StoreError


class AlreadyServed(StoreError):
    """Another process works on the same file."""


class FileLock:
    """Held by the one process that serves a file; the system lets go of it when the process dies, however it does."""

    def __init__(self, engine: Engine) -> None:
        """*engine*: of the records; those on a server need no lock. Raises `AlreadyServed`."""
        self.file: TextIO | None = None
        path = file_of(engine)
        if path is not None:
            self.file = self._locked(path)

    def _locked(self, path: Path) -> TextIO:
        beside = path.with_name(f"{path.name}.lock")
        held = beside.open("a", encoding="utf-8")
        try:
            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except OSError as wrong:
            held.close()
            more = "stop it first, or keep the records on PostgreSQL, which several can share"
            raise AlreadyServed(f"--db: another process serves {path}; {more}") from wrong
        return held

    def let_go(self) -> None:
        """Another process may serve the file."""
        if self.file is not None:
            self.file.close()
            self.file = None


class OnlyOne:
    """A name that only one of all processes on a server holds; lost with the connection, so with the process."""

    def __init__(self, engine: Engine, name: str) -> None:
        """*name*: of what allows only one, as a door."""
        self.engine = engine
        self.number = func.hashtextextended(f"only one {name}", 0)
        self.connection: Connection | None = None

    def hold(self) -> bool:
        """Whether this process holds the name now: if it did, whether it still does; else it is tried for."""
        if self.engine.dialect.name != POSTGRES:
            return True
        try:
            return self._is_alive() if self.connection is not None else self._try()
        except DBAPIError:
            self.let_go()
            return False

    def _is_alive(self) -> bool:
        assert self.connection is not None
        return self.connection.scalar(select(1)) == 1

    def _try(self) -> bool:
        connection = self.engine.connect().execution_options(isolation_level="AUTOCOMMIT")
        if connection.scalar(select(func.pg_try_advisory_lock(self.number))):
            self.connection = connection
            return True
        connection.close()
        return False

    def let_go(self) -> None:
        """Another process may have the name."""
        if self.connection is not None:
            connection, self.connection = self.connection, None
            connection.invalidate()
            connection.close()
