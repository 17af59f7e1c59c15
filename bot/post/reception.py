"""What doors of `serve` talk to: the clerk, seen from the loop that holds the connections."""

import asyncio

from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session as Transaction

from bot.logs import note
from bot.messages import Incoming, Outgoing
from bot.ports import NotNow
from bot.post.clerk import Clerk
from bot.post.sender import Sender
from bot.store import inbox, routes, sending
from bot.turn.tell import help_meanwhile, unkept_answer


class Reception:
    """The reception of one door."""

    def __init__(self, clerk: Clerk, sender: Sender) -> None:
        """*sender*: of the same door."""
        self.clerk, self.sender = clerk, sender
        self.waiting: dict[str, tuple[str, asyncio.Future[None]]] = {}
        self.watching: asyncio.Task[None] | None = None

    async def keep(self, incoming: Incoming) -> bool:
        """Keep a message. Returns False if its id is known; raises `NotNow` when nothing can be kept."""
        try:
            return await asyncio.wrap_future(self.clerk.ask(lambda tx: self._keep(tx, incoming)))
        except DBAPIError as fault:
            note("not_kept", row=0, fault=type(fault.orig).__name__)
            raise NotNow from fault

    def _keep(self, tx: Transaction, incoming: Incoming) -> bool:
        until = self.sender.clock.now() + self.clerk.lease
        routes.speaks_through(tx, incoming.door, incoming.chat, self.sender.process, until)
        return inbox.accept(tx, incoming)

    async def over(self, incoming: Incoming) -> None:
        """Wait until a message that was kept is answered and all that this caused is sent."""
        waits = self.waiting.setdefault(incoming.id, (incoming.chat, asyncio.get_running_loop().create_future()))
        if self.watching is None or self.watching.done():
            self.watching = asyncio.create_task(self._watch(incoming.door))
        await asyncio.shield(waits[1])

    async def _watch(self, door: str) -> None:
        """Look after each round of the sender which of the messages are over, all in one question."""
        while self.waiting:
            for each in await self._over(door):
                self.waiting.pop(each)[1].set_result(None)
            async with self.sender.round:
                try:
                    await asyncio.wait_for(self.sender.round.wait(), self.sender.poll)
                except TimeoutError:
                    continue

    async def _over(self, door: str) -> frozenset[str]:
        chats = {name: chat for name, (chat, _) in self.waiting.items()}
        try:
            return await asyncio.wrap_future(self.clerk.ask(lambda tx: sending.over(tx, door, chats)))
        except DBAPIError:
            return frozenset()

    def unkept(self, incoming: Incoming) -> Outgoing:
        """What is said when nothing can be kept."""
        return unkept_answer(incoming)

    def meanwhile(self, incoming: Incoming) -> tuple[Outgoing, ...]:
        """Help for a message that can't be kept or answered yet, if it speaks of danger."""
        return help_meanwhile(incoming)
