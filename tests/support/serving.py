"""What runs under `serve`, without threads and without waiting: the clock is set by hand, jobs are done at once."""

import asyncio
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import TypeVar

from sqlalchemy.orm import Session as Transaction

from bot.messages import Incoming, Outgoing
from bot.post.clerk import Clerk
from bot.post.sender import Sender
from bot.post.zones import ZoneWatch
from bot.store import inbox
from bot.store.unit import Store
from bot.turn import Turns
from bot.turn.coaching import Draw, by_chance

Answer = TypeVar("Answer")
LEASE = timedelta(seconds=60)


@dataclass
class HandClock:
    """Shows what it was set to."""

    at: datetime

    def now(self) -> datetime:
        return self.at


@dataclass
class FakeDoor:
    """Takes messages, or does what *refuse* says. *got*: those that arrived, also twice."""

    name: str = "wire"
    alone: bool = False
    got: list[Outgoing] = field(default_factory=list)
    refuse: Callable[[Outgoing], None] = lambda _: None
    open: bool = True

    async def serve(self, reception: object, stop: asyncio.Event) -> None:
        await stop.wait()

    def chats(self) -> frozenset[str]:
        return frozenset()

    def is_open(self) -> bool:
        return self.open

    async def send(self, message: Outgoing) -> None:
        self.refuse(message)
        self.got.append(message)


class InstantClerk(Clerk):
    """Does each job when it is asked for. Doesn't wait when the records fail."""

    def ask(self, work: Callable[[Transaction], Answer]) -> "Future[Answer]":
        future = super().ask(work)
        self._do_jobs()
        return future

    def _wait_out(self, fault: Exception) -> None:
        self.faults += 1


class Process:
    """One serving process on *store*, step by step. *version*: of its time zone data."""

    def __init__(
        self, store: Store, door: FakeDoor, clock: HandClock, version: str = "1", draw: Draw = by_chance
    ) -> None:
        self.store, self.door, self.clock = store, door, clock
        zones = ZoneWatch(store, version)
        self.clerk = InstantClerk(store, Turns(store, door.name, draw), clock, zones, LEASE)
        self.sender = Sender(door, self.clerk, clock)

    def hear(self, *messages: Incoming) -> None:
        for each in messages:
            self.clerk.ask(lambda tx, each=each: inbox.accept(tx, each)).result()  # type: ignore[misc]

    def work(self) -> None:
        """All that can be done now."""
        while self.clerk.step():
            pass
        self.send()

    def zones_only(self) -> None:
        """Due times are brought to the zone data of this process."""
        while self.clerk.zones.step(self.clock.at):
            pass

    def send(self) -> None:
        asyncio.run(self._send())

    async def _send(self) -> None:
        while await self.sender.step():
            pass

    def at(self, now: datetime) -> list[Outgoing]:
        """What arrives when the clock shows *now*."""
        before = len(self.door.got)
        self.clock.at = now
        self.work()
        return self.door.got[before:]
