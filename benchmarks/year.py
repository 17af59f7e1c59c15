"""A year of many people in one process, as under `serve`: memory, replies, the file and what runs on, month by month.

Invented people (those of `simulate`, but for a race after the year, and nobody gives up) answer what they are sent;
each twenty have a coach, who says "seen" to grave messages and asks on Mondays who needs them. A clerk and a sender
work on one SQLite file; the clock is set by hand to the next instant at which something falls due or somebody writes. A
reply is timed from its arrival until the door has all that answers it. Pictures are drawn by the sender, as always.
Times of the processor leave out what else runs on the machine.

Wished for, the last month against the first: memory at most 1.2 x, the 99th percentile of a reply at most 2 x, a file
that grows in a straight line, no task, thread or open file more. Run: `python -m benchmarks.year [people] [days]`.
"""

import asyncio
import logging
import resource
import sys
import tempfile
import threading
from collections.abc import AsyncIterator
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from heapq import heappop, heappush
from pathlib import Path
from time import perf_counter, process_time

from rich.console import Console
from rich.progress import Progress
from rich.table import Table
from sqlalchemy import func, select

from bot.conversation.changes import KeepProfile
from bot.conversation.says import Kind
from bot.forms import profile_from_json
from bot.messages import Incoming, Outgoing
from bot.store.tables import DUE
from bot.store.unit import Store
from bot.trial.person import Person, Reply, first_word, hear
from bot.trial.start import BEGIN, begins, name_of
from bot.trial.told import told_by
from bot.trial.town import BEFORE
from bot.turn.turns import enrol
from planning.terms.person import Race
from tests.support.people import kim
from tests.support.serving import FakeDoor, HandClock, Process

SEED, MONTH = 1, 30
HALF_MARATHON_KM = 21.0975
RUNNERS = 20
"""Of one coach."""
NEXT = select(func.min(DUE.c.at))


@dataclass(slots=True)
class Month:
    """One month. *wall*, *cpu*: ms of each answer to a runner; *coaches*: ms of the processor of each to a coach;
    *spent*: seconds of the processor for all; the rest: as it is at its end.
    """

    wall: list[float] = field(default_factory=list)
    cpu: list[float] = field(default_factory=list)
    coaches: list[float] = field(default_factory=list)
    spent: float = 0
    memory_mib: float = 0
    file_mib: float = 0
    running: tuple[int, int, int] = (0, 0, 0)
    """Tasks, threads, open files."""


class Faults(logging.Handler):
    """All that is logged, but for the jumps of a clock that is set by hand."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        """Keep it."""
        if "clock_jumped" not in (told := record.getMessage()):
            self.found.append(told)


def percentile(values: list[float], share: float) -> float:
    """The value that so great a share of all does not exceed."""
    return sorted(values)[min(len(values) - 1, int(share * len(values)))] if values else 0.0


def memory() -> float:
    """MiB that this process has now, not at its most."""
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * resource.getpagesize() / 2**20


def somebody(number: int, days: int) -> Person:
    """Person *number*: goes on for all of the *days*."""
    nature, profile = begins(SEED, number)
    race = Race(BEGIN + timedelta(weeks=days // 7 + 4, days=6), HALF_MARATHON_KM)
    return Person(SEED, number, replace(nature, quits=0), replace(profile, race=race, coach=coach_of(number)))


def coach_of(number: int) -> str:
    """The coach of person *number*."""
    return f"coach-{number // RUNNERS}"


@dataclass(slots=True)
class Coach:
    """Whoever looks after some of them. *asked_on*: the last Monday on which they asked who needs them."""

    asked_on: date | None = None

    def hear(self, message: Outgoing) -> tuple[Reply, ...]:
        """What a coach says to a message."""
        kind, today = told_by(message).kind, message.at.date()
        if kind is Kind.NOTICE:
            return (Reply(message.at + timedelta(minutes=20), "seen"),)
        if kind is Kind.DIGEST and self.asked_on != today:
            self.asked_on = today
            return (Reply(message.at + timedelta(hours=1), "who needs me"),)
        return ()


class Year:
    """People, and the bot that they talk to."""

    def __init__(self, path: Path, people: int, days: int) -> None:
        """All of them are enrolled on the day before the first one."""
        self.path, self.month = path, Month()
        self.people = {name_of(number): somebody(number, days) for number in range(people)}
        self.replies: list[tuple[datetime, str, int, Reply]] = []
        self.count = 0
        self.coaches = {coach_of(number): Coach() for number in range(people)}
        self.process = Process(Store.open(f"sqlite:///{path}"), FakeDoor(), HandClock(BEFORE))
        coaches = [profile_from_json({**kim(), "who": who}) for who in self.coaches]
        with self.process.store.begin() as tx:
            for profile in (*coaches, *(each.profile for each in self.people.values())):
                enrol(tx, KeepProfile(profile))
        for who, person in self.people.items():
            self._expect(who, (first_word(person, BEFORE + timedelta(minutes=5)),))

    async def live(self, days: int) -> AsyncIterator[Month | None]:
        """Day by day; at the end of each month what was measured in it."""
        for day in range(1, days + 1):
            begun = process_time()
            while await self._step(BEFORE + timedelta(days=day)):
                pass
            self.month.spent += process_time() - begun
            yield self._close_month() if day % MONTH == 0 else None

    def _close_month(self) -> Month:
        month, self.month = self.month, Month()
        for person in self.people.values():
            person.outings.clear()
        month.memory_mib = memory()
        beside = self.path.with_name(f"{self.path.name}-wal")
        month.file_mib = (self.path.stat().st_size + beside.stat().st_size) / 2**20
        files = len(list(Path("/proc/self/fd").iterdir()))
        month.running = (len(asyncio.all_tasks()), threading.active_count(), files)
        return month

    async def _step(self, end: datetime) -> bool:
        """The next instant before *end* at which something happens. False: there is none."""
        with self.process.store.begin() as tx:
            due_at = tx.scalar(NEXT) or end
        reply_at = self.replies[0][0] if self.replies else end
        if min(due_at, reply_at) >= end:
            return False
        clock = self.process.clock
        clock.at = max(clock.at, min(due_at, reply_at))
        if reply_at < due_at:
            await self._say(*heappop(self.replies))
        else:
            await self._work()
        return True

    async def _work(self) -> None:
        """All that can be done now; what arrives is read, and leads to what is going to be said."""
        while self.process.clerk.step() or await self.process.sender.step():
            pass
        got, self.process.door.got = self.process.door.got, []
        for message in got:
            who, coach = message.chat, self.coaches.get(message.chat)
            self._expect(who, coach.hear(message) if coach else hear(self.people[who], told_by(message)))

    async def _say(self, at: datetime, who: str, number: int, reply: Reply) -> None:
        """Somebody writes, and has the answer."""
        wall, cpu = perf_counter(), process_time()
        self.process.hear(Incoming("wire", f"{who}-{number}", who, who, at, reply.text))
        await self._work()
        took, on_clock = (process_time() - cpu) * 1e3, (perf_counter() - wall) * 1e3
        if who in self.coaches:
            self.month.coaches.append(took)
        else:
            self.month.cpu.append(took)
            self.month.wall.append(on_clock)

    def _expect(self, who: str, replies: tuple[Reply, ...]) -> None:
        for each in replies:
            self.count += 1
            heappush(self.replies, (each.at, who, self.count, each))


async def months(path: Path, people: int, days: int) -> list[Month]:
    """All months of the year."""
    found = []
    with Progress(console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("days", total=days)
        async for month in Year(path, people, days).live(days):
            progress.advance(task)
            if month is not None:
                found.append(month)
                progress.console.print(*row_of(len(found), month))
    return found


def row_of(number: int, month: Month) -> list[str]:
    """The figures of a month."""
    times = (percentile(each, share) for share in (0.5, 0.99) for each in (month.wall, month.cpu))
    coaches = f"{percentile(month.coaches, 0.5):.0f}/{percentile(month.coaches, 0.99):.0f}"
    sizes = (coaches, f"{month.memory_mib:.0f}", f"{month.file_mib:.1f}", "/".join(map(str, month.running)))
    return [str(number), f"{len(month.wall):,}", *(f"{each:.1f}" for each in times), *sizes, f"{month.spent:.0f}"]


def compared(first: Month, last: Month) -> str:
    """How the last month stands against the first."""
    wall, cpu = (
        percentile(last_, 0.99) / percentile(first_, 0.99)
        for first_, last_ in ((first.wall, last.wall), (first.cpu, last.cpu))
    )
    memory_ = last.memory_mib / first.memory_mib
    return f"last month against the first: memory {memory_:.2f} x, 99 % of replies {wall:.2f} x (CPU {cpu:.2f} x)"


def main(people: int = 200, days: int = 365) -> None:
    """Print the table."""
    faults = Faults()
    logging.getLogger("lamppost").addHandler(faults)
    title = f"{people} people, {days} days; coaches: CPU, ms, 50 %/99 %; running: tasks/threads/open files"
    columns = (
        "replies",
        "50 %, ms",
        "CPU",
        "99 %, ms",
        "CPU",
        "coaches",
        "memory, MiB",
        "file, MiB",
        "running",
        "CPU, s",
    )
    table = Table("month", *columns, title=title)
    with tempfile.TemporaryDirectory(prefix="lamppost-") as folder:
        found = asyncio.run(months(Path(folder) / "year.sqlite3", people, days))
    for number, month in enumerate(found, 1):
        table.add_row(*row_of(number, month))
    console = Console(width=None if Console().is_terminal else 120)
    console.print(table)
    console.print(compared(found[0], found[-1]))
    console.print(f"logged as wrong: {sorted(set(faults.found)) or 'nothing'}")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
