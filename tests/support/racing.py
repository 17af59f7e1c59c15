"""Four actors at one person, each a thread with a connection of its own: the next one begins while the transaction of
the one before is open.
"""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from enum import Enum
from itertools import pairwise
from queue import Empty, Queue
from threading import Event, Thread
from time import monotonic

from sqlalchemy import Integer, event, func, select
from sqlalchemy.orm import Session as Transaction

from bot.store import inbox, outbox, people
from bot.store.engine import POSTGRES, open_engine
from bot.store.tables import OUTBOX, Base
from bot.store.unit import Store
from bot.turn import Turns
from tests.support.letters import incoming
from tests.support.wire import OnTheWire, dump

PATIENCE, LOOK = 20.0, 0.01
"""Seconds until a thread that neither ends nor waits counts as lost, and between two looks at one on a server."""

LEASE = timedelta(minutes=1)
ELSEWHERE = "ada-at-work"
"""A second chat of Ada's, so that no order of one chat keeps her replies apart."""


class Actor(Enum):
    """Who does something about Ada on her first Wednesday evening, and how the keys of the messages begin."""

    REPLY = "wire:reply:"
    ELSEWHERE = "wire:elsewhere:"
    SWEEP = "push:ada:2026-03-04:"
    COACH = "wire:coach:"


NOON, EVENING = datetime(2026, 3, 4, 12, tzinfo=UTC), datetime(2026, 3, 4, 18, 30, tzinfo=UTC)
"""Before all of it, and when it happens: her second session falls due."""

SAID = {
    Actor.REPLY: incoming("reply", "did 20 on monday"),
    Actor.ELSEWHERE: incoming("elsewhere", "knee a bit sore 2/10", who=ELSEWHERE),
    Actor.COACH: incoming("coach", "ada: make friday 12 min walk", who="kim"),
}


class News(Enum):
    """What is heard of an actor."""

    HOLDS = "has done its work in a transaction that is still open"
    KEPT = "has committed that"
    AWAY = "was turned away, and comes again"
    WAITS = "waits for a lock"


WRITES = ("BEGIN IMMEDIATE", "INSERT", "UPDATE", "DELETE")
"""How statements begin that wait while somebody else writes to the file."""


class OneByOne(Turns):
    """What is done after a batch that failed: each thing alone, waiting for whoever is at the person."""

    def answer_some(self, most: int) -> int:
        with self.store.begin() as tx:
            rows = [each.row for each in inbox.heads(tx, most)]
        for row in rows:
            self._answer_row(row)
        return len(rows)

    def sweep_shared(self, now: datetime, lease: timedelta, most: int) -> int:
        return self._sweep_each(now, lease, most)


def prepare(run: OnTheWire) -> None:
    """It is Wednesday noon, and Ada is known in a second chat, too."""
    run.feed({"at": NOON.isoformat()})
    with run.store.begin() as tx:
        for chat in (ELSEWHERE, "ada"):
            outbox.set_address(tx, "ada", "wire", chat, NOON)
    run.store.close()


def accept(url: str, order: Iterable[Actor]) -> None:
    """What they say is kept, in their order."""
    store = Store(open_engine(url))
    with store.begin() as tx:
        for actor in order:
            if actor in SAID:
                inbox.accept(tx, replace(SAID[actor], at=EVENING))
    store.close()


def act(turns: Turns, actor: Actor) -> None:
    """The actor does what it can now: the sweep looks for one thing that is due, the others for one message."""
    if actor is Actor.SWEEP:
        turns.sweep_shared(EVENING, LEASE, 1)
    else:
        turns.answer_some(1)


class _HeldStore(Store):
    """Stops before the commit of the transaction that has the message with that key."""

    def __init__(self, url: str, key: str) -> None:
        super().__init__(open_engine(url))
        self.key, self.held = key, False
        self.news: Queue[News | Exception] = Queue()
        self.go = Event()
        if self.engine.dialect.name == POSTGRES:
            with self.engine.connect() as connection:
                self.pid = connection.scalar(select(func.pg_backend_pid()))
        else:
            event.listen(self.engine, "before_cursor_execute", self._on_statement)

    def _on_statement(self, _connection: object, _cursor: object, statement: str, *_more: object) -> None:
        if statement.startswith(WRITES):
            self.news.put(News.WAITS)

    def commit(self, tx: Transaction) -> None:
        if self.held or tx.scalar(select(OUTBOX.c.id).where(OUTBOX.c.key.startswith(self.key)).limit(1)) is None:
            super().commit(tx)
            return
        self.held = True
        self.news.put(News.HOLDS)
        assert self.go.wait(PATIENCE)
        super().commit(tx)
        self.news.put(News.KEPT)


class _Part:
    """One actor in a play, who has looked at the people before it begins."""

    def __init__(self, url: str, actor: Actor, kind: type[Turns]) -> None:
        self.actor, self.store = actor, _HeldStore(url, actor.value)
        self.turns, self.again = kind(self.store, "wire"), Event()
        with self.store.begin() as tx:
            people.look_ahead(tx, ["ada", "kim"], EVENING)
        self.store.news = Queue()
        self.thread = Thread(target=self._act, daemon=True)

    def _act(self) -> None:
        try:
            act(self.turns, self.actor)
            while not self.store.held:
                self.store.news.put(News.AWAY)
                assert self.again.wait(PATIENCE)
                self.again.clear()
                act(self.turns, self.actor)
        except Exception as fault:
            self.store.news.put(fault)

    def comes_to(self, *wanted: News, watch: Store | None = None) -> News:
        """The next of the *wanted* news. *watch*: a look at who waits on a server."""
        until = monotonic() + PATIENCE
        while monotonic() < until:
            news = self._next(watch)
            if isinstance(news, Exception):
                raise news
            if news in wanted:
                return news
        raise AssertionError(f"{self.actor} never came to {wanted}")

    def _next(self, watch: Store | None) -> News | Exception | None:
        try:
            return self.store.news.get(timeout=LOOK)
        except Empty:
            return News.WAITS if watch is not None and self._waits(watch) else None

    def _waits(self, watch: Store) -> bool:
        with watch.begin() as tx:
            return bool(tx.scalar(select(func.cardinality(func.pg_blocking_pids(self.store.pid)))))

    def commit(self) -> None:
        """It may commit what it holds."""
        self.store.go.set()
        self.comes_to(News.KEPT)

    def end(self) -> None:
        self.thread.join(PATIENCE)
        self.store.close()


def race(url: str, order: Iterable[Actor], kind: type[Turns]) -> list[News]:
    """Each begins while the one before holds its transaction open. Gives how each but the first met that."""
    accept(url, order)
    watch = Store(open_engine(url)) if url.startswith(POSTGRES) else None
    parts, met = [_Part(url, actor, kind) for actor in order], list[News]()
    parts[0].thread.start()
    parts[0].comes_to(News.HOLDS)
    for before, part in pairwise(parts):
        part.thread.start()
        met.append(part.comes_to(News.AWAY, News.WAITS, News.HOLDS, watch=watch))
        before.commit()
        part.again.set()
        if met[-1] is not News.HOLDS:
            part.comes_to(News.HOLDS)
    parts[-1].commit()
    for part in parts:
        part.end()
    if watch is not None:
        watch.close()
    return met


def serially(url: str, order: Iterable[Actor]) -> None:
    """One after the other."""
    accept(url, order)
    store = Store(open_engine(url))
    for actor in order:
        act(Turns(store, "wire"), actor)
    store.close()


def rows(url: str) -> dict[str, list[tuple[object, ...]]]:
    """Every row in the order in which it was made, without its number: a server leaves some out."""
    store = Store(open_engine(url))
    found = dump(store)
    store.close()
    for table in Base.metadata.sorted_tables:
        if "id" in table.columns and isinstance(table.columns["id"].type, Integer):
            found[table.name] = [row[1:] for row in sorted(found[table.name], key=lambda row: row[0])]
    return found
