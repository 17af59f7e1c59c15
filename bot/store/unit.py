"""The records, and one piece of work on them: all of it is kept, or nothing."""

from collections.abc import Iterator
from contextlib import contextmanager

from sqlalchemy import Engine
from sqlalchemy.orm import Session

from bot.store import seen
from bot.store.copying import copies_before
from bot.store.engine import SQLITE, file_of, is_there, open_engine
from bot.store.errors import NoRecords
from bot.store.upgrade import bring_up_to_date

ERASED = "erased"
"""Marks a transaction after which nothing of what it removed may be left in the file."""


class Store:
    """The records behind one URL. Plain functions, one thread: the one writer."""

    def __init__(self, engine: Engine) -> None:
        """*engine*: from `open_engine`, its tables at the newest version."""
        self.engine = engine
        self.memory = seen.Memory() if engine.dialect.name == SQLITE else None

    @classmethod
    def open(cls, url: str, *, new: bool = True, copied: bool = True) -> "Store":
        """Open the records at *url*, making or upgrading the tables. Raises `StoreError` when that can't be done.

        *new*: whether records are made where there are none; *copied*: whether a file is copied before an upgrade.
        """
        engine = open_engine(url)
        if not new and not is_there(engine):
            raise NoRecords(f"--db: no records stand at {engine.url.database}")
        bring_up_to_date(engine, copied=copied)
        return cls(engine)

    def commit(self, tx: Session) -> None:
        """Keep for good. The one place through which all that is kept goes."""
        tx.commit()

    @contextmanager
    def begin(self) -> Iterator[Session]:
        """One transaction: kept at the end of the block, rolled back when the block raises."""
        with Session(self.engine, expire_on_commit=False) as tx:
            seen.begin(tx, self.memory)
            yield tx
            self.commit(tx)
            seen.keep(tx)
            if tx.info.pop(ERASED, False):
                self.tidy()
                self._drop_copies()

    def tidy(self) -> None:
        """All is in the file itself, nothing in the log beside it: what was erased is gone from the bytes of both."""
        if self.engine.dialect.name == SQLITE:
            connection = self.engine.raw_connection()
            connection.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)")
            connection.close()

    def _drop_copies(self) -> None:
        """Who was erased would still be in the copies that this program made before an upgrade."""
        path = file_of(self.engine)
        for copy in copies_before(path) if path else ():
            copy.unlink(missing_ok=True)

    def close(self) -> None:
        """Let go of the file."""
        self.engine.dispose()
