"""Hands what waits to a door: one message of a chat at a time, several chats at once, each try written down."""

import asyncio
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from uuid import uuid4

from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session as Transaction

from bot.logs import note
from bot.messages import Outgoing
from bot.ports import Clock, Never, NotNow, ServedDoor
from bot.post.clerk import Clerk
from bot.post.drawing import drawn, is_to_draw
from bot.store import outbox, routes, sending
from bot.turn.held_up import is_too_late, take_back

AT_ONCE = 16
"""Messages on their way to a chat system at one time; more of them are slower."""


@dataclass(frozen=True, slots=True)
class _Result:
    tried: sending.Try
    outcome: NotNow | Never | None


class Sender:
    """The sender of one door in one process."""

    def __init__(self, door: ServedDoor, clerk: Clerk, clock: Clock, poll: float = 0.25) -> None:
        """*poll*: seconds between two looks when nothing waits."""
        self.door, self.clerk, self.clock, self.poll = door, clerk, clock, poll
        self.process = uuid4().hex
        self.spoke: frozenset[str] = frozenset()
        self.renew_at = clock.now()
        self.wake = asyncio.Event()
        self.round = asyncio.Condition()
        self.drawing = ThreadPoolExecutor(1, "drawing")

    async def run(self, stop: asyncio.Event) -> None:
        """Send until *stop* is set, and what is on its way then."""
        while not stop.is_set():
            if not await self.step():
                try:
                    await asyncio.wait_for(self.wake.wait(), self.poll)
                except TimeoutError:
                    continue
                finally:
                    self.wake.clear()

    async def step(self) -> bool:
        """One round: take, send, write down. False: nothing waits."""
        if not self.door.is_open() and not self.spoke:
            return False
        try:
            tries = await asyncio.wrap_future(self.clerk.ask(self._claim))
            if not tries:
                return False
            results = await asyncio.gather(*map(self._send, tries))
            await self._write_down(results)
        except DBAPIError:
            return False
        async with self.round:
            self.round.notify_all()
        return True

    def _claim(self, tx: Transaction) -> tuple[sending.Try, ...]:
        now = self.clock.now()
        self._keep_routes(tx, now)
        if not self.door.is_open():
            return ()
        tries = sending.claim(tx, sending.Claim(self.door.name, now, self.clerk.lease, AT_ONCE, self.process))
        late = [each for each in tries if is_too_late(each, now)]
        for each in late:
            take_back(tx, each, now, self.door.name)
        return tuple(each for each in tries if each not in late)

    def _keep_routes(self, tx: Transaction, now: datetime) -> None:
        """Other processes are told which chats no longer speak through this one, and that the others still do."""
        speak = self.door.chats()
        routes.end(tx, self.door.name, self.spoke - speak, self.process)
        self.spoke = speak
        if now >= self.renew_at or self.renew_at - now > self.clerk.lease:
            routes.renew(tx, self.process, now + self.clerk.lease)
            self.renew_at = now + self.clerk.lease / 3

    async def _send(self, tried: sending.Try) -> _Result:
        try:
            async with asyncio.timeout(self.clerk.lease.total_seconds() / 2):
                await self.door.send(await self._drawn(tried.message))
        except (NotNow, Never) as refused:
            return _Result(tried, refused)
        except Exception as fault:
            note("not_sent", row=tried.row, fault=type(fault).__name__)
            return _Result(tried, NotNow())
        return _Result(tried, None)

    async def _drawn(self, message: Outgoing) -> Outgoing:
        """*message* with its pictures, drawn on a thread of their own while others are sent."""
        if not is_to_draw(message):
            return message
        return await asyncio.get_running_loop().run_in_executor(self.drawing, drawn, message)

    async def _write_down(self, results: list[_Result]) -> None:
        """What became of each try is kept, however often that has to be tried."""
        job = partial(_keep_results, results=results, clock=self.clock)
        while True:
            try:
                await asyncio.wrap_future(self.clerk.ask(job))
            except DBAPIError as fault:
                note("not_marked", row=results[0].tried.row, fault=type(fault.orig).__name__)
                await asyncio.sleep(self.poll)
            else:
                return


def _keep_results(tx: Transaction, results: list[_Result], clock: Clock) -> None:
    outbox.mark_sent(tx, [each.tried.message.id for each in results if each.outcome is None])
    for each in results:
        match each.outcome:
            case NotNow(wait=wait):
                sending.later(tx, each.tried, clock.now(), wait)
            case Never(reason=reason):
                note("parked", row=each.tried.row, fault=reason)
                sending.park(tx, each.tried, reason)
            case None:
                pass
