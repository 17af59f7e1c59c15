"""A million people whose next session is due within one hour: what is due is found by an index, whatever the size.

On PostgreSQL (a throw-away server from its wheel, syncs on) and on SQLite: the plan and the time of the question for
what is due; then sessions claimed, worded and put into the outbox for some seconds, by one process and by two, with the
growth of memory. Run: `python -m benchmarks.million [people] [seconds]`. Wished for: the question within 10 ms, 500 a
second; the largest public chat system lets one bot send 30.
"""

import json
import multiprocessing
import resource
import sys
from datetime import UTC, datetime, timedelta
from statistics import median
from time import perf_counter

from rich.console import Console
from rich.table import Table
from sqlalchemy import func, select, text

from benchmarks.records import places
from bot.conversation.changes import KeepProfile
from bot.forms import profile_from_json
from bot.store.due import claim_some
from bot.store.engine import POSTGRES
from bot.store.tables import DueRow, OutboxRow
from bot.store.unit import Store
from bot.turn import Turns
from bot.turn.turns import enrol
from tests.support.people import ada

START = datetime(2026, 3, 2, 7, tzinfo=UTC)
LEASE = timedelta(minutes=1)
AT_ONCE = 32


COPIES = (
    """INSERT INTO person (who, profile, marks, since, stale, why, role) {numbers}
       SELECT 'p-' || i, replace(profile, 'WHO', 'p-' || i), marks, since, stale, why, role
       FROM n, person WHERE who = 'WHO'""",
    """INSERT INTO session (who, "on", week, at, purpose, effort_low, effort_high, segments, after) {numbers}
       SELECT 'p-' || i, "on", week, at, purpose, effort_low, effort_high, segments, after
       FROM n, session WHERE who = 'WHO'""",
    """INSERT INTO due (who, kind, "on", ordinal, at, rank) {numbers}
       SELECT 'p-' || i, 'push', "on", 0, {instant}, 2 FROM n, session WHERE who = 'WHO'""",
)
IN_FILE = (
    "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < {count})",
    "strftime('%Y-%m-%dT%H:%M:%S.000000', '2026-03-02 07:00:00', '+' || (i % 3600) || ' seconds')",
)
ON_SERVER = (
    "WITH n AS (SELECT i FROM generate_series(1, {count}) AS i)",
    "to_char(timestamp '2026-03-02 07:00' + mod(i, 3600) * interval '1 second', 'YYYY-MM-DD\"T\"HH24:MI:SS.US')",
)


def fill(store: Store, count: int) -> None:
    """One real person with the next session due, then copies of all of it."""
    days = {"mon": "07:00", "wed": "07:00"}
    on_server = store.engine.dialect.name == POSTGRES
    numbers, instant = ON_SERVER if on_server else IN_FILE
    with store.begin() as tx:
        one = profile_from_json(ada(who="WHO", coach=None, days=days))
        enrol(tx, KeepProfile(one, since=START - timedelta(days=1)))
        for unwanted in ("week", "plan", "due", """session WHERE "on" <> '2026-03-02'"""):
            tx.execute(text(f"DELETE FROM {unwanted}"))
    with store.begin() as tx:
        if on_server:
            tx.execute(text("SET LOCAL statement_timeout = 0"))
        for copies in COPIES:
            statement = copies.format(numbers=numbers.format(count=count), instant=instant)
            tx.connection().exec_driver_sql(statement)
    with store.begin() as tx:
        tx.execute(text("ANALYZE"))


def question(store: Store) -> tuple[float, str]:
    """Milliseconds of one claim of 32 of what is due, the median of 20; and the plan of the database for it."""
    took = []
    for place in range(20):
        with store.begin() as tx:
            begun = perf_counter()
            claim_some(tx, START + timedelta(seconds=60 * place), LEASE, AT_ONCE)
            took.append((perf_counter() - begun) * 1e3)
            tx.rollback()
    explain = "EXPLAIN" if store.engine.dialect.name == POSTGRES else "EXPLAIN QUERY PLAN"
    wanted = "SELECT * FROM due WHERE at <= '2026-03-02T07:30' ORDER BY at, rank, who LIMIT 32"
    with store.begin() as tx:
        steps = [str(tuple(row)[-1]).strip() for row in tx.execute(text(f"{explain} {wanted}"))]
    return median(took), " / ".join(steps)


def sweep(url: str, seconds: float) -> None:
    """One process that does what is due; it says how many and how its memory grew."""
    store = Store.open(url)
    turns = Turns(store, "wire")
    turns.sweep_shared(START, LEASE, AT_ONCE)
    before, begun, count = _memory(), perf_counter(), 0
    while perf_counter() - begun < seconds:
        count += turns.sweep_shared(START + timedelta(hours=1), LEASE, AT_ONCE)
    print(json.dumps({"count": count, "mib": _memory() - before}), flush=True)
    store.close()


def _memory() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def swept(url: str, seconds: float, processes: int) -> float:
    """Sessions in the outbox per second."""
    store = Store.open(url)
    with store.begin() as tx:
        before = tx.scalar(select(func.count()).select_from(OutboxRow)) or 0
    workers = [
        multiprocessing.get_context("spawn").Process(target=sweep, args=(url, seconds)) for _ in range(processes)
    ]
    for each in workers:
        each.start()
    for each in workers:
        each.join()
    with store.begin() as tx:
        after = tx.scalar(select(func.count()).select_from(OutboxRow)) or 0
    store.close()
    return (after - before) / seconds


def main(count: int, seconds: float) -> None:
    """Print the table."""
    table = Table(
        "records", "question, ms", "1 process, 1/s", "2 processes, 1/s", title=f"{count:,} people due in an hour"
    )
    console = Console()
    with places() as found:
        for name, url in found:
            store = Store.open(url)
            with console.status(f"{name}: {count:,} people"):
                fill(store, count)
            took, plan = question(store)
            with store.begin() as tx:
                assert (tx.scalar(select(func.count()).select_from(DueRow)) or 0) >= count
            store.close()
            console.print(f"{name}: {plan}")
            one = swept(url, seconds, 1)
            two = f"{swept(url, seconds, 2):,.0f}" if name == "PostgreSQL" else "one writer"
            table.add_row(name, f"{took:.1f}", f"{one:,.0f}", two)
    console.print(table)


if __name__ == "__main__":
    given = sys.argv[1:]
    main(int(given[0]) if given else 1_000_000, float(given[1]) if given[1:] else 60.0)
