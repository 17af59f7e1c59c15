"""The wire over a WebSocket: who gets in, what a frame may be, what becomes of a line. All on the loopback."""

import asyncio
import json
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass, field, replace

import pytest
from websockets.asyncio.client import ClientConnection, connect
from websockets.exceptions import ConnectionClosedError, InvalidStatus

from bot.clock.system import SystemClock
from bot.doors import wire_socket
from bot.doors.wire_socket import LARGEST_FRAME, Access, WireSocket
from bot.messages import Incoming, Outgoing
from bot.ports import NotNow
from tests.support.letters import START, at

TOKEN = "a-token-of-our-own-making"
ACCESS = Access("127.0.0.1", 0, TOKEN, ("https://a.example",))
HELLO = {"id": "u-1", "chat": "ada", "text": "hello"}


def outgoing(name: str = "m-1", chat: str = "ada") -> Outgoing:
    return Outgoing(name, "wire", chat, at(), "Hi", '{"kind": "small"}')


@dataclass
class Answering:
    """Answers each message by one of its own. *fails*: nothing can be kept; *hangs*: what never comes back."""

    door: WireSocket
    kept: list[Incoming] = field(default_factory=list)
    fails: bool = False
    hangs: str = ""

    async def keep(self, incoming: Incoming) -> bool:
        await self._hang("keep")
        if self.fails:
            raise NotNow
        self.kept.append(incoming)
        return True

    async def _hang(self, what: str) -> None:
        if self.hangs == what:
            await asyncio.Event().wait()

    async def over(self, incoming: Incoming) -> None:
        await self._hang("over")
        await self.door.send(replace(outgoing(f"to-{incoming.id}"), chat=incoming.chat))

    def unkept(self, incoming: Incoming) -> Outgoing:
        return outgoing("unkept", incoming.chat)

    def meanwhile(self, incoming: Incoming) -> tuple[Outgoing, ...]:
        return (outgoing("meanwhile", incoming.chat),)


Dial = Callable[..., Awaitable[ClientConnection]]


@asynccontextmanager
async def opened(access: Access = ACCESS) -> AsyncIterator[tuple[WireSocket, Answering, Dial]]:
    """The door, open; and how to connect to it."""
    door = WireSocket(access, SystemClock.starting(START))
    desk, stop = Answering(door), asyncio.Event()
    serving = asyncio.create_task(door.serve(desk, stop))
    while door.port is None:
        await asyncio.wait({serving}, timeout=0.01)

    async def dial(token: str | None = TOKEN, **more: object) -> ClientConnection:
        headers = {} if token is None else {"Authorization": f"Bearer {token}"}
        return await connect(f"ws://127.0.0.1:{door.port}", additional_headers=headers, **more)  # type: ignore[arg-type]

    yield door, desk, dial
    stop.set()
    await asyncio.wait_for(serving, 10)


async def lines(client: ClientConnection, count: int) -> list[dict[str, object]]:
    return [json.loads(await asyncio.wait_for(client.recv(), 10)) for _ in range(count)]


@pytest.mark.parametrize("token", [None, "", "wrong", TOKEN[:-1], TOKEN + "x", TOKEN.upper()])
async def test_nobody_gets_in_without_the_token(token: str | None) -> None:
    async with opened() as (_, _, dial):
        with pytest.raises(InvalidStatus) as refused:
            await dial(token)
    assert refused.value.response.status_code == 401
    assert refused.value.response.body.count(b"\n") == 1  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("origin", "status"), [("https://evil.example", 403), ("null", 403), ("http://a.example", 403)]
)
async def test_a_foreign_page_is_refused_even_with_the_token(origin: str, status: int) -> None:
    async with opened() as (_, _, dial):
        with pytest.raises(InvalidStatus) as refused:
            await dial(origin=origin)
    assert refused.value.response.status_code == status


async def test_a_page_that_was_named_gets_in() -> None:
    async with opened() as (_, _, dial):
        client = await dial(origin="https://a.example")
        await client.send(json.dumps(HELLO))
        assert (await lines(client, 2))[-1] == {"done": "u-1"}


async def test_a_line_is_done_after_all_that_it_caused() -> None:
    async with opened() as (_, desk, dial):
        client = await dial()
        await client.send(json.dumps(HELLO | {"at": "2020-01-01T00:00:00+00:00"}))
        message, done = await lines(client, 2)
    assert (message["id"], done) == ("to-u-1", {"done": "u-1"})
    assert abs(desk.kept[0].at - START).total_seconds() < 60, "the clock is that of the server"


BAD = [
    ("no JSON", "{oops", "JSON"),
    ("a list", "[]", "object"),
    ("bytes", b"{}", "bytes"),
    ("no chat", '{"id": "u-1", "text": "x"}', "chat"),
    ("an unknown field", json.dumps(HELLO | {"mood": 1}), "mood"),
]


@pytest.mark.parametrize(("what", "frame", "told"), BAD, ids=[row[0] for row in BAD])
async def test_a_bad_frame_is_one_error_and_the_talk_goes_on(what: str, frame: str | bytes, told: str) -> None:
    async with opened() as (_, _, dial):
        client = await dial()
        await client.send(frame)
        await client.send(json.dumps(HELLO))
        error, *rest = await lines(client, 3)
    assert error["line"] == 1
    assert told in str(error["error"]), what
    assert rest[-1] == {"done": "u-1"}


async def test_a_frame_that_is_too_large_is_not_read() -> None:
    async with opened() as (_, desk, dial):
        client = await dial(max_size=None)
        await client.send("x" * (LARGEST_FRAME + 1))
        with pytest.raises(ConnectionClosedError, match="1009"):
            await client.recv()
        assert desk.kept == []


async def test_messages_of_a_chat_go_to_whom_it_spoke_through() -> None:
    async with opened() as (door, _, dial):
        first, second = await dial(), await dial()
        await second.send(json.dumps(HELLO | {"chat": "bea"}))
        await lines(second, 2)
        await asyncio.gather(door.send(outgoing("m-2", "bea")), door.send(outgoing("m-3", "cem")))
        assert [each["id"] for each in await lines(second, 1) + await lines(first, 1)] == ["m-2", "m-3"]
        assert door.chats() == {"bea"}


async def test_without_a_program_at_the_other_end_nothing_is_sent() -> None:
    async with opened() as (door, _, dial):
        assert not door.is_open()
        with pytest.raises(NotNow):
            await door.send(outgoing())
        client = await dial()
        await client.send(json.dumps(HELLO))
        await lines(client, 2)
        await client.close()
        with pytest.raises(NotNow):
            await door.send(outgoing())


async def test_lines_of_one_connection_are_kept_in_order() -> None:
    async with opened() as (_, desk, dial):
        client = await dial()
        for place in range(30):
            await client.send(json.dumps(HELLO | {"id": f"u-{place}", "chat": f"c-{place % 3}"}))
        await lines(client, 60)
    assert [each.id for each in desk.kept] == [f"u-{place}" for place in range(30)]


async def test_what_can_not_be_kept_is_said_at_once() -> None:
    async with opened() as (_, desk, dial):
        desk.fails = True
        client = await dial()
        await client.send(json.dumps(HELLO))
        assert [each.get("id") for each in await lines(client, 2)] == ["unkept", None]


@pytest.mark.parametrize("hangs", ["keep", "over"])
async def test_help_does_not_wait_for_records_that_hang(monkeypatch: pytest.MonkeyPatch, hangs: str) -> None:
    monkeypatch.setattr(wire_socket, "PATIENCE", 0.01)
    async with opened() as (_, desk, dial):
        desk.hangs = hangs
        client = await dial()
        await client.send(json.dumps(HELLO))
        assert [each["id"] for each in await lines(client, 1)] == ["meanwhile"]
        await client.close()


async def test_passing_time_is_done_by_itself() -> None:
    async with opened() as (_, _, dial):
        client = await dial()
        await client.send('{"at": "2026-03-02T07:00:00Z"}')
        assert await lines(client, 1) == [{"done": "2026-03-02T07:00:00Z"}]
