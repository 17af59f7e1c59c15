"""A year of many people in one process: memory, the slowest replies and the file, month by month.

Wished for: memory after the twelfth month at most 1.2 x that after the first, the 99th percentile of a reply at most
twice that of the first month, and a file that grows in a straight line. Run: `python -m benchmarks.long_life [people]`.
"""

import json
import resource
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random
from time import perf_counter

from rich.console import Console
from rich.progress import track
from rich.table import Table

from tests.support.people import ada, kim
from tests.support.wire import Json, OnTheWire

BEGIN = datetime(2026, 3, 1, 20, tzinfo=UTC)
MONTHS, DAYS = 12, 30
SAID = (
    "done",
    "did 12",
    "done, felt easy",
    "effort 4",
    "only 15 min today",
    "calf a bit sore 2/10, eased off",
    "thanks",
)
ANSWERS = 0.6
"""Of all days on which somebody says something."""


@dataclass(frozen=True, slots=True)
class Month:
    """One month: MiB of memory in use, ms of the median and of the 99th percentile of replies, MiB of file."""

    memory: float
    median: float
    slow: float
    file: float


def lines(names: list[str]) -> Iterator[list[Json]]:
    """What everybody says, day by day."""
    random, count = Random(1), 0
    for day in range(MONTHS * DAYS):
        today = []
        for name in names:
            if random.random() < ANSWERS:
                count += 1
                at = BEGIN + timedelta(days=day, hours=12, seconds=len(today))
                today.append({"at": at.isoformat(), "id": f"u-{count}", "chat": name, "text": random.choice(SAID)})
        yield today


def in_use() -> float:
    """MiB of memory that this process has now, not at its most."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * resource.getpagesize() / 2**20


def live(folder: Path, people: int) -> Iterator[Month]:
    """A year, a month at a time."""
    names = [f"p-{place}" for place in range(people)]
    path = folder / "year.sqlite3"
    race = {"date": "2027-02-21", "km": 21.0975}
    run = OnTheWire.on(path, kim(), *(ada(who=name, race=race) for name in names))
    run.wire.write = lambda _line: None
    times: list[float] = []
    for day, today in enumerate(track(lines(names), total=MONTHS * DAYS, description="days", transient=True), 1):
        for line in today:
            run.wire.run([json.dumps({"at": line["at"]})])
            begun = perf_counter()
            run.wire.run([json.dumps(line)])
            times.append((perf_counter() - begun) * 1e3)
        if day % DAYS == 0:
            times.sort()
            yield Month(in_use(), times[len(times) // 2], times[int(0.99 * len(times))], path.stat().st_size / 2**20)
            times = []
    run.store.close()


def main(people: int) -> None:
    """Print the table."""
    table = Table("month", "memory, MiB", "reply, ms", "99 %, ms", "file, MiB", title=f"A year of {people} people")
    months = []
    with tempfile.TemporaryDirectory(prefix="lamppost-") as folder:
        for number, month in enumerate(live(Path(folder), people), 1):
            months.append(month)
            table.add_row(
                str(number), *(f"{each:.1f}" for each in (month.memory, month.median, month.slow, month.file))
            )
    Console().print(table)
    first, last = months[0], months[-1]
    Console().print(f"memory {last.memory / first.memory:.2f} x, 99th percentile {last.slow / first.slow:.2f} x")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)
