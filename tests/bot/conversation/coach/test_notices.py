"""Grave messages ask for "seen"; unseen for half an hour they go to the deputy, or once more to the coach."""

import pytest

from tests.bot.conversation.coach.talk import about, at, kinds, say, to
from tests.support.wire import Json, OnTheWire

DANGER = "my chest is tight and I feel dizzy"


def notices(messages: list[Json]) -> list[object]:
    return [chat for chat, kind in kinds(messages) if kind == "notice"]


def tick(run: OnTheWire, clock: str, day: int = 2) -> list[Json]:
    return run.feed({"at": at(clock, day)})


def test_danger_asks_for_seen_and_the_runner_is_told_not_to_wait(two: OnTheWire) -> None:
    found = say(two, "06:10", DANGER, "ada")
    notice = to(found, "kim")
    assert about(notice) == {"kind": "notice", "codes": ["chest", "faint"], "who": "ada"}
    assert [each["label"] for each in notice["buttons"]] == ["Seen"]  # type: ignore[attr-defined]
    assert "may not see it" in str(to(found, "ada")["text"])


@pytest.mark.parametrize("how", ["word", "name", "button", "tell", "cleared"])
def test_what_was_seen_goes_nowhere_else(two: OnTheWire, how: str) -> None:
    notice = to(say(two, "06:10", DANGER, "ada"), "kim")
    words = {
        "word": "seen",
        "name": "seen ada",
        "tell": "tell ada: I am calling you",
        "cleared": "ada: cleared by her gp",
    }
    if how == "button":
        two.feed({"at": at("06:20"), "id": "p", "chat": "kim", "press": notice["buttons"][0]["id"]})  # type: ignore[index]
    else:
        say(two, "06:20", words[how])
    assert notices(tick(two, "08:00")) == []
    assert two.data()["notice"][0]["seen_by"] == "kim"  # type: ignore[index]


def test_unseen_it_goes_to_the_deputy_after_half_an_hour(two: OnTheWire) -> None:
    say(two, "06:05", "deputy lee")
    say(two, "06:10", DANGER, "ada")
    assert notices(tick(two, "06:39")) == []
    (passed,) = tick(two, "06:40")
    assert (passed["chat"], about(passed)) == ("lee", {"kind": "notice", "who": "ada"})
    assert notices(tick(two, "12:00")) == []


def test_a_deputy_can_see_it_and_reach_nothing_else(two: OnTheWire) -> None:
    say(two, "06:05", "deputy lee")
    say(two, "06:10", DANGER, "ada")
    (passed,) = tick(two, "06:40")
    two.feed({"at": at("06:41"), "id": "p", "chat": "lee", "press": passed["buttons"][0]["id"]})  # type: ignore[index]
    assert two.data()["notice"][0]["seen_by"] == "lee"  # type: ignore[index]
    assert kinds(say(two, "06:42", "ada: cleared by her gp", "lee")) == [("lee", "not_read")]


def test_without_a_deputy_it_goes_out_once_more(two: OnTheWire) -> None:
    say(two, "06:10", DANGER, "ada")
    (again,) = tick(two, "06:40")
    assert (again["chat"], about(again)["codes"]) == ("kim", ["chest", "faint"])
    assert notices(tick(two, "12:00")) == []


def test_night_and_bedtime_hold_nothing_back(two: OnTheWire) -> None:
    assert notices(say(two, "23:50", DANGER, "ada")) == ["kim"]
    assert notices(tick(two, "00:20", day=3)) == ["kim"]


def test_while_the_coach_is_away_the_deputy_gets_it_at_once(two: OnTheWire) -> None:
    say(two, "06:05", "away until friday, deputy lee")
    assert notices(say(two, "06:10", DANGER, "ada")) == ["kim"]
    assert notices(tick(two, "06:11")) == ["lee"]


def test_back_ends_it(two: OnTheWire) -> None:
    say(two, "06:05", "away until friday, deputy lee")
    say(two, "06:06", "back")
    say(two, "06:10", DANGER, "ada")
    assert notices(tick(two, "06:39")) == []
    assert notices(tick(two, "06:40")) == ["lee"]


def test_a_deputy_has_to_be_another_coach(two: OnTheWire) -> None:
    assert kinds(say(two, "06:05", "deputy bob")) == [("kim", "not_read")]
    assert kinds(say(two, "06:06", "deputy kim")) == [("kim", "not_read")]


def test_two_runners_in_danger_are_two_messages(two: OnTheWire) -> None:
    say(two, "06:10", DANGER, "ada")
    say(two, "06:11", DANGER, "cat")
    say(two, "06:12", "seen cat")
    assert [about(each).get("who") for each in tick(two, "06:59") if about(each)["kind"] == "notice"] == ["ada"]


def test_danger_and_care_in_one_message_are_kept_once(two: OnTheWire) -> None:
    say(two, "06:10", "chest pain and I want to kill myself", "ada")
    assert len(two.data()["notice"]) == 1  # type: ignore[arg-type]
