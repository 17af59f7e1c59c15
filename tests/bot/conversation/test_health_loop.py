"""Soreness, injury, danger and care on the wire: what is told, what stands, what lifts it."""

from pathlib import Path

import pytest

from tests.support.people import ada, kim
from tests.support.scenes import Facts, Line, answer, happens, holds
from tests.support.wire import OnTheWire, abouts

NEXT = "03-04 20"

ANSWERS: list[tuple[str, list[Line], Facts]] = [
    (
        "soreness",
        [(2, "07:40", "both thighs a bit sore 2/10, eased as I went")],
        {"kind": "triage", "flag": "green", "parts": ["thigh"], "do": "carry_on"},
    ),
    (
        "soreness with something done",
        [(2, "07:40", "done, thighs a bit sore 2/10, eased")],
        {"kind": "triage", "also": ["logged"], "flag": "green", "next": NEXT},
    ),
    (
        "a blister",
        [(2, "07:40", "blister on my left heel, 3/10")],
        {"kind": "triage", "flag": "green", "parts": ["heel"]},
    ),
    (
        "pain of four",
        [(3, "12:00", "left knee pain 4/10")],
        {"kind": "triage", "flag": "amber", "parts": ["knee"]},
    ),
    (
        "pain without a number",
        [(3, "12:00", "my knee hurts")],
        {"kind": "triage", "flag": "amber", "parts": ["knee"]},
    ),
    (
        "a twist",
        [(2, "07:40", "twisted my ankle, it's swollen")],
        {"kind": "triage", "flag": "red", "parts": ["ankle"], "do": "see_someone", "session": None},
    ),
    (
        "pain of six",
        [(3, "12:00", "left knee pain 6/10")],
        {"kind": "triage", "flag": "red", "do": "see_someone", "session": None},
    ),
    (
        "the groin",
        [(3, "12:00", "pain in my groin when I walk, 2/10")],
        {"kind": "triage", "flag": "red", "session": None},
    ),
    (
        "no weight on it",
        [(2, "07:40", "twisted my ankle and can't put weight on it")],
        {"kind": "urgent", "codes": ["bone"], "session": None},
    ),
    (
        "chest",
        [(2, "07:10", "tight chest going up the hill")],
        {"kind": "urgent", "codes": ["chest"], "session": None, "next": "left out"},
    ),
    (
        "stuck by the chest",
        [(2, "07:10", "can't go on, chest hurts")],
        {"kind": "urgent", "codes": ["chest"], "left_min": "left out", "segments": "left out"},
    ),
    (
        "danger with something done",
        [(2, "07:30", "did 15 then my chest went tight")],
        {"kind": "urgent", "entries": [{"date": "2026-03-02", "kind": "session", "minutes": 15}], "next": "left out"},
    ),
    (
        "feeling fine lifts nothing",
        [(2, "07:10", "tight chest"), (2, "07:20", "feel fine now"), (2, "07:30", "what's on today")],
        {"kind": "today", "session": None, "next": None},
    ),
    (
        "a clinician lifts it",
        [(2, "07:10", "tight chest"), (3, "12:00", "doctor cleared me")],
        {"kind": "cleared", "codes": ["chest"], "next": NEXT},
    ),
    (
        "nothing to clear",
        [(2, "06:10", "doctor cleared me")],
        {"kind": "cleared", "codes": [], "next": "03-02 20"},
    ),
    (
        "yes I was seen",
        [(2, "07:10", "tight chest"), (3, "12:00", "yes")],
        {"kind": "ask", "asks": "who_when"},
    ),
    (
        "by whom",
        [(2, "07:10", "tight chest"), (3, "12:00", "yes"), (3, "12:01", "my gp this morning")],
        {"kind": "cleared", "codes": ["chest"]},
    ),
    (
        "not seen yet",
        [(2, "07:10", "tight chest"), (3, "12:00", "not yet")],
        {"kind": "ask", "asks": None},
    ),
    (
        "somebody who wants not to live",
        [(2, "07:10", "I don't want to live anymore")],
        {"kind": "care", "codes": ["self_harm"], "session": "left out", "next": "left out"},
    ),
    (
        "making oneself sick",
        [(2, "07:10", "I made myself sick after dinner to lose weight")],
        {"kind": "care", "codes": ["eating"], "next": "left out"},
    ),
    (
        "a low mood",
        [(2, "07:10", "feeling really down today")],
        {"kind": "care", "codes": []},
    ),
    (
        "a part that is well again",
        [(2, "07:40", "twisted my ankle, it's swollen"), (4, "12:00", "ankle is fine now")],
        {"kind": "cleared", "parts": ["ankle"]},
    ),
]


@pytest.mark.parametrize(("what", "lines", "expected"), ANSWERS, ids=[row[0] for row in ANSWERS])
def test_an_answer_says_in_facts(wire: OnTheWire, what: str, lines: list[Line], expected: Facts) -> None:
    told = answer(wire, *lines)
    assert holds(told, expected) == expected, what


RAISED = [
    ("danger", "tight chest going up the hill"),
    ("a red flag", "twisted my ankle, it's swollen"),
    ("despair", "I want to kill myself"),
]


@pytest.mark.parametrize(("what", "said"), RAISED, ids=[row[0] for row in RAISED])
def test_while_it_stands_no_session_is_sent(wire: OnTheWire, what: str, said: str) -> None:
    happens(wire, (2, "07:10", said))
    for place, want in enumerate(
        ("easier", "what's on today", "move it to tomorrow", "remind me in an hour", "sure 3")
    ):
        told = answer(wire, (2, f"08:{place:02d}", want))
        assert not told.get("session"), (what, want)
        assert not told.get("next"), (what, want)
    pushes = [told for told in happens(wire, (3, "23:00", None)) if told["kind"] in ("today", "nudge")]
    assert pushes == []


def test_danger_holds_until_a_clinician_has_cleared_it(wire: OnTheWire) -> None:
    happens(wire, (2, "07:10", "tight chest"))
    told = happens(wire, (22, "23:00", None))
    assert {each["kind"] for each in told} <= {"ask"}
    assert told[0]["asks"] == "seen"
    after = happens(wire, (23, "06:00", "my cardiologist cleared me"), (31, "06:00", None))
    assert {"cleared", "today"} <= {each["kind"] for each in after}


def test_a_red_flag_is_asked_about_each_day_instead_of_a_session(wire: OnTheWire) -> None:
    happens(wire, (2, "07:10", "twisted my ankle, it's swollen"))
    told = happens(wire, (6, "23:00", None))
    assert [(each["kind"], each["asks"], each["parts"]) for each in told] == [("ask", "next_morning", ["ankle"])] * 4


def test_after_despair_a_day_passes_and_a_gentle_question_comes_first(wire: OnTheWire) -> None:
    happens(wire, (2, "07:10", "I want to kill myself"))
    told = happens(wire, (5, "23:00", None))
    assert [each["kind"] for each in told][:2] == ["ask", "today"]


def test_the_evening_of_a_complaint_and_the_morning_after_it_are_asked_about(wire: OnTheWire) -> None:
    happens(wire, (2, "07:40", "done, left knee pain 4/10"))
    told = happens(wire, (3, "23:00", None))
    assert [(each["kind"], each["asks"]) for each in told] == [("ask", "level"), ("ask", "next_morning")]


def test_after_amber_the_next_session_is_eased(wire: OnTheWire) -> None:
    happens(wire, (3, "12:00", "left knee pain 4/10"))
    (push,) = [told for told in happens(wire, (4, "19:00", None)) if told["kind"] == "today"]
    assert push["session"]["minutes"] < 20 or {each["do"] for each in push["session"]["segments"]} == {"cross"}


def test_after_amber_said_with_a_report_the_next_session_is_eased(wire: OnTheWire) -> None:
    happens(wire, (2, "07:40", "done, left knee pain 4/10"))
    (push,) = [told for told in happens(wire, (4, "19:00", None)) if told["kind"] == "today"]
    assert push["session"]["minutes"] < 20 or {each["do"] for each in push["session"]["segments"]} == {"cross"}


COACH: list[tuple[str, Facts, str, Facts | None]] = [
    ("danger", {}, "tight chest", {"kind": "notice", "who": "ada", "codes": ["chest"]}),
    (
        "danger, body not shared",
        {"shares": ["log"]},
        "tight chest",
        {"kind": "notice", "who": "ada", "codes": "left out"},
    ),
    ("a red flag", {}, "twisted my ankle, it's swollen", {"kind": "notice", "who": "ada"}),
    ("a red flag, body not shared", {"shares": ["log"]}, "twisted my ankle, it's swollen", None),
    ("despair", {}, "I want to kill myself", None),
    ("despair, care shared", {"shares": ["log", "care"]}, "I want to kill myself", {"kind": "notice", "who": "ada"}),
    ("soreness", {}, "both thighs a bit sore 2/10, eased", None),
    ("a low mood", {}, "feeling really down today", None),
    ("no coach", {"coach": None}, "tight chest", None),
]


@pytest.mark.parametrize(("what", "profile", "said", "expected"), COACH, ids=[row[0] for row in COACH])
def test_what_the_coach_is_told(tmp_path: Path, what: str, profile: Facts, said: str, expected: Facts | None) -> None:
    person = {name: value for name, value in ada(**profile).items() if value is not None}
    run = OnTheWire.on(tmp_path / "c.sqlite3", person, kim())
    happens(run, (1, "20:00", None), (2, "07:10", said))
    told = [each for each in abouts(run.out, "kim") if each["kind"] != "digest"]
    assert [holds(each, expected or {}) for each in told] == ([expected] if expected else []), what


def test_a_stranger_in_danger_gets_help_and_nothing_is_kept(wire: OnTheWire) -> None:
    wire.feed({"at": "2026-03-02T08:00:00+00:00", "id": "s", "chat": "zoe", "text": "crushing chest pain"})
    (told,) = abouts(wire.out, "zoe")
    assert told["kind"] == "urgent"
    assert not any(value for name, value in wire.data("zoe").items() if name not in ("who", "inbox"))


@pytest.mark.parametrize("said", ["crushing chest pain", "I want to kill myself"])
def test_somebody_who_left_still_gets_help(wire: OnTheWire, said: str) -> None:
    happens(wire, (2, "08:00", "erase everything"), (2, "08:01", "yes"))
    assert answer(wire, (2, "08:02", said))["kind"] in ("urgent", "care")
    assert wire.data()["profile"] is None


def test_help_goes_out_whatever_time_it_is(wire: OnTheWire) -> None:
    assert answer(wire, (3, "03:10", "crushing chest pain"))["kind"] == "urgent"
