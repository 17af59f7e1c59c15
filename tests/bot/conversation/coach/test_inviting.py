"""Codes on the wire: each opens once, for two weeks; guessing is slowed down, and a refusal tells nothing."""

from pathlib import Path

import pytest

from bot.store.unit import Store
from tests.bot.conversation.coach.talk import about, at, kinds, say
from tests.support.people import kim
from tests.support.shell import bot
from tests.support.wire import Json, OnTheWire, dump, url_of

WRONG = "AAAA-AAAA-AAA{}"


def code(run: OnTheWire, clock: str = "06:10", day: int = 2) -> str:
    """A fresh code for a runner of Kim's."""
    found = [each for each in say(run, clock, "invite", day=day) if about(each)["kind"] == "help"]
    return str(found[0]["text"]).splitlines()[1]


def refused(messages: list[Json]) -> str:
    (found,) = messages
    assert about(found) == {"kind": "stranger"}
    return str(found["text"])


def test_a_stranger_with_a_code_becomes_the_coachs_runner(two: OnTheWire) -> None:
    first = say(two, "06:11", f"hi, {code(two)}", "zoe")
    assert (about(first[0])["kind"], about(first[0])["asks"]) == ("ask", "called")
    assert "Kim invited you" in str(first[0]["text"])
    answers = ("Zoe", "London", "tue thu sat at 7", "20 minutes", "none yet", "nothing yet", "no race yet", "yes")
    for answer in (*answers, "yes", "no", "no", "no", "no", "40", "skip"):
        last = say(two, "06:12", answer, "zoe")
    assert about(last[0])["kind"] == "changed"
    profile = two.data("zoe")["profile"]
    assert isinstance(profile, dict)
    assert (profile["called"], profile["coach"], profile["role"]) == ("Zoe", "kim", "runner")
    (listed,) = say(two, "06:13", "who needs me")
    assert "zoe" in [each["who"] for each in about(listed)["runners"]]  # type: ignore[attr-defined]


def test_a_code_in_the_middle_of_the_survey_loses_nothing(two: OnTheWire) -> None:
    say(two, "06:10", "hello", "zoe")
    say(two, "06:10", "Zoe", "zoe")
    (found,) = say(two, "06:12", code(two, "06:11"), "zoe")
    assert about(found)["asks"] == "tz"


def test_used_old_and_wrong_codes_are_refused_alike(two: OnTheWire) -> None:
    used, old = code(two), code(two)
    say(two, "06:11", used, "zoe")
    texts = {refused(say(two, "06:12", each, "yan")) for each in (used, WRONG.format("B"))}
    two.feed({"at": at("06:10", day=16)})
    texts |= {refused(say(two, "06:11", old, "yan", day=16))}
    assert len(texts) == 1


def test_a_code_is_good_for_two_weeks(two: OnTheWire) -> None:
    fresh = code(two)
    two.feed({"at": at("06:00", day=16)})
    assert kinds(say(two, "06:05", fresh, "yan", day=16)) == [("yan", "ask")]


def test_after_five_wrong_ones_an_hour_a_right_one_waits(two: OnTheWire) -> None:
    right = code(two)
    for letter in "BCDEF":
        refused(say(two, "06:20", WRONG.format(letter), "yan"))
    refused(say(two, "06:21", right, "yan"))
    assert kinds(say(two, "06:22", right, "zoe")) == [("zoe", "ask")]
    again = code(two, "06:23")
    assert ("yan", "ask") in kinds(say(two, "07:30", again, "yan"))


def test_guesses_of_many_senders_slow_the_whole_door(two: OnTheWire) -> None:
    right = code(two)
    for number in range(50):
        refused(say(two, "06:20", WRONG.format("B"), f"guess-{number}"))
    refused(say(two, "06:21", right, "zoe"))


def test_no_row_holds_a_code_or_a_strangers_name(two: OnTheWire) -> None:
    fresh = code(two)
    say(two, "06:12", WRONG.format("B"), "stranger-x")
    rows = str(dump(two.store))
    assert fresh not in rows
    assert fresh.replace("-", "") not in rows
    assert "stranger-x" not in rows


def test_a_code_in_a_group_opens_nothing(two: OnTheWire) -> None:
    fresh = code(two)
    two.feed({"at": at("06:11"), "id": "g", "chat": "group", "from": "zoe", "text": fresh})
    assert kinds(say(two, "06:12", fresh, "yan")) == [("yan", "ask")]


@pytest.mark.parametrize("who", ["ada", "lee", "zoe"])
def test_only_a_coach_gets_a_code_for_the_own_runners(two: OnTheWire, who: str) -> None:
    found = say(two, "06:10", "invite", who)
    assert ("code" in str(found[0]["text"])) is (who == "lee")


def test_the_first_coach_is_led_through_two_questions(tmp_path: Path) -> None:
    url = url_of(tmp_path / "new.sqlite3")
    printed = bot("invite", "--db", url, "coach")
    assert printed.returncode == 0
    run = OnTheWire(Store.open(url))
    run.feed({"at": at("06:00")})
    asked = [about(say(run, "06:01", each, "kim")[0]).get("asks") for each in (printed.stdout, "Kim")]
    assert asked == ["called", "tz"]
    (found,) = say(run, "06:02", "London", "kim")
    assert about(found)["kind"] == "changed"
    assert run.data("kim")["profile"] == kim()
    assert kinds(say(run, "06:03", "who needs me")) == [("kim", "digest")]


def test_two_runs_of_the_same_lines_give_the_same_bytes(tmp_path: Path) -> None:
    outputs = []
    for name in ("one", "two"):
        url = url_of(tmp_path / f"{name}.sqlite3")
        (tmp_path / "kim.json").write_text('{"who": "kim", "role": "coach", "called": "Kim", "tz": "Europe/London"}')
        bot("enrol", "--db", url, str(tmp_path / "kim.json"))
        line = '{"at": "2026-03-02T06:00:00+00:00", "id": "i%s", "chat": "kim", "text": "invite"}\n'
        outputs.append(bot("wire", "--db", url, said=line % 1 + line % 2).stdout)
    assert outputs[0] == outputs[1]
    codes = [line for line in outputs[0].split("\\n") if line.count("-") == 2 and len(line) == 14]
    assert len(set(codes)) == 2
