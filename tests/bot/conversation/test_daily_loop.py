"""The daily loop on the wire: each row of what the bot does, in the facts of the answer, never in its prose."""

from pathlib import Path

import pytest

from tests.support.people import ada
from tests.support.scenes import Facts, Line, answer, happens, holds
from tests.support.wire import OnTheWire

DONE = {"date": "2026-03-02", "kind": "session", "share": 1}
MISSED = {"date": "2026-03-02", "missed": True}
TODAY, NEXT = "03-02 20", "03-04 20"

ANSWERS: list[tuple[str, list[Line], Facts]] = [
    (
        "done",
        [(2, "07:40", "done")],
        {"kind": "logged", "entries": [DONE], "session": TODAY, "next": NEXT, "why": [], "asks": "effort"},
    ),
    (
        "done, and how hard",
        [(2, "07:40", "done, effort 3")],
        {"kind": "logged", "entries": [DONE | {"effort": 3}], "next": NEXT, "asks": "left out"},
    ),
    (
        "a part in minutes",
        [(2, "07:40", "did 12 of 20")],
        {"kind": "logged", "entries": [{"date": "2026-03-02", "kind": "session", "minutes": 12}], "next": NEXT},
    ),
    (
        "half of it",
        [(2, "07:40", "did half")],
        {"kind": "logged", "entries": [{"date": "2026-03-02", "kind": "session", "share": 0.5}], "next": NEXT},
    ),
    (
        "an extra outing",
        [(3, "12:00", "walked 30 min")],
        {
            "kind": "logged",
            "entries": [{"date": "2026-03-03", "kind": "walk", "minutes": 30}],
            "session": None,
            "next": NEXT,
        },
    ),
    (
        "stopped is a part",
        [(2, "07:20", "stopped at 12")],
        {"kind": "logged", "entries": [{"date": "2026-03-02", "kind": "session", "minutes": 12}], "also": "left out"},
    ),
    (
        "stuck",
        [(2, "07:20", "stopped at 12, can't go on")],
        {
            "kind": "rescue",
            "also": ["logged"],
            "left_min": 8,
            "entries": [{"date": "2026-03-02", "kind": "session", "minutes": 12}],
        },
    ),
    (
        "less time",
        [(2, "07:10", "only 12 min today")],
        {"kind": "resized", "was_min": 20, "session": "03-02 12", "why": ["shorter_time", "same_ease"]},
    ),
    (
        "under five minutes",
        [(2, "07:10", "only got 4 minutes")],
        {"kind": "resized", "was_min": 20, "session": "03-02 0", "why": ["shorter_time", "stretch_alone"]},
    ),
    (
        "as much time as it takes",
        [(2, "07:10", "only 45 min today")],
        {"kind": "resized", "was_min": 20, "session": "03-02 20"},
    ),
    (
        "less time on a free day",
        [(3, "07:10", "only 12 min today")],
        {"kind": "today", "session": None, "next": NEXT},
    ),
    (
        "missed one",
        [(2, "08:00", "didn't go")],
        {"kind": "logged", "entries": [MISSED], "session": TODAY, "next": NEXT, "also": "left out"},
    ),
    (
        "missed two in a row",
        [(2, "08:00", "didn't go"), (4, "20:00", "missed it again")],
        {"kind": "shrunk", "also": ["logged"], "session": "03-06 10", "why": ["two_misses"], "asks": "why_missed"},
    ),
    (
        "what got in the way",
        [(2, "08:00", "didn't go"), (4, "20:00", "missed it again"), (4, "20:01", "no time, work and the kids")],
        {"kind": "changed", "next": "03-06 10"},
    ),
    (
        "later",
        [(2, "07:10", "remind me in an hour")],
        {"kind": "later", "session": TODAY, "at": "2026-03-02T08:10:00+00:00"},
    ),
    (
        "later at a time",
        [(2, "07:10", "remind me at 6pm")],
        {"kind": "later", "session": TODAY, "at": "2026-03-02T18:00:00+00:00"},
    ),
    (
        "later than bedtime",
        [(2, "07:10", "remind me at 23:00")],
        {"kind": "later", "session": TODAY, "at": None, "asks": "days_move"},
    ),
    (
        "tomorrow instead",
        [(2, "07:10", "remind me at 23:00"), (2, "07:11", "yes")],
        {"kind": "moved", "session": "03-03 20", "dropped": [], "at": "2026-03-03T07:00:00+00:00"},
    ),
    (
        "moved to a free day",
        [(2, "07:10", "move it to thursday at 17:00")],
        {
            "kind": "moved",
            "session": "03-05 20",
            "dropped": [],
            "at": "2026-03-05T17:00:00+00:00",
            "why": ["moved_as_asked"],
        },
    ),
    (
        "moved to a part of the day",
        [(2, "07:10", "move it to tomorrow evening")],
        {"kind": "moved", "session": "03-03 20", "at": "2026-03-03T18:30:00+00:00"},
    ),
    (
        "moved onto another session",
        [(2, "07:10", "move it to wednesday")],
        {"kind": "moved", "session": NEXT, "dropped": [NEXT], "why": ["moved_as_asked", "more_important_stays"]},
    ),
    (
        "moved out of the week",
        [(2, "07:10", "move it to march 10")],
        {"kind": "moved", "session": None, "dropped": [TODAY], "at": None},
    ),
    (
        "days off",
        [(2, "06:00", "on holiday from tomorrow to saturday")],
        {"kind": "break", "until": "2026-03-07"},
    ),
    (
        "ill with fever",
        [(2, "06:00", "in bed with a fever")],
        {"kind": "break", "until": None, "next": None},
    ),
    (
        "the fever is gone",
        [(2, "06:00", "in bed with a fever"), (5, "12:00", "fever is gone")],
        {"kind": "break", "until": "2026-03-07"},
    ),
    (
        "a pause and back again",
        [(2, "06:00", "pause"), (3, "12:00", "i'm back")],
        {"kind": "break", "until": "2026-03-02", "next": NEXT},
    ),
    (
        "back without a break",
        [(3, "12:00", "i'm back")],
        {"kind": "changed", "next": NEXT, "why": []},
    ),
    (
        "what is on",
        [(2, "06:00", "what's on today?")],
        {"kind": "today", "session": TODAY, "asks": None},
    ),
    (
        "what is on, on a free day",
        [(3, "06:00", "what's on today?")],
        {"kind": "today", "session": None, "next": NEXT},
    ),
    (
        "this week",
        [(3, "06:00", "show me the week")],
        {"kind": "week", "sessions": [TODAY, NEXT, "03-06 20", "03-08 20"]},
    ),
    (
        "why",
        [(2, "07:10", "only 12 min today"), (2, "07:11", "why?")],
        {"kind": "why", "why": ["shorter_time", "same_ease"]},
    ),
    (
        "why, of the plan",
        [(2, "07:11", "why?")],
        {"kind": "why", "why": ["as_planned", "growth_limit"]},
    ),
    (
        "easier",
        [(2, "07:11", "easier please")],
        {"kind": "changed", "next": "03-02 15", "why": ["asked_easier"]},
    ),
    (
        "help",
        [(2, "07:11", "help")],
        {"kind": "help"},
    ),
    (
        "a word for the coach",
        [(2, "07:11", "I want to talk to my coach")],
        {"kind": "passed_on"},
    ),
    (
        "undo",
        [(2, "07:40", "did 12 of 20"), (2, "07:41", "undo")],
        {"kind": "undone", "entries": [], "next": TODAY},
    ),
    (
        "undo twice",
        [(2, "07:40", "did 12 of 20"), (2, "07:41", "undo"), (2, "07:42", "undo")],
        {"kind": "undone", "entries": [], "next": TODAY},
    ),
    (
        "undo of less time",
        [(2, "07:10", "only 12 min today"), (2, "07:11", "undo")],
        {"kind": "undone", "entries": [], "next": TODAY},
    ),
    (
        "undo of a move",
        [(2, "06:10", "move it to tomorrow"), (2, "06:11", "undo")],
        {"kind": "undone", "next": TODAY},
    ),
    (
        "undo of days off",
        [(2, "06:10", "pause"), (2, "06:11", "undo")],
        {"kind": "undone", "next": TODAY},
    ),
    (
        "sure enough",
        [(2, "07:10", "sure 8")],
        {"kind": "changed", "next": TODAY, "why": ["as_planned"]},
    ),
    (
        "not sure",
        [(2, "07:10", "sure 5")],
        {"kind": "shrunk", "session": "03-02 15", "why": ["not_sure"], "asks": "sure"},
    ),
    (
        "not sure twice",
        [(2, "07:10", "sure 5"), (2, "07:11", "4")],
        {"kind": "shrunk", "why": ["not_sure"], "asks": "sure"},
    ),
    (
        "not sure three times",
        [(2, "07:10", "sure 5"), (2, "07:11", "4"), (2, "07:12", "3")],
        {"kind": "shrunk", "why": ["smallest_version"], "asks": None},
    ),
    (
        "too hot",
        [(2, "07:10", "33C 60%")],
        {"kind": "resized", "was_min": 20, "session": "03-02 0", "why": ["heat_danger"]},
    ),
    (
        "a weight that nobody asked for",
        [(2, "07:10", "weight 103.2 kg")],
        {"kind": "small", "weight_kg": "left out"},
    ),
    (
        "thanks",
        [(2, "07:10", "thanks!")],
        {"kind": "small"},
    ),
    (
        "a late reply that names the day",
        [(3, "08:00", "did it yesterday")],
        {"kind": "logged", "entries": [DONE], "session": TODAY, "next": NEXT},
    ),
    (
        "a late reply that names no day",
        [(3, "08:00", "done")],
        {"kind": "logged", "entries": [DONE], "session": TODAY, "next": NEXT},
    ),
    (
        "effort afterwards",
        [(2, "07:40", "done"), (2, "07:41", "4")],
        {"kind": "logged", "entries": [DONE | {"effort": 4}], "session": TODAY},
    ),
    (
        "effort the next day",
        [(2, "07:40", "done"), (3, "08:00", "effort was 4")],
        {"kind": "logged", "entries": [DONE | {"effort": 4}], "session": TODAY},
    ),
    (
        "an amount that is hard to believe",
        [(2, "07:40", "did 900 min")],
        {"kind": "ask", "asks": "done"},
    ),
]


@pytest.mark.parametrize(("what", "lines", "expected"), ANSWERS, ids=[row[0] for row in ANSWERS])
def test_an_answer_says_in_facts(wire: OnTheWire, what: str, lines: list[Line], expected: Facts) -> None:
    told = answer(wire, *lines)
    assert holds(told, expected) == expected, what
    assert told["kind"] == "why" or "facts" in told, "every answer to a message carries its reading"


SECOND: list[tuple[str, str, list[Facts]]] = [
    ("done", "did 15", [{"minutes": 15}]),
    ("did 15", "done", [{"minutes": 15}]),
    ("did 15", "walked 20 min", [{"minutes": 15}, {"minutes": 20}]),
    ("done", "done", [{"share": 1}]),
    ("didn't go", "did 15 after all", [{"minutes": 15}]),
    ("did half", "did 12 in the end", [{"minutes": 12}]),
]


@pytest.mark.parametrize(("first", "second", "expected"), SECOND, ids=[f"{row[0]}, then {row[1]}" for row in SECOND])
def test_a_second_report_of_a_session(wire: OnTheWire, first: str, second: str, expected: list[Facts]) -> None:
    happens(wire, (2, "07:40", first), (2, "08:30", second))
    entries = wire.data()["entries"]
    assert [holds(each, wanted) for each, wanted in zip(entries, expected, strict=True)] == expected  # type: ignore[arg-type]


def test_two_things_of_one_message_are_two_entries(wire: OnTheWire) -> None:
    told = answer(wire, (2, "08:00", "walked 20 min and stretched 5 min"))
    assert [(each["kind"], each["minutes"]) for each in told["entries"]] == [("walk", 20), ("stretch", 5)]


def test_a_second_report_with_an_extra_in_it_keeps_both(wire: OnTheWire) -> None:
    told = answer(wire, (2, "07:40", "done"), (2, "08:00", "stretched 5 min and walked 15 min"))
    assert told["kind"] == "logged"
    assert sorted(each["minutes"] for each in wire.data()["entries"]) == [5, 15]  # type: ignore[attr-defined]


def test_the_third_miss_in_a_row_reaches_the_coach(wire: OnTheWire) -> None:
    lines: list[Line] = [(2, "08:00", "didn't go"), (4, "20:00", "missed it"), (6, "08:00", "didn't go")]
    happens(wire, *lines)
    told = [each["about"] for each in wire.out if each.get("chat") == "kim"]
    notices = [each["who"] for each in told if each["kind"] == "notice"]  # type: ignore[index]
    assert notices == ["ada"]


def test_a_copy_of_the_data_comes_as_a_file(wire: OnTheWire) -> None:
    happens(wire, (2, "07:40", "did 12"))
    wire.feed({"at": "2026-03-02T08:00:00+00:00", "id": "d", "chat": "ada", "text": "give me my data"})
    told = [each for each in wire.out if "files" in each][-1]
    assert told["about"]["kind"] == "data"  # type: ignore[index]
    assert {each["name"].rpartition(".")[2] for each in told["files"]} >= {"json"}  # type: ignore[attr-defined]


def test_leaving_asks_once_and_then_erases(wire: OnTheWire) -> None:
    assert holds(answer(wire, (2, "08:00", "erase everything")), {"kind": "", "asks": ""}) == {
        "kind": "ask",
        "asks": "confirm",
    }
    assert answer(wire, (2, "08:01", "yes"))["kind"] == "gone"
    assert wire.data()["profile"] is None
    assert happens(wire, (20, "12:00", None)) == []


def test_leaving_can_be_thought_over(wire: OnTheWire) -> None:
    assert answer(wire, (2, "08:00", "erase everything"), (2, "08:01", "no"))["kind"] == "changed"
    assert wire.data()["profile"] is not None


def test_a_yes_to_nothing_erases_nothing(wire: OnTheWire) -> None:
    happens(wire, (2, "08:00", "erase everything"), (2, "08:01", "no"), (2, "08:02", "yes"))
    assert wire.data()["profile"] is not None


def test_what_is_not_understood_is_said_with_a_few_buttons(wire: OnTheWire) -> None:
    told = wire.feed(
        {"at": "2026-03-02T06:00:00+00:00", "id": "x", "chat": "ada", "text": "my elbow composed a sonnet"}
    )[-1]
    assert told["about"]["kind"] == "not_read"  # type: ignore[index]
    assert 2 <= len(told["buttons"]) <= 3  # type: ignore[arg-type]


def test_a_weight_is_kept_for_those_who_asked_for_it(tmp_path: Path) -> None:
    run = OnTheWire.on(tmp_path / "w.sqlite3", ada(weight_talk=True))
    told = answer(run, (1, "20:00", None), (2, "07:10", "weight 103.2 kg"))
    assert holds(told, {"kind": "", "weight_kg": 0, "entries": []}) == {
        "kind": "logged",
        "weight_kg": 103.2,
        "entries": [],
    }
