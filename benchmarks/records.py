"""Replies kept, answered and sent per second, against what the same engine can do at all: floor and ratio in one run.

The floor is one insert, one update and one commit for each reply. Eight people write at once, each again as soon as
the answer is there, to what runs under `serve` with a door that does nothing. On PostgreSQL a throw-away server
is started from its wheel, with its syncs on. Run: `python -m benchmarks.records [replies]`. Wished for: at least 0.25.
"""

import asyncio
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from itertools import cycle, islice
from pathlib import Path
from time import perf_counter

from rich.console import Console
from rich.table import Table
from sqlalchemy import bindparam, insert, update

from bot.conversation.changes import KeepProfile
from bot.forms import profile_from_json
from bot.messages import Incoming, Outgoing
from bot.post.clerk import Clerk
from bot.post.reception import Reception
from bot.post.serving import Serving
from bot.store.tables import OUTBOX, Base, ClockRow
from bot.store.unit import Store
from bot.turn.turns import enrol
from tests.support.cluster import Cluster
from tests.support.people import ada
from tests.support.serving import FakeDoor, HandClock, Process

INSERT = insert(OUTBOX)
UPDATE = update(Base.metadata.tables[ClockRow.__tablename__]).values(at=bindparam("now"))
AT = datetime(2026, 3, 2, 8, tzinfo=UTC)
AT_ONCE, PEOPLE = 8, 160
ROUNDS = 3
"""Floor and replies in turn, the best of each: what else runs on the machine can only make them slower."""
Texts = tuple[str, ...]
TEXTS = (
    "done",
    "thanks",
    "did 12",
    "only 10 min today",
    "walked 2 km, legs heavy",
    "why",
    "effort 3",
    "calf sore 2/10",
)
"""Eight replies; one of them makes the whole plan anew."""


@contextmanager
def places() -> Iterator[tuple[tuple[str, str], ...]]:
    """Name and URL of new records, in a file and on a server."""
    with tempfile.TemporaryDirectory(prefix="lamppost-") as folder:
        Path(folder).chmod(0o755)
        (Path(folder) / "server").mkdir()
        cluster = Cluster(Path(folder) / "server", settings=())
        try:
            yield (("SQLite", f"sqlite:///{folder}/a.sqlite3"), ("PostgreSQL", cluster.url(cluster.create())))
        finally:
            cluster.stop()
            shutil.rmtree(folder, ignore_errors=True)


def people(store: Store) -> list[str]:
    """Runners, enrolled; eight of them write at one time."""
    names = [f"p-{place}" for place in range(PEOPLE)]
    with store.begin() as tx:
        for name in names:
            enrol(tx, KeepProfile(profile_from_json(ada(who=name, coach=None))))
    return names


def floor(store: Store, count: int, prefix: str) -> float:
    """Inserts with an update and a commit each, per second: the least that keeping and answering could cost."""
    row = {"door": "floor", "chat": "", "who": "", "at": AT, "text": "", "about": "{}", "buttons": (), "files": ()}
    begun = perf_counter()
    for place in range(count):
        with store.begin() as tx:
            tx.execute(INSERT, {**row, "key": f"{prefix}-{place}", "sent": False})
            tx.execute(UPDATE, {"now": AT})
    return count / (perf_counter() - begun)


class Crowd(FakeDoor):
    """A door behind which everybody writes, waits for the answer, and writes again."""

    def prepare(self, names: list[str], texts: Texts, count: int, now: datetime) -> None:
        """*count*: replies in all, in turn from everybody."""
        self.said = [
            Incoming("wire", f"{now.date()}-{place}", who, who, now, texts[place // AT_ONCE % len(texts)])
            for place, who in enumerate(islice(cycle(names), count))
        ]
        self.answered = {name: asyncio.Event() for name in names}
        self.seconds = 0.0
        self.finished = asyncio.Event()

    async def serve(self, reception: object, stop: asyncio.Event) -> None:
        """All of them at once, until each has had every answer."""
        assert isinstance(reception, Reception)
        begun = perf_counter()
        await asyncio.gather(*(self._talk(reception, self.said[each::AT_ONCE]) for each in range(AT_ONCE)))
        self.seconds = perf_counter() - begun
        self.finished.set()
        await stop.wait()

    async def _talk(self, reception: Reception, said: list[Incoming]) -> None:
        for message in said:
            self.answered[message.chat].clear()
            await reception.keep(message)
            await self.answered[message.chat].wait()

    async def send(self, message: Outgoing) -> None:
        """The answer has come."""
        self.answered[message.chat].set()


async def replies(store: Store, names: list[str], count: int, day: int, texts: Texts = TEXTS) -> float:
    """Replies kept, answered and handed to a door, per second, by what runs under `serve`. *day*: a new one each time,
    so that nobody says the same of one session again and again; what was due up to it is done before.
    """
    clock = HandClock(AT + timedelta(days=day))
    before = Process(store, FakeDoor(), clock)
    while before.clerk.step() or await before.sender.step():
        pass
    door = Crowd()
    door.prepare(names, texts, count, clock.at)
    clerk = Clerk(store, before.clerk.turns, clock, before.clerk.zones, before.clerk.lease)
    serving = Serving(store, clerk, clock, [door], timedelta(seconds=5))
    running = asyncio.create_task(serving.run())
    finished = asyncio.create_task(door.finished.wait())
    await asyncio.wait((running, finished), return_when=asyncio.FIRST_COMPLETED)
    assert door.finished.is_set(), "what runs under `serve` has ended"
    serving.stop.set()
    await running
    return count / door.seconds


def main(count: int) -> None:
    """Print the tables."""
    table = Table("records", "floor, 1/s", "replies, 1/s", "ratio", title="Kept, answered and sent; 8 people at once")
    each = Table("records", "reply", "1/s", title="Each kind of reply alone")
    with places() as found:
        for name, url in found:
            store = Store.open(url)
            names = people(store)
            asyncio.run(replies(store, names, count, 0))
            rates, floors = [], []
            for turn in range(ROUNDS):
                floors.append(floor(store, count, f"floor-{turn}"))
                rates.append(asyncio.run(replies(store, names, count, 1 + turn)))
            most, rate = max(floors), max(rates)
            table.add_row(name, f"{most:,.0f}", f"{rate:,.0f}", f"{rate / most:.2f}")
            for place, text in enumerate(TEXTS):
                alone = asyncio.run(replies(store, names, PEOPLE, 1 + ROUNDS + place, (text,)))
                each.add_row(name, text, f"{alone:,.0f}")
            store.close()
    Console().print(table, each)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 640)
