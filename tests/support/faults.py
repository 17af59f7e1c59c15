"""Records whose process dies at a chosen commit, before it took effect or after it did."""

import sqlite3
from enum import Enum

from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session

from bot.store.unit import Store


class Crash(BaseException):
    """The process died here. No handler of ours may catch it."""


class When(Enum):
    BEFORE = "before"
    AFTER = "after"


class DyingStore(Store):
    """Dies at the *at*-th commit, counted from 1."""

    at: int
    when: When
    count = 0

    def commit(self, tx: Session) -> None:
        self.count += 1
        if self.count == self.at and self.when is When.BEFORE:
            raise Crash
        super().commit(tx)
        if self.count == self.at and self.when is When.AFTER:
            raise Crash


def dying(url: str, at: int, when: When) -> DyingStore:
    store = DyingStore.open(url)
    assert isinstance(store, DyingStore)
    store.at, store.when = at, when
    return store


class FullDisk(OperationalError):
    """What the database says when the disk is full for a moment."""

    def __init__(self) -> None:
        super().__init__("COMMIT", None, RuntimeError("database or disk is full"))


class HinderedStore(Store):
    """Can't keep what the *at*-th transaction wrote, counted from 1; all is well again afterwards."""

    at = 0
    count = 0
    written = 0

    def commit(self, tx: Session) -> None:
        before, self.written = self.written, written_by(tx)
        self.count += self.written > before
        if self.written > before and self.count == self.at:
            raise FullDisk
        super().commit(tx)


def written_by(tx: Session) -> int:
    """Rows that were written on this connection since it was opened."""
    connection = tx.connection().connection.dbapi_connection
    assert isinstance(connection, sqlite3.Connection)
    tx.flush()
    return connection.total_changes


def hindered(url: str, at: int) -> HinderedStore:
    store = HinderedStore.open(url)
    assert isinstance(store, HinderedStore)
    store.at = at
    return store
