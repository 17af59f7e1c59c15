"""The list: those in need first, seven named at most, only what each shares, no word of the body in its first line."""

from pathlib import Path

import pytest

from tests.bot.conversation.coach.talk import about, at, kinds, say, to
from tests.support.people import ada, kim
from tests.support.wire import Json, OnTheWire
from tests.support.wording import BODY


def listed(message: Json) -> list[tuple[object, object]]:
    runners = about(message)["runners"]
    assert isinstance(runners, list)
    return [(each["who"], each["need"]) for each in runners]


def test_those_in_need_come_first(two: OnTheWire) -> None:
    say(two, "06:05", "can I talk to a person", "cat")
    say(two, "06:06", "my chest is tight", "ada")
    (found,) = say(two, "06:10", "who needs me")
    assert about(found)["kind"] == "digest"
    assert listed(found) == [("ada", "danger"), ("cat", "asked")]


def test_hours_of_waiting_are_shown_until_a_word_was_sent(two: OnTheWire) -> None:
    say(two, "06:05", "can I talk to a person", "cat")
    say(two, "09:05", "can I talk to a person", "cat", day=3)
    (found,) = say(two, "12:05", "who needs me", day=3)
    assert (about(found)["runners"][0]["who"], about(found)["runners"][0]["hours"]) == ("cat", 30)  # type: ignore[index]
    assert "30 h" in str(found["text"])
    say(two, "12:06", "tell cat: ring me at six", day=3)
    assert ("cat", "asked") not in listed(say(two, "12:07", "who needs me", day=3)[-1])


@pytest.mark.parametrize(("shares", "need"), [(["log", "body"], "red"), (["log"], "new"), ([], "new")])
def test_only_what_is_shared_is_listed(tmp_path: Path, shares: list[str], need: str) -> None:
    run = OnTheWire.on(tmp_path / "x.sqlite3", ada(shares=shares), kim())
    run.feed({"at": at("06:00")})
    say(run, "06:05", "twisted my ankle with a pop, it's swollen", "ada")
    assert listed(say(run, "06:10", "who needs me")[-1]) == [("ada", need)]


@pytest.mark.parametrize(("shares", "need"), [(["log"], "new"), (["log", "care"], "care")])
def test_despair_is_listed_only_with_consent(tmp_path: Path, shares: list[str], need: str) -> None:
    run = OnTheWire.on(tmp_path / "x.sqlite3", ada(shares=shares), kim())
    run.feed({"at": at("06:00")})
    say(run, "06:05", "I want to kill myself", "ada")
    assert listed(say(run, "06:10", "who needs me")[-1]) == [("ada", need)]


def test_seven_are_named_and_the_rest_is_a_number(tmp_path: Path) -> None:
    many = tuple(ada(who=f"r{number}", called=f"Runner{number}") for number in range(10))
    run = OnTheWire.on(tmp_path / "x.sqlite3", *many, kim())
    run.feed({"at": at("06:00")})
    (found,) = say(run, "06:10", "who needs me")
    assert len(listed(found)) == 10
    assert str(found["text"]).count("Runner") == 7
    assert "3 more" in str(found["text"])


def test_it_comes_each_monday_at_seven_once(two: OnTheWire) -> None:
    found = two.feed({"at": at("23:00", day=17)})
    digests = [(each["at"], each["chat"]) for each in found if about(each)["kind"] == "digest"]
    mondays = [f"2026-03-{day:02}T07:00:00+00:00" for day in (2, 9, 16)]
    assert digests == [(monday, coach) for monday in mondays for coach in ("kim", "lee")]


def test_its_first_line_holds_no_word_of_the_body(two: OnTheWire) -> None:
    say(two, "06:05", "my chest is tight", "ada")
    first = str(to(say(two, "06:10", "who needs me"), "kim")["text"]).splitlines()[0]
    assert BODY.search(first) is None


def test_a_coach_without_runners_gets_none(tmp_path: Path) -> None:
    run = OnTheWire.on(tmp_path / "x.sqlite3", kim())
    run.feed({"at": at("06:00")})
    assert run.feed({"at": at("12:00", day=9)}) == []
    assert kinds(say(run, "12:01", "who needs me", day=9)) == [("kim", "digest")]
