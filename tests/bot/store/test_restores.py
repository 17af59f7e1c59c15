"""Copies while a bot is at work: each is one moment of its records, is put back whole, and sends no old words."""

import json
import sqlite3
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from threading import Event, Semaphore

import pytest
from sqlalchemy.orm import Session

from bot.messages import Incoming, Outgoing
from bot.ports import NotNow
from bot.store.copies import back_up, restore
from bot.store.engine import open_engine
from bot.store.outbox import PREFIX
from bot.store.unit import Store
from tests.support.people import ada, kim
from tests.support.serving import FakeDoor, HandClock, Process
from tests.support.wire import OnTheWire, url_of

EVENING = datetime(2026, 3, 1, 20, tzinfo=UTC)
HOUR = timedelta(hours=1)
SAID = ("done", "week", "calf a bit sore 2/10", "why", "move it to tomorrow", "effort 4", "skip today")
COMMITS_BETWEEN = 7
"""Two copies are so many commits of the bot apart, or more."""


def digest(connection: sqlite3.Connection) -> str:
    """A mark of all rows of all tables, as this connection sees them."""
    names = [row[0] for row in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY 1")]
    rows = {name: connection.execute(f'SELECT * FROM "{name}" ORDER BY rowid').fetchall() for name in names}
    return sha256(repr(rows).encode()).hexdigest()


class RememberingStore(Store):
    """Notes how all rows stand at each commit."""

    history: list[str]
    more: Semaphore

    def commit(self, tx: Session) -> None:
        driver = tx.connection().connection.driver_connection
        assert isinstance(driver, sqlite3.Connection)
        tx.flush()
        now = digest(driver)
        super().commit(tx)
        if now != self.history[-1]:
            self.history.append(now)
            self.more.release()


@dataclass
class BusyDoor(FakeDoor):
    """Behind it every third message is refused once, so that some always wait."""

    refused: set[str] = field(default_factory=set)

    async def send(self, message: Outgoing) -> None:
        if int(message.id.removeprefix(PREFIX)) % 3 == 0 and message.id not in self.refused:
            self.refused.add(message.id)
            raise NotNow
        await super().send(message)


@dataclass
class AtWork:
    """A bot that goes through its days, hour by hour, as long as it is let."""

    url: str
    history: list[str] = field(default_factory=lambda: [""])
    more: Semaphore = field(default_factory=lambda: Semaphore(0))
    stop: Event = field(default_factory=Event)

    def work(self) -> None:
        store = RememberingStore(open_engine(self.url))
        store.history, store.more = self.history, self.more
        process = Process(store, BusyDoor(), HandClock(EVENING))
        while not self.stop.is_set():
            now = process.clock.at + HOUR
            process.hear(Incoming("wire", now.isoformat(), "ada", "ada", now, SAID[now.hour % len(SAID)]))
            process.at(now)
        store.close()


@pytest.fixture
def at_work(tmp_path: Path) -> Iterator[AtWork]:
    """Ada and her coach, and a bot that is at work on a thread of its own."""
    OnTheWire.on(tmp_path / "a.sqlite3", ada(), kim()).store.close()
    bot = AtWork(url_of(tmp_path / "a.sqlite3"))
    with ThreadPoolExecutor(1) as threads:
        running: Future[None] = threads.submit(bot.work)
        yield bot
        bot.stop.set()
        running.result()


def rows_in(path: Path, query: str, *values: object) -> list[tuple[object, ...]]:
    with closing(sqlite3.connect(path)) as copy:
        return copy.execute(query, values).fetchall()


WAITING = "SELECT id FROM outbox WHERE NOT sent AND parked IS NULL"
OF_THE_COPY = "SELECT (SELECT max(at) FROM inbox), (SELECT max(id) FROM outbox)"


PUSHES = "SELECT key FROM outbox WHERE id > ? AND sent AND key LIKE 'push:%'"


def goes_on_without_old_words(path: Path) -> int:
    """Records that were put back are worked on a day later, then Ada asks. The pushes that were sent until then."""
    (said_at, last) = rows_in(path, OF_THE_COPY)[0]
    now = datetime.fromisoformat(str(said_at)).replace(tzinfo=UTC) + timedelta(days=1)
    process = Process(Store.open(url_of(path)), FakeDoor(), HandClock(now))
    unasked = process.at(now)
    process.hear(Incoming("wire", "after", "ada", "ada", now, "week"))
    asked = process.at(now + HOUR)
    process.store.close()
    assert all(int(each.id.removeprefix(PREFIX)) > int(str(last)) for each in (*unasked, *asked))
    assert "week" in [json.loads(each.about)["kind"] for each in asked]
    pushed = [str(row[0]).split(":")[2] for row in rows_in(path, PUSHES, last)]
    assert set(pushed) <= {now.date().isoformat()}
    return len(pushed)


@pytest.mark.parametrize("copies", [5, pytest.param(100, marks=pytest.mark.nightly)])
def test_every_copy_of_a_bot_at_work_can_be_put_back(at_work: AtWork, tmp_path: Path, copies: int) -> None:
    for place in range(copies):
        for _ in range(COMMITS_BETWEEN):
            assert at_work.more.acquire(timeout=60)
        back_up(at_work.url, tmp_path / f"copy-{place}")
    at_work.stop.set()
    moments, held, pushed = [], 0, 0
    for place in range(copies):
        copy, back = tmp_path / f"copy-{place}", tmp_path / f"back-{place}"
        with closing(sqlite3.connect(copy)) as found:
            moments.append(at_work.history.index(digest(found)))
        waiting = rows_in(copy, WAITING)
        assert restore(copy, url_of(back)).held == len(waiting)
        held += len(waiting)
        assert rows_in(back, "PRAGMA integrity_check") == [("ok",)]
        assert rows_in(back, WAITING) == []
        with closing(sqlite3.connect(back)) as found:
            found.execute("UPDATE outbox SET parked = NULL WHERE parked = 'restored'")
            assert at_work.history.index(digest(found)) == moments[-1]
        pushed += goes_on_without_old_words(back)
    assert moments == sorted(set(moments)), "the bot was at work between each two copies"
    assert held, "messages waited"
    assert pushed, "days went on"
