"""Replies kept, answered and sent per second, against what the same engine can do at all: floor and ratio in one run.

The floor is one insert, one update and one commit for each reply. Eight people write at once: their messages are kept
in one commit, then each is answered in a transaction of its own, as `serve` does it. On PostgreSQL a throw-away server
is started from its wheel, with its syncs on. Run: `python -m benchmarks.records [replies]`. Wished for: at least 0.25.
"""

import asyncio
import shutil
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from time import perf_counter

from rich.console import Console
from rich.table import Table
from sqlalchemy import update

from bot.conversation.changes import KeepProfile
from bot.forms import profile_from_json
from bot.messages import Incoming
from bot.store.tables import ClockRow, OutboxRow
from bot.store.unit import Store
from bot.turn.turns import enrol
from tests.support.cluster import Cluster
from tests.support.people import ada
from tests.support.serving import FakeDoor, HandClock, Process

AT = datetime(2026, 3, 2, 8, tzinfo=UTC)
AT_ONCE = 8
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
    """Eight runners, enrolled."""
    names = [f"p-{place}" for place in range(AT_ONCE)]
    with store.begin() as tx:
        for name in names:
            enrol(tx, KeepProfile(profile_from_json(ada(who=name, coach=None))))
    return names


def floor(store: Store, count: int, prefix: str) -> float:
    """Inserts with an update and a commit each, per second."""
    begun = perf_counter()
    for place in range(count):
        with store.begin() as tx:
            row = OutboxRow(
                door="floor", chat="", who="", at=AT, text="", about="{}", buttons=(), files=(), key=f"{prefix}-{place}"
            )
            tx.add(row)
            tx.flush()
            tx.execute(update(ClockRow).values(at=AT))
    return count / (perf_counter() - begun)


async def replies(process: Process, names: list[str], count: int, prefix: str = "first", texts: Texts = TEXTS) -> float:
    """Replies kept, answered and handed to a door, per second. *prefix*: of their ids."""
    begun = perf_counter()
    for start in range(0, count, AT_ONCE):
        text = texts[start // AT_ONCE % len(texts)]
        said = [Incoming("wire", f"{prefix}-{start + place}", name, name, AT, text) for place, name in enumerate(names)]
        process.hear_together(*said)
        while process.clerk.step():
            pass
        while await process.sender.step():
            pass
    return count / (perf_counter() - begun)


def main(count: int) -> None:
    """Print the table."""
    table = Table("records", "floor, 1/s", "replies, 1/s", "ratio", title="Kept, answered and sent; 8 people at once")
    each = Table("records", "reply", "1/s", title="Each kind of reply alone")
    with places() as found:
        for name, url in found:
            store = Store.open(url)
            names = people(store)
            process = Process(store, FakeDoor(), HandClock(AT))
            process.work()
            asyncio.run(replies(process, names, 2 * AT_ONCE))
            rates, floors = [], []
            for turn in range(ROUNDS):
                floors.append(floor(store, count, f"floor-{turn}"))
                rates.append(asyncio.run(replies(process, names, count, f"again-{turn}")))
            most, rate = max(floors), max(rates)
            table.add_row(name, f"{most:,.0f}", f"{rate:,.0f}", f"{rate / most:.2f}")
            for place, text in enumerate(TEXTS):
                alone = asyncio.run(replies(process, names, count // 4, f"alone-{place}", (text,)))
                each.add_row(name, text, f"{alone:,.0f}")
            store.close()
    Console().print(table, each)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
