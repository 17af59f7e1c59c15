"""Danger is answered whatever else is broken, whoever writes, at any hour, before all that waits."""

import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path

import pytest
from sqlalchemy import event

from bot.messages import Incoming
from bot.store import outbox
from bot.store.unit import Store
from tests.support.letters import letter
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire, abouts, url_of

Json = dict[str, object]
AT = "2026-03-02T07:20:00+00:00"
SIGNS = [("tight chest on the hill", "urgent", "chest"), ("I want to kill myself", "care", "self_harm")]
TRAINING = ("session", "next", "segments", "entries", "was_min")


def answer(run: OnTheWire, text: str, who: str = "ada", at: str = AT) -> Json:
    """The only answer to *who*."""
    run.feed({"at": at})
    (found,) = abouts(run.feed({"at": at, "id": f"{who}-{at}-{text}", "chat": who, "text": text}), who)
    return found


def is_help(about: Json, kind: str, code: str) -> bool:
    """Help for that sign and no training talk."""
    codes = about["codes"]
    assert isinstance(codes, list)
    return about["kind"] == kind and code in codes and not any(about.get(each) for each in TRAINING)


@pytest.fixture
def read_only(templates: Path, tmp_path: Path) -> Iterator[OnTheWire]:
    """Records that can be read and not written."""
    store = Store.open(url_of(Path(shutil.copy(templates / "enrolled.sqlite3", tmp_path))))
    event.listen(store.engine, "connect", lambda connection, _: connection.execute("PRAGMA query_only=ON"))
    store.close()
    yield OnTheWire(store)
    store.close()


@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_with_records_that_can_not_be_written(read_only: OnTheWire, text: str, kind: str, code: str) -> None:
    assert is_help(answer(read_only, text), kind, code)


@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_a_stranger_with_records_that_can_not_be_written(read_only: OnTheWire, text: str, kind: str, code: str) -> None:
    assert is_help(answer(read_only, text, "bob"), kind, code)


BROKEN = [
    "bot.turn.turns.replan",
    "bot.turn.turns.agenda",
    "bot.turn.turns.converse",
    "bot.conversation.order.signs_in",
    "bot.conversation.topics.triage.triage_all",
    "bot.store.people._look_up",
    "bot.store.people.seen",
]


@pytest.mark.parametrize("broken", BROKEN)
@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_with_something_broken(
    wire: OnTheWire, monkeypatch: pytest.MonkeyPatch, broken: str, text: str, kind: str, code: str
) -> None:
    monkeypatch.setattr(broken, breaks)
    assert is_help(answer(wire, text), kind, code)


@pytest.mark.parametrize("broken", BROKEN)
@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_sessions_are_on_hold_although_the_answer_broke(
    wire: OnTheWire, monkeypatch: pytest.MonkeyPatch, broken: str, text: str, kind: str, code: str
) -> None:
    wire.feed({"at": "2026-03-01T20:00:00+00:00"})
    with monkeypatch.context() as patch:
        patch.setattr(broken, breaks)
        assert answer(wire, text)["kind"] == kind
    (hold,) = wire.data()["hold"]  # type: ignore[misc]
    assert code in hold["codes"]
    assert "today" not in {each["kind"] for each in abouts(wire.feed({"at": "2026-03-03T06:00:00+00:00"}))}


def breaks(*_: object, **__: object) -> object:
    raise RuntimeError("broken for this test")


@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_before_a_thousand_that_wait(wire: OnTheWire, text: str, kind: str, code: str) -> None:
    with wire.store.begin() as tx:
        for number in range(1000):
            outbox.put(tx, replace(letter(f"k-{number}", who="sam"), door="wire"))
    first = wire.feed({"at": AT, "id": "u-1", "chat": "ada", "text": text})[0]
    assert first["chat"] == "ada"
    assert is_help(first["about"], kind, code)  # type: ignore[arg-type]


@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_before_messages_that_a_crash_left_unanswered(wire: OnTheWire, text: str, kind: str, code: str) -> None:
    wire.feed({"at": AT})
    at, turns = datetime.fromisoformat(AT), wire.wire.desk.turns
    for number, said in enumerate([*["done"] * 20, text]):
        turns.accept(Incoming("wire", f"u-{number}", "ada", "ada", at, said))
    first = OnTheWire(wire.store).feed({"at": AT})[0]
    assert first["about"]["kind"] == kind  # type: ignore[index]
    assert len(wire.data()["entries"]) == 1  # type: ignore[arg-type]


BEFORE: list[tuple[str, list[str]]] = [
    ("a break", ["on holiday until 20 march"]),
    ("a pause", ["pause please"]),
    ("illness", ["fever 38.5"]),
    ("a red flag", ["knee pain 7/10"]),
    ("another danger", ["I fainted"]),
    ("an open question", ["my knee hurts"]),
    ("a session that goes badly", ["can't go on"]),
    ("leaving asked", ["erase everything"]),
    ("somebody erased", ["erase everything", "yes"]),
]


@pytest.mark.parametrize(("what", "said"), BEFORE, ids=[row[0] for row in BEFORE])
@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_after_anything(wire: OnTheWire, what: str, said: list[str], text: str, kind: str, code: str) -> None:
    for number, each in enumerate(said):
        answer(wire, each, at=f"2026-03-02T07:1{number}:00+00:00")
    assert is_help(answer(wire, text), kind, code), what


@pytest.mark.parametrize("hour", range(0, 24, 3))
def test_at_any_hour(wire: OnTheWire, hour: int) -> None:
    assert is_help(answer(wire, "chest pain", at=f"2026-03-02T{hour:02}:59:00+00:00"), "urgent", "chest")


PEOPLE: list[tuple[str, Json]] = [
    ("nobody coaches", {"coach": None}),
    ("not cleared", {"screen": {"active": False, "disease": True, "signs": False}}),
    ("nothing is shared", {"shares": ["log"]}),
    ("another country", {"country": "BR", "tz": "America/Sao_Paulo"}),
    ("a country without numbers of its own", {"country": "AQ", "tz": "Antarctica/Palmer"}),
]


@pytest.mark.parametrize(("what", "changes"), PEOPLE, ids=[row[0] for row in PEOPLE])
@pytest.mark.parametrize(("text", "kind", "code"), SIGNS)
def test_whoever_writes(tmp_path: Path, what: str, changes: Json, text: str, kind: str, code: str) -> None:
    run = OnTheWire.on(tmp_path / "run.sqlite3", ada(**changes), kim())
    assert is_help(answer(run, text), kind, code), what
    run.store.close()


def test_the_coach_in_danger_is_answered_too(wire: OnTheWire) -> None:
    assert is_help(answer(wire, "I have chest pain", "kim"), "urgent", "chest")
