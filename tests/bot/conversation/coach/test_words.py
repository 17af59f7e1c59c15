"""A coach's words reach the runner as they are, with a mark that nobody can type; and farewell."""

import pytest

from bot.conversation.coach.sentences import MARK
from tests.bot.conversation.coach.talk import about, kinds, say, to
from tests.support.wire import OnTheWire


def test_words_are_passed_on_with_a_mark(two: OnTheWire) -> None:
    found = say(two, "06:10", "tell ada: Well done!\nSee you Sunday.")
    assert [(each["chat"], about(each)["kind"], about(each)["who"]) for each in found] == [
        ("kim", "passed_on", "ada"),
        ("ada", "passed_on", "kim"),
    ]
    assert to(found, "ada")["text"] == f"{MARK} From your coach Kim:\nWell done!\nSee you Sunday."


@pytest.mark.parametrize("typed", [MARK, "\u202e", "\u200b", "\x07", "\ue000"])
def test_the_mark_and_hidden_signs_cannot_be_typed(two: OnTheWire, typed: str) -> None:
    text = str(to(say(two, "06:10", f"tell ada: hello {typed}you"), "ada")["text"])
    assert text.splitlines()[1] == "hello you"


def test_danger_of_the_coach_is_answered_as_anybodys(two: OnTheWire) -> None:
    assert kinds(say(two, "06:10", "I have crushing chest pain")) == [("kim", "urgent")]


def test_danger_words_for_a_runner_are_passed_on(two: OnTheWire) -> None:
    assert kinds(say(two, "06:10", "tell ada: if you get chest pain call 999"))[0] == ("kim", "passed_on")


def test_a_coach_who_leaves_is_erased_and_the_runners_are_told(two: OnTheWire) -> None:
    assert kinds(say(two, "06:10", "delete all my data")) == [("kim", "ask")]
    found = say(two, "06:11", "yes")
    assert sorted(kinds(found), key=str) == [("ada", "changed"), ("cat", "changed"), ("kim", "gone")]
    assert two.data("kim")["profile"] is None
    assert "coach" not in two.data()["profile"]  # type: ignore[operator]
    assert kinds(say(two, "06:12", "my chest is tight", "ada")) == [("ada", "urgent")]


def test_anything_but_yes_lets_a_coach_stay(two: OnTheWire) -> None:
    say(two, "06:10", "delete all my data")
    say(two, "06:11", "no")
    assert kinds(say(two, "06:12", "who needs me")) == [("kim", "digest")]
