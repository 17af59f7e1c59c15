"""What doors of `serve` talk to: the clerk, seen from the loop that holds the connections."""

import asyncio

from sqlalchemy.exc import DBAPIError

from bot.logs import note
from bot.messages import Incoming, Outgoing
from bot.ports import NotNow
from bot.post.clerk import Clerk
from bot.post.sender import Sender
from bot.store import inbox, sending
from bot.turn.tell import help_meanwhile, unkept_answer


class Reception:
    """The reception of one door."""

    def __init__(self, clerk: Clerk, sender: Sender) -> None:
        """*sender*: of the same door."""
        self.clerk, self.sender = clerk, sender

    async def keep(self, incoming: Incoming) -> bool:
        """Keep a message. Returns False if its id is known; raises `NotNow` when nothing can be kept."""
        try:
            return await asyncio.wrap_future(self.clerk.ask(lambda tx: inbox.accept(tx, incoming)))
        except DBAPIError as fault:
            note("not_kept", row=0, fault=type(fault.orig).__name__)
            raise NotNow from fault

    async def over(self, incoming: Incoming) -> None:
        """Wait until a message that was kept is answered and all that this caused is sent."""
        while not await self._is_over(incoming):
            async with self.sender.round:
                try:
                    await asyncio.wait_for(self.sender.round.wait(), self.sender.poll)
                except TimeoutError:
                    continue

    async def _is_over(self, incoming: Incoming) -> bool:
        try:
            asked = self.clerk.ask(lambda tx: sending.is_over(tx, incoming.door, incoming.id, incoming.chat))
            return await asyncio.wrap_future(asked)
        except DBAPIError:
            return False

    def unkept(self, incoming: Incoming) -> Outgoing:
        """What is said when nothing can be kept."""
        return unkept_answer(incoming)

    def meanwhile(self, incoming: Incoming) -> tuple[Outgoing, ...]:
        """Help for a message that was kept but can't be answered yet, if it speaks of danger."""
        return help_meanwhile(incoming)
