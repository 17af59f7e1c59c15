"""Pictures are drawn outside the turn, when their message goes out: the same bytes each time, or none and a note."""

import base64
import json
import logging
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from bot.conversation.changes import KeepProfile
from bot.forms import profile_from_json
from bot.messages import Attachment, Bar, Outgoing
from bot.post import desk as desks
from bot.post.desk import Desk
from bot.post.drawing import drawn
from bot.reports import chart
from bot.store import outbox
from bot.store.unit import Store
from bot.turn.turns import enrol
from tests.support.letters import at, incoming, letter
from tests.support.people import ada
from tests.support.serving import FakeDoor, HandClock, Process
from tests.support.wire import OnTheWire

BARS = tuple(Bar(date(2026, 2, day), 60.0 + day, 25.0) for day in (2, 9, 16, 23))
PICTURE = Attachment("weeks.png", "image/png", b"", BARS)


@pytest.fixture(autouse=True, scope="module")
def paper() -> bytes:
    """The picture of these weeks, drawn once."""
    return chart.weeks_png(BARS)


@pytest.fixture
def broken(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing can be drawn."""

    def fail(_bars: object) -> bytes:
        raise MemoryError

    monkeypatch.setattr(chart, "weeks_png", fail)


@pytest.fixture
def waiting(store: Store) -> Iterator[Store]:
    """A message with a picture, and a copy of a release that kept the picture itself."""
    with store.begin() as tx:
        outbox.put(tx, replace(letter("new"), files=(PICTURE,)))
        outbox.put(tx, replace(letter("old", "from before"), files=(Attachment("weeks.png", "image/png", b"\x89PNG"),)))
    yield store
    store.close()


def files_of(messages: list[Outgoing] | tuple[Outgoing, ...]) -> list[list[bytes]]:
    return [[file.content for file in each.files] for each in messages]


def test_the_wire_gets_the_picture_in_the_line(wire: OnTheWire) -> None:
    wire.says("2026-03-02T08:00:00+00:00", "done 20 min")
    wire.feed({"at": "2026-03-02T09:00:00+00:00", "id": "r", "chat": "ada", "text": "review"})
    [file] = next(each["files"] for each in wire.out if "files" in each)  # type: ignore[misc]
    assert (file["name"], file["type"]) == ("weeks.png", "image/png")
    assert base64.b64decode(file["base64"]).startswith(b"\x89PNG")


def test_no_turn_draws(monkeypatch: pytest.MonkeyPatch, wire: OnTheWire) -> None:
    monkeypatch.setattr(desks, "drawn", lambda message: message)
    wire.says("2026-03-02T08:00:00+00:00", "done 20 min")
    told = wire.feed({"at": "2026-03-02T09:00:00+00:00", "id": "r", "chat": "ada", "text": "review"})
    assert [file["base64"] for each in told for file in each.get("files", ())] == [""]  # type: ignore[attr-defined]


def test_the_desk_draws_the_same_each_time(waiting: Store, paper: bytes) -> None:
    for _before_and_after_a_crash in range(2):
        assert files_of(Desk(waiting, "wire").unsent("wire")) == [[paper], [b"\x89PNG"]]


def test_the_sender_draws_the_same_bytes(waiting: Store, paper: bytes) -> None:
    process = Process(waiting, FakeDoor(), HandClock(at()))
    process.work()
    assert files_of(process.door.got) == [[paper], [b"\x89PNG"]]
    assert [file.bars for each in process.door.got for file in each.files] == [(), ()]


@pytest.mark.usefixtures("broken")
def test_a_message_goes_without_a_picture_that_can_not_be_drawn(
    waiting: Store, caplog: pytest.LogCaptureFixture
) -> None:
    process = Process(waiting, FakeDoor(), HandClock(at()))
    with caplog.at_level(logging.ERROR):
        process.work()
    assert files_of(process.door.got) == [[], [b"\x89PNG"]]
    assert "event=not_drawn row=1 fault=MemoryError" in caplog.text


def test_the_picture_of_a_review_arrives_through_the_sender(store: Store) -> None:
    with store.begin() as tx:
        enrol(tx, KeepProfile(profile_from_json(ada(coach=None))))
    process = Process(store, FakeDoor(), HandClock(datetime(2026, 3, 1, 20, tzinfo=UTC)))
    process.work()
    process.hear(replace(incoming("u-1", "done 20 min"), at=at()))
    process.hear(replace(incoming("u-2", "review"), at=at(1)))
    got = process.at(at(2))
    assert [json.loads(each.about)["kind"] for each in got if each.files] == ["review"]


def test_what_has_no_picture_stays_as_it_is() -> None:
    message = Outgoing("m-1", "wire", "ada", at(), "Hello", "{}", files=(Attachment("log.csv", "text/csv", b"a"),))
    assert drawn(message) is message
