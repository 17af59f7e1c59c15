"""Whether the records are whole and the work on them goes on: what a host looks at after a restore, or each morning."""

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import func, select, text
from sqlalchemy.orm import Session as Transaction

from bot.store import inbox, sending
from bot.store.copies import HELD
from bot.store.copying import copies_before
from bot.store.engine import SQLITE, file_of
from bot.store.tables import DueRow, InboxRow, OutboxRow
from bot.store.unit import Store
from bot.store.upgrade import HEAD, version_of

SAFE_SQLITE = (3, 51, 3)
"""Before it, two connections that write and tidy up at one moment could, rarely, damage the log of a file."""

WAITS = timedelta(minutes=5)
"""Something due or to be sent that is older than this means that nobody works."""

CLOCK_AHEAD = timedelta(minutes=5)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that was looked at. *fine*: nobody has to do anything about it."""

    name: str
    fine: bool
    told: str


def look(store: Store, now: datetime, zones: str) -> tuple[Finding, ...]:
    """All findings. *zones*: the version of the time zone data of this process."""
    found = [_tables(store), *_whole(store)]
    with store.begin() as tx:
        found += [_clock(tx, now), _zones(tx, zones), *_queues(tx, now), *_parked(tx)]
    return tuple(found)


def _tables(store: Store) -> Finding:
    version = version_of(store.engine)
    return Finding("tables", version == HEAD, f"version {version}, this program has {HEAD}")


def _whole(store: Store) -> Iterator[Finding]:
    if store.engine.dialect.name != SQLITE:
        with store.engine.connect() as connection:
            yield Finding("database", True, str(connection.scalar(text("SHOW server_version"))))
        return
    with store.engine.connect() as connection:
        faults = list(connection.scalars(text("PRAGMA integrity_check")))
        orphans = connection.execute(text("PRAGMA foreign_key_check")).all()
    told = "whole" if faults == ["ok"] else f"damaged: {len(faults)} faults; restore a copy"
    yield Finding("file", faults == ["ok"] and not orphans, told if not orphans else f"{len(orphans)} rows of nobody")
    version = sqlite3.sqlite_version
    good = sqlite3.sqlite_version_info >= SAFE_SQLITE
    wanted = ".".join(map(str, SAFE_SQLITE))
    yield Finding("sqlite", good, version if good else f"{version}; {wanted} mends a rare damage of files in use")
    path = file_of(store.engine)
    for copy in copies_before(path) if path else ():
        yield Finding("copy", True, f"{copy.name} is from before an upgrade; delete it when all is well")


def _clock(tx: Transaction, now: datetime) -> Finding:
    kept = inbox.clock(tx)
    if kept is None:
        return Finding("clock", True, "not started")
    told = f"all was done up to {kept:%Y-%m-%dT%H:%M:%SZ}"
    fine = kept <= now + CLOCK_AHEAD
    return Finding("clock", fine, told if fine else f"{told}, which lies ahead of this computer's clock")


def _zones(tx: Transaction, here: str) -> Finding:
    kept = inbox.zones(tx)
    told = f"time zone data {here}"
    fine = kept in (None, here)
    return Finding("zones", fine, told if fine else f"{told}, due times stand on {kept} until serve starts")


def _queues(tx: Transaction, now: datetime) -> Iterator[Finding]:
    late = now - WAITS
    unsent = (OutboxRow.sent.is_(False), OutboxRow.parked.is_(None))
    for name, counted, told in (
        ("due", select(func.count()).where(DueRow.at < late).select_from(DueRow), "due for more than 5 minutes"),
        ("in", select(func.count()).where(InboxRow.done.is_(False)).select_from(InboxRow), "messages not answered"),
        ("out", select(func.count()).where(*unsent).select_from(OutboxRow), "messages not sent yet"),
        ("dead", select(func.count()).where(InboxRow.dead).select_from(InboxRow), "messages that could not be read"),
    ):
        count = tx.scalar(counted) or 0
        yield Finding(name, not count, f"{count} {told}")


def _parked(tx: Transaction) -> Iterator[Finding]:
    for each in sending.parked(tx):
        why = "held since a copy was restored" if each.reason == HELD else f"never sent: {each.reason}"
        yield Finding("parked", False, f"{each.count} messages, door {each.door}, {why}, first {each.since:%Y-%m-%d}")
