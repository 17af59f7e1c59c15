"""Everything that runs under `serve`: one clerk, and for each door its loop and its sender; started, watched, ended."""

import asyncio
from collections.abc import Sequence
from datetime import timedelta
from functools import partial
from threading import Thread

from bot.logs import note, tell
from bot.ports import Clock, ServedDoor
from bot.post.clerk import Clerk
from bot.post.loading import undisturbed
from bot.post.reception import Reception
from bot.post.sender import Sender
from bot.store import sending
from bot.store.alone import OnlyOne
from bot.store.unit import Store
from bot.turn.tell import warm_up

LONGEST_WAIT = 60.0
"""Seconds at most until a door that failed is tried again."""


class Serving:
    """One process. *takeover*: how long after the death of a process another one has its doors."""

    def __init__(
        self, store: Store, clerk: Clerk, clock: Clock, doors: Sequence[ServedDoor], takeover: timedelta
    ) -> None:
        """*doors*: those that are set up."""
        self.store, self.clerk, self.clock, self.doors = store, clerk, clock, doors
        self.look = takeover.total_seconds() / 2
        self.stop = asyncio.Event()
        self.failed = False
        self.senders = [Sender(door, clerk, clock) for door in doors]

    async def run(self) -> None:
        """Serve until *stop* is set. Raises `OSError` if a door can't be opened at the start."""
        self._tell_parked()
        loop = asyncio.get_running_loop()
        self.clerk.tell_senders = partial(loop.call_soon_threadsafe, self._wake)
        thread = Thread(target=self._work, args=(loop,), name="clerk")
        thread.start()
        try:
            async with asyncio.TaskGroup() as tasks:
                for door, sender in zip(self.doors, self.senders, strict=True):
                    tasks.create_task(self._keep_open(door, sender))
        except ExceptionGroup as failed:
            raise failed.exceptions[0] from None
        finally:
            self.clerk.stop()
            await asyncio.to_thread(thread.join)

    def _work(self, loop: asyncio.AbstractEventLoop) -> None:
        try:
            with undisturbed():
                warm_up()
            self.clerk.run()
        except BaseException as fault:
            note("clerk_died", row=0, fault=type(fault).__name__)
            self.failed = True
            loop.call_soon_threadsafe(self.stop.set)

    def _wake(self) -> None:
        for sender in self.senders:
            sender.wake.set()

    def _tell_parked(self) -> None:
        with self.store.begin() as tx:
            for each in sending.parked(tx):
                note("parked", row=each.count, fault=f"{each.door}:{each.reason}")

    async def _keep_open(self, door: ServedDoor, sender: Sender) -> None:
        """The door is open as long as it may be; one that fails is opened again, after waits that grow."""
        only = OnlyOne(self.store.engine, f"door {door.name}")
        faults = 0
        while not self.stop.is_set():
            if door.alone and not await asyncio.to_thread(only.hold):
                await self._pause(self.look)
                continue
            try:
                await self._open(door, sender, only)
                faults = 0
            except OSError:
                if not faults and not door.alone:
                    raise
                faults += 1
            except Exception as fault:
                note("door_failed", row=faults, fault=type(fault).__name__)
                faults += 1
            if faults:
                await self._pause(min(LONGEST_WAIT, 2.0**faults))
        await asyncio.to_thread(only.let_go)

    async def _open(self, door: ServedDoor, sender: Sender, only: OnlyOne) -> None:
        """Until the process stops, or another one has the door."""
        done = asyncio.Event()
        try:
            await self._talk_and_send(door, sender, only, done)
        except ExceptionGroup as failed:
            raise failed.exceptions[0] from None
        tell("closed", what=door.name)

    async def _talk_and_send(self, door: ServedDoor, sender: Sender, only: OnlyOne, done: asyncio.Event) -> None:
        """The door finishes what it has in hand; so long its answers are sent."""
        silent = asyncio.Event()
        async with asyncio.TaskGroup() as tasks:
            talking = tasks.create_task(door.serve(Reception(self.clerk, sender), done))
            sending_ = tasks.create_task(sender.run(silent))
            while not self.stop.is_set() and not talking.done() and not sending_.done():
                await self._pause(self.look)
                if door.alone and not await asyncio.to_thread(only.hold):
                    note("door_lost", row=0, fault=door.name)
                    break
            done.set()
            await asyncio.wait({talking})
            silent.set()

    async def _pause(self, seconds: float) -> None:
        try:
            await asyncio.wait_for(self.stop.wait(), seconds)
        except TimeoutError:
            return
