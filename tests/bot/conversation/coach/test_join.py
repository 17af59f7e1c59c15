"""An enrolled runner sends a coach's code: asked first, then that coach's runner."""

from datetime import datetime
from pathlib import Path

from bot.conversation import speaks_of_danger
from bot.conversation.coach.codes import mark_of
from bot.store import invites
from planning.terms.choices import Role
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire, abouts

Json = dict[str, object]
NOON = "2026-03-02T12:00:00+00:00"


def with_code(tmp_path: Path, **changes: object) -> tuple[OnTheWire, str]:
    """Ada and two coaches, and a code of Lee's."""
    lee = kim() | {"who": "lee", "called": "Lee"}
    run = OnTheWire.on(tmp_path / "run.sqlite3", ada(**changes), kim(), lee)
    run.feed({"at": NOON})
    (said,) = run.feed({"at": NOON, "id": "i", "chat": "lee", "text": "invite"})
    return run, str(said["text"]).splitlines()[1]


def coach_of(run: OnTheWire) -> object:
    profile = run.data()["profile"]
    assert isinstance(profile, dict)
    return profile.get("coach")


def test_a_code_asks_for_consent_and_a_yes_gives_it(tmp_path: Path) -> None:
    run, code = with_code(tmp_path, coach=None)
    assert run.says(NOON, code)["asks"] == "consent"
    assert coach_of(run) is None
    run.feed({"at": NOON, "id": "y", "chat": "ada", "text": "yes"})
    assert coach_of(run) == "lee"
    assert [each["kind"] for each in abouts(run.out, "lee")][-1] == "passed_on"


def test_a_no_leaves_all_as_it_was_and_the_code_is_still_good(tmp_path: Path) -> None:
    run, code = with_code(tmp_path)
    run.says(NOON, code)
    assert run.says(NOON, "no")["kind"] == "changed"
    assert coach_of(run) == "kim"
    assert run.says(NOON, code)["asks"] == "consent"


def test_a_used_code_opens_nothing_more(tmp_path: Path) -> None:
    run, code = with_code(tmp_path, coach=None)
    run.says(NOON, code)
    run.says(NOON, "yes")
    assert run.says(NOON, code).get("asks") != "consent"


def test_danger_beside_a_code_is_danger(tmp_path: Path) -> None:
    run, code = with_code(tmp_path, coach=None)
    assert run.says(NOON, f"{code} chest pain")["kind"] == "urgent"


def test_the_code_of_the_own_coach_changes_nothing(tmp_path: Path) -> None:
    run, code = with_code(tmp_path, coach="lee")
    assert run.says(NOON, code)["kind"] == "small"
    assert coach_of(run) == "lee"


def test_a_runners_code_is_nothing_for_a_coach(tmp_path: Path) -> None:
    run, code = with_code(tmp_path)
    assert run.says(NOON, code, "kim")["kind"] == "not_read"


def test_a_code_whose_letters_read_like_a_sign_is_a_code(tmp_path: Path) -> None:
    low_sugar = "JV58-NQ75-40BS"
    assert speaks_of_danger(low_sugar, datetime.fromisoformat(NOON))
    run, _ = with_code(tmp_path, coach=None)
    with run.store.begin() as tx:
        invites.make(tx, mark_of(low_sugar), "lee", Role.RUNNER, None)
    assert run.says(NOON, low_sugar)["asks"] == "consent"


def test_danger_beside_the_code_of_a_stranger_is_danger(tmp_path: Path) -> None:
    run, code = with_code(tmp_path, coach=None)
    assert run.says(NOON, f"{code} chest pain", chat="zoe")["kind"] == "urgent"
