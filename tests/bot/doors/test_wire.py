"""The wire: one JSON object a line. A bad line gets one error, the stream goes on, nothing happens twice."""

import base64
import json
import re
import shutil
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import HealthCheck, example, given, settings
from hypothesis import strategies as st

from bot.doors.wire import to_line
from bot.messages import Attachment, Button, Outgoing
from bot.store.unit import Store
from tests.support.faults import Crash
from tests.support.letters import at
from tests.support.wire import Json, OnTheWire, url_of

AT = "2026-03-02T08:00:00+00:00"
LATER = "2026-03-02T12:00:00+00:00"
MESSAGE: Json = {"at": AT, "id": "u-1", "chat": "ada", "text": "hello"}


def line(**changes: object) -> str:
    """A good line with changes; None takes a field out."""
    return json.dumps({name: value for name, value in (MESSAGE | changes).items() if value is not None})


BAD: list[tuple[str, str, str]] = [
    ("no JSON", "{oops", "JSON"),
    ("text alone", "hello", "JSON"),
    ("a list", "[1]", "object"),
    ("a number", "5", "object"),
    ("nothing", "null", "object"),
    ("half an object", '{"at": ', "JSON"),
    ("deep lists", "[" * 100_000, "JSON"),
    ("deep objects", '{"at":' * 5000 + "1" + "}" * 5000, "JSON"),
    ("a number of 5,000 digits", '{"at": ' + "9" * 5000 + "}", "JSON"),
    ("not a number", '{"at": NaN}', "at"),
    ("infinity", '{"at": 1e999}', "at"),
    ("no time", line(at=None), "at: is missing"),
    ("no zone", line(at="2026-03-02T08:00:00"), "at"),
    ("a day alone", line(at="2026-03-02"), "at"),
    ("seconds since 1970", line(at=1_772_438_400), "at"),
    ("seconds since 1970 in text", line(at="1772438400"), "at"),
    ("the year 1", line(at="0001-01-01T00:00:00+14:00"), "at"),
    ("the year 9999", line(at="9999-12-31T23:59:59-12:00"), "at"),
    ("a time before the clock", line(at="2026-02-27T08:00:00+00:00"), "before the clock"),
    ("an unknown field", line(mood="fine"), "mood"),
    ("an unknown field of a long name", line(**{"x" * 10_000: 1}), "no field"),
    ("an unknown field of two lines", line(**{"x\n\u2028y": 1}), "xy"),
    ("a thousand unknown fields", line(**{f"x{place}": 1 for place in range(1000)}), "x0"),
    ("a field of another shape", line(text=["hello"]), "text"),
    ("text and press", line(press="b-1-1"), "one of"),
    ("text and file", line(file={"name": "x", "base64": ""}), "one of"),
    ("neither of the three", line(text=None), "one of"),
    ("no id", line(id=None), "id"),
    ("an empty id", line(id=""), "id"),
    ("an id that is a number", line(id=5), "id"),
    ("no chat", line(chat=None), "chat"),
    ("a sender without a chat", json.dumps({"at": AT, "from": "ada"}), "chat"),
    ("a chat of 201 characters", line(chat="a" * 201), "chat"),
    ("a chat with a NUL", line(chat="a\0b"), "chat"),
    ("a chat with half a character", line(chat="\udc00"), "chat"),
    ("no base64", line(text=None, file={"name": "x", "base64": "%%%"}), "base64"),
    ("a file without a name", line(text=None, file={"base64": "AAAA"}), "file.name"),
]


@pytest.mark.parametrize(("what", "bad", "told"), BAD, ids=[row[0] for row in BAD])
def test_a_bad_line_is_one_error_and_the_stream_goes_on(wire: OnTheWire, what: str, bad: str, told: str) -> None:
    before = len(wire.out)
    wire.wire.run(["", bad, line(text="done")])
    error, *rest = wire.out[before:]
    assert error.keys() == {"error", "line"}
    assert error["line"] == 2, "blank lines count"
    assert told in str(error["error"]), what
    assert len(str(error["error"]).splitlines()) == 1
    assert len(str(error["error"])) < 300
    assert [each["done"] for each in rest if "done" in each] == ["u-1"]


GOOD: list[tuple[str, Json]] = [
    ("half a character", {"text": "knee \ud800 sore"}),
    ("a NUL", {"text": "do\0ne"}),
    ("a megabyte", {"text": "did 20 " * 150_000}),
    ("all planes", {"text": "👟🏃🏽‍♀️ Ⅷ ｄｏｎｅ ‮done"}),
    ("no words", {"text": ""}),
    ("any bytes", {"text": None, "file": {"name": "x.gpx", "base64": base64.b64encode(bytes(range(256))).decode()}}),
    ("a button that never was", {"text": None, "press": "b-99-1"}),
    ("a zone of its own", {"at": "2026-03-02T21:30:00+13:00"}),
]


@pytest.mark.parametrize(("what", "changes"), GOOD, ids=[row[0] for row in GOOD])
def test_an_odd_message_is_answered(wire: OnTheWire, what: str, changes: Json) -> None:
    found = wire.feed(line(**changes))
    assert [each for each in found if "error" in each] == [], what
    assert [each["chat"] for each in found][-1:] == ["ada"]
    assert wire.out[-1] == {"done": "u-1"}


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    said=st.one_of(
        st.text(), st.recursive(st.none() | st.booleans() | st.floats() | st.text(), st.lists).map(json.dumps)
    )
)
@example("﻿")
@example("\x1c\x85\u2028")
@example('{"at": "2026-03-02T08:00:00+00:00", "at": 1}')
def test_any_line_brings_at_most_one_error(wire: OnTheWire, said: str) -> None:
    before = len(wire.out)
    wire.wire.run([said])
    assert len(wire.out) - before == (1 if said.strip() else 0)


@pytest.mark.parametrize("blank", ["", " ", "\n", "\t \r\n", "\u3000"])
def test_a_blank_line_says_nothing(wire: OnTheWire, blank: str) -> None:
    before = len(wire.out)
    wire.wire.run([blank])
    assert wire.out[before:] == []


def test_each_line_is_done_when_all_that_it_caused_is_out(wire: OnTheWire) -> None:
    before = len(wire.out)
    wire.wire.run([json.dumps({"at": AT}), line(at=LATER, text="done")])
    seen = [each.get("done") or each["about"]["kind"] for each in wire.out[before:]]  # type: ignore[index]
    assert seen == ["today", "digest", AT, "logged", "u-1"]


@pytest.mark.parametrize("given_at", [AT, "2026-03-02T08:00:00Z", "2026-03-02T09:00:00.250+01:00"])
def test_passing_time_is_done_under_its_own_name(wire: OnTheWire, given_at: str) -> None:
    wire.feed({"at": given_at})
    assert wire.out[-1] == {"done": given_at}


def test_the_same_id_twice_has_no_second_effect(wire: OnTheWire) -> None:
    wire.feed(line(text="done"))
    entries = wire.data()["entries"]
    assert wire.feed(line(at=LATER, text="walked 90 min")) == []
    assert wire.out[-1] == {"done": "u-1"}
    assert wire.data()["entries"] == entries


def test_a_known_id_before_the_clock_is_answered_by_done_alone(wire: OnTheWire) -> None:
    wire.feed(line(), {"at": LATER})
    before = len(wire.out)
    wire.wire.run([line()])
    assert wire.out[before:] == [{"done": "u-1"}]


def test_a_known_id_does_not_move_the_clock(wire: OnTheWire) -> None:
    wire.feed(line())
    wire.feed(line(at="2026-03-20T08:00:00+00:00"))
    assert [each for each in wire.feed({"at": LATER}) if "error" in each] == []


def test_nothing_due_before_the_first_line_is_sent(templates: Path, tmp_path: Path) -> None:
    run = OnTheWire(Store.open(url_of(Path(shutil.copy(templates / "enrolled.sqlite3", tmp_path)))))
    assert run.feed({"at": "2026-03-11T12:00:00+00:00"}) == []
    found = run.feed({"at": "2026-03-11T19:00:00+00:00"})
    assert [each["about"]["kind"] for each in found] == ["today"]  # type: ignore[index]


def test_a_new_process_goes_on_from_the_last_line(wire: OnTheWire) -> None:
    wire.feed({"at": "2026-03-02T06:59:00+00:00"})
    second = OnTheWire(wire.store)
    found = second.feed({"at": "2026-03-02T08:00:00+00:00"})
    assert {each["at"] for each in found} == {"2026-03-02T07:00:00+00:00"}


def test_a_crash_while_writing_brings_the_same_messages_again(wire: OnTheWire) -> None:
    wire.wire.write = dies
    with pytest.raises(Crash):
        wire.feed(line(text="done"))
    again = OnTheWire(wire.store)
    found = again.feed(line(text="done"))
    told = [(each["id"], each["about"]["kind"]) for each in found]  # type: ignore[index]
    assert told == [("m-1", "today"), ("m-2", "digest"), ("m-3", "logged")]
    assert again.feed(line(text="done")) == []


def dies(_line: str) -> None:
    raise Crash


def test_all_instants_are_utc_in_whole_seconds(wire: OnTheWire) -> None:
    found = wire.feed(line(at="2026-03-02T09:00:00.999+01:00", text="remind me in an hour"), {"at": LATER})
    instants = [str(each["at"]) for each in found] + [each["about"]["at"] for each in found if "at" in each["about"]]  # type: ignore[index,operator]
    assert len(instants) > len(found)
    assert [each for each in instants if not re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\+00:00", each)] == []


def buttons(wire: OnTheWire) -> dict[str, str]:
    """Buttons of Monday's push by label."""
    push = next(each for each in wire.feed({"at": "2026-03-02T07:01:00+00:00"}) if each["chat"] == "ada")
    return {each["label"]: each["id"] for each in push["buttons"]}  # type: ignore[attr-defined]


def press(wire: OnTheWire, button: str, chat: str = "ada") -> list[object]:
    """Kinds of what a press brings to that chat."""
    wire.count += 1
    found = wire.feed({"at": AT, "id": f"p-{wire.count}", "chat": chat, "press": button})
    return [each["about"]["kind"] for each in found if each["chat"] == chat]  # type: ignore[index]


def test_a_pressed_button_is_the_same_as_its_words(wire: OnTheWire) -> None:
    assert press(wire, buttons(wire)["Done"]) == ["logged"]
    assert len(wire.data()["entries"]) == 1  # type: ignore[arg-type]


def test_a_second_press_has_no_second_effect(wire: OnTheWire) -> None:
    shown = buttons(wire)
    assert [press(wire, shown["Done"]) for _ in range(2)] == [["logged"], ["small"]]
    assert len(wire.data()["entries"]) == 1  # type: ignore[arg-type]


@pytest.mark.parametrize("who", ["kim", "stranger"])
def test_a_press_by_somebody_else_has_no_effect(wire: OnTheWire, who: str) -> None:
    shown = buttons(wire)
    press(wire, shown["Done"], who)
    assert wire.data()["entries"] == []
    assert press(wire, shown["Done"]) == ["logged"]


def test_a_press_of_an_unknown_button_gets_a_kind_word(wire: OnTheWire) -> None:
    wire.feed({"at": AT})
    assert press(wire, "b-4711-1") == ["small"]


def outgoing(**changes: object) -> Outgoing:
    known = {"id": "m-1", "door": "wire", "chat": "ada", "at": at(), "text": "Hi", "about": '{"kind": "small"}'}
    return Outgoing(**(known | changes))  # type: ignore[arg-type]


SHOWN: list[tuple[str, Outgoing, Callable[[Json], object], object]] = [
    ("a text alone", outgoing(), lambda told: sorted(told), ["about", "at", "chat", "id", "text"]),
    ("buttons", outgoing(buttons=(Button("b", "Yes"),)), lambda told: told["buttons"], [{"id": "b", "label": "Yes"}]),
    (
        "a file",
        outgoing(files=(Attachment("x", "a/b", b"\xff"),)),
        lambda told: told["files"],
        [{"name": "x", "type": "a/b", "base64": "/w=="}],
    ),
    ("words as they are", outgoing(text="Größe 👟"), lambda told: told["text"], "Größe 👟"),
    (
        "an instant",
        outgoing(at=datetime(2026, 3, 2, 7, 0, 0, 999, tzinfo=UTC)),
        lambda told: told["at"],
        AT[:11] + "07:00:00+00:00",
    ),
]


@pytest.mark.parametrize(("what", "message", "part", "expected"), SHOWN, ids=[row[0] for row in SHOWN])
def test_a_message_is_one_line(what: str, message: Outgoing, part: Callable[[Json], object], expected: object) -> None:
    told = to_line(message)
    assert "\n" not in told
    assert part(json.loads(told)) == expected, what
