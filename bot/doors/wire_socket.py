"""The wire over a WebSocket: the same lines, one in each frame, for other programs; the clock is that of the server."""

import asyncio
import json
from contextlib import suppress
from dataclasses import dataclass, field, replace
from hmac import compare_digest
from http import HTTPStatus
from typing import Any

from websockets.asyncio.server import Server, ServerConnection, serve
from websockets.exceptions import ConnectionClosed
from websockets.http11 import Request, Response
from websockets.typing import Origin

from bot.doors.wire import DOOR, BadLine, as_given, parse, to_incoming, to_line
from bot.logs import tell
from bot.messages import Incoming, Outgoing
from bot.ports import Clock, NotNow, Reception

LARGEST_FRAME = 2**20
"""Bytes; a larger one closes the connection before it is looked at."""

LINES_AT_ONCE = 1000
"""Lines of one connection in hand; further ones wait in the network. Many, since one of them may speak of danger."""

ARRIVES_WITHIN = 10.0
"""Seconds in which the other program has to take a message."""

PATIENCE = 5.0
"""Seconds after which danger gets help by itself when its answer does not come."""


@dataclass(frozen=True, slots=True)
class Access:
    """Who may connect. *origins*: web pages that may; programs send none."""

    host: str
    port: int
    token: str
    origins: tuple[str, ...] = ()


@dataclass(eq=False)
class _Talk:
    """One connection. *number*: lines that came."""

    socket: ServerConnection
    number: int = 0
    room: asyncio.Semaphore = field(default_factory=lambda: asyncio.Semaphore(LINES_AT_ONCE))

    async def say(self, value: dict[str, object]) -> None:
        await self.socket.send(json.dumps(value, ensure_ascii=False))

    async def complain(self, wrong: BadLine, number: int) -> None:
        await self.say({"error": str(wrong), "line": number})


class WireSocket:
    """Serves the wire to other programs. A chat's messages go to the connection that it last spoke through."""

    name = DOOR

    def __init__(self, access: Access, clock: Clock, *, alone: bool = False) -> None:
        """*alone*: of several processes only one opens the port; the next one does when that one dies."""
        self.access, self.clock, self.alone = access, clock, alone
        self.talks: list[_Talk] = []
        self.through: dict[str, _Talk] = {}
        self.port: int | None = None

    async def serve(self, reception: Reception, stop: asyncio.Event) -> None:
        """Take lines until *stop* is set; then finish those in hand."""

        async def handle(socket: ServerConnection) -> None:
            await self._talk(_Talk(socket), reception, stop)

        async with serve(
            handle,
            self.access.host,
            self.access.port,
            process_request=self._check,
            origins=[None, *map(Origin, self.access.origins)],
            max_size=LARGEST_FRAME,
            max_queue=LINES_AT_ONCE,
            server_header=None,
            compression=None,
        ) as server:
            self.port = _port_of(server)
            tell("listening", what=self.name, count=self.port)
            await stop.wait()
            server.close(close_connections=False)  # each is closed when its lines in hand are done
            await server.wait_closed()

    def _check(self, socket: ServerConnection, request: Request) -> Response | None:
        """Whoever has no token is sent away before anything is read."""
        given = request.headers.get("Authorization", "")
        if compare_digest(given.encode(), f"Bearer {self.access.token}".encode()):
            return None
        return socket.respond(HTTPStatus.UNAUTHORIZED, "send the token: Authorization: Bearer ...\n")

    async def _talk(self, talk: _Talk, reception: Reception, stop: asyncio.Event) -> None:
        self.talks.append(talk)
        ended = asyncio.create_task(stop.wait())
        lines: set[asyncio.Task[None]] = set()
        try:
            while (frame := await _next_frame(talk.socket, ended)) is not None:
                await talk.room.acquire()
                talk.number += 1
                await self._start(talk, frame, reception, lines)
            if stop.is_set() and lines:
                await asyncio.wait(lines, timeout=ARRIVES_WITHIN)
        except ConnectionClosed:
            pass
        finally:
            ended.cancel()
            for line in lines:
                line.cancel()
            self.talks.remove(talk)
            self.through = {chat: each for chat, each in self.through.items() if each is not talk}

    async def _start(
        self, talk: _Talk, frame: str | bytes, reception: Reception, lines: "set[asyncio.Task[None]]"
    ) -> None:
        """Begin one line. Those of a connection are kept in the order in which they came."""
        line = asyncio.create_task(self._whole_line(talk, frame, talk.number, reception))
        lines.add(line)
        line.add_done_callback(lines.discard)
        line.add_done_callback(lambda _: talk.room.release())
        await asyncio.sleep(0)

    async def _whole_line(self, talk: _Talk, frame: str | bytes, number: int, reception: Reception) -> None:
        with suppress(ConnectionClosed):  # what it caused goes out through the next connection
            await self._line(talk, frame, number, reception)

    async def _line(self, talk: _Talk, frame: str | bytes, number: int, reception: Reception) -> None:
        now = self.clock.now()
        try:
            if not isinstance(frame, str):
                raise BadLine("a frame of bytes is no line; send text")
            line = parse(frame, now)
            incoming = to_incoming(line)
        except BadLine as wrong:
            await talk.complain(wrong, number)
            return
        if incoming is None:
            await talk.say({"done": as_given(frame)})
            return
        self.through[incoming.chat] = talk
        await self._answer(talk, replace(incoming, at=now), reception)
        await talk.say({"done": incoming.id})

    async def _answer(self, talk: _Talk, incoming: Incoming, reception: Reception) -> None:
        """Until the line is over. Danger doesn't wait for records that don't answer, not even to be kept."""
        over = asyncio.create_task(self._over(talk, incoming, reception))
        try:
            done, _ = await asyncio.wait({over}, timeout=PATIENCE)
            if not done:
                for message in reception.meanwhile(incoming):
                    await talk.socket.send(to_line(message))
            await over
        finally:
            over.cancel()

    async def _over(self, talk: _Talk, incoming: Incoming, reception: Reception) -> None:
        try:
            await reception.keep(incoming)
        except NotNow:
            await talk.socket.send(to_line(reception.unkept(incoming)))
        else:
            await reception.over(incoming)

    def chats(self) -> frozenset[str]:
        """Chats that speak through this process."""
        return frozenset(self.through)

    def is_open(self) -> bool:
        """Whether a program is connected."""
        return bool(self.talks)

    async def send(self, message: Outgoing) -> None:
        """Hand a message to the program that its chat speaks through, else to the one that came first.

        It has arrived when the other end has answered a ping that was sent after it.
        """
        talk = self.through.get(message.chat) or next(iter(self.talks), None)
        if talk is None:
            raise NotNow
        try:
            async with asyncio.timeout(ARRIVES_WITHIN):
                await talk.socket.send(to_line(message))
                await (await talk.socket.ping())
        except (ConnectionClosed, TimeoutError) as gone:
            raise NotNow from gone


async def _next_frame(socket: ServerConnection, ended: "asyncio.Task[Any]") -> str | bytes | None:
    """The next frame; None when the other end has gone or this one has to stop."""
    coming = asyncio.ensure_future(socket.recv())
    await asyncio.wait({coming, ended}, return_when=asyncio.FIRST_COMPLETED)
    if not coming.done():
        coming.cancel()
        return None
    return coming.result()


def _port_of(server: Server) -> int:
    return int(next(iter(server.sockets)).getsockname()[1])
