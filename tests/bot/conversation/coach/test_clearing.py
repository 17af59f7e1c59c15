"""A clinician's word through the coach lifts what stands, on record with who and when; their own lifts nothing."""

import pytest

from tests.bot.conversation.coach.talk import about, kinds, say, to
from tests.support.wire import OnTheWire


@pytest.fixture
def held(two: OnTheWire) -> OnTheWire:
    """Ada has told of danger."""
    say(two, "06:05", "my chest is tight", "ada")
    return two


def test_a_clinician_named_by_the_coach_lifts_danger(held: OnTheWire) -> None:
    found = say(held, "06:10", "ada: cleared by her gp today")
    assert kinds(found) == [("kim", "cleared"), ("ada", "cleared")]
    assert about(found[1])["codes"] == ["chest"]
    assert about(found[1])["next"] is not None
    (hold,) = held.data()["hold"]  # type: ignore[misc]
    assert (hold["lifted_on"], hold["lifted_by"]) == ("2026-03-02", "cleared by her gp today")
    (record,) = held.data()["clearance"]  # type: ignore[misc]
    assert (record["on"], record["by"], record["told_by"]) == ("2026-03-02", "cleared by her gp today", "kim")


@pytest.mark.parametrize("said", ["cleared", "cleared by me", "I cleared her today", "all clear"])
def test_the_own_word_of_a_coach_is_asked_back(held: OnTheWire, said: str) -> None:
    found = say(held, "06:10", f"ada: {said}")
    assert kinds(found) == [("kim", "ask")]
    assert (about(found[0])["asks"], about(found[0])["who"]) == ("who_when", "ada")
    assert held.data()["hold"][0]["lifted_on"] is None  # type: ignore[index]


@pytest.mark.parametrize("said", ["her gp, today", "the doctor", "Dr Patel yesterday"])
def test_the_answer_to_who_and_when_lifts_it(held: OnTheWire, said: str) -> None:
    say(held, "06:10", "ada: cleared")
    assert kinds(say(held, "06:11", said)) == [("kim", "cleared"), ("ada", "cleared")]


@pytest.mark.parametrize("said", ["me", "no", "not yet", "her gp will see her tomorrow", "I did"])
def test_any_other_answer_lifts_nothing(held: OnTheWire, said: str) -> None:
    say(held, "06:10", "ada: cleared")
    assert {chat for chat, _ in kinds(say(held, "06:11", said))} == {"kim"}
    assert held.data()["hold"][0]["lifted_on"] is None  # type: ignore[index]


def test_a_red_flag_is_lifted(two: OnTheWire) -> None:
    say(two, "06:05", "twisted my ankle with a pop, it's swollen", "ada")
    found = say(two, "06:10", "ada: the physio cleared her today")
    assert about(to(found, "ada"))["parts"] == ["ankle"]
    assert about(to(found, "kim"))["parts"] == ["ankle"]


def test_nothing_on_hold_is_said_so(two: OnTheWire) -> None:
    assert kinds(say(two, "06:10", "ada: cleared by her gp")) == [("kim", "cleared")]


def test_a_coach_raises_no_flag(two: OnTheWire) -> None:
    say(two, "06:10", "ada: twisted her ankle, it's swollen")
    assert two.data()["flags"] == two.data()["hold"] == []
