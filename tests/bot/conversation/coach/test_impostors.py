"""Only the runner's own coach may do any of it: nobody else has an effect, nor learns anything."""

from pathlib import Path

import pytest

from tests.bot.conversation.coach.talk import at
from tests.support.people import ada, kim
from tests.support.wire import Json, OnTheWire, dump

SENTENCES = (
    "ada: make wednesday 10 min walk",
    "ada: hold this week",
    "ada: cleared by her gp today",
    "ada: cleared",
    "ada: drop wednesday",
    "ada: move wednesday to thursday",
    "make ada's wednesday easier",
    "tell ada: canary",
    "who needs me",
    "seen ada",
    "my deputy is lee",
    "invite",
)
IMPOSTORS = ("cat", "zoe", "lee", "old", "ada")
"""Another runner of the same coach, a stranger, another coach, the coach that Ada had before, Ada herself."""

TALK = {"inbox", "outbox", "button", "clock", "due", "address"}
"""Tables of what was said and when; what somebody says themselves stands there."""


@pytest.fixture(scope="module")
def records(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Ada in danger, with a message that her coach has not seen."""
    path = tmp_path_factory.mktemp("impostors") / "a.sqlite3"
    coaches = (kim() | {"who": who, "called": who.title()} for who in ("kim", "lee", "old"))
    run = OnTheWire.on(path, ada(), ada(who="cat", called="Cat"), *coaches)
    run.feed({"at": at("06:00")}, {"at": at("06:05"), "id": "d", "chat": "ada", "text": "my chest is tight"})
    run.store.close()
    return path


def about_ada(run: OnTheWire) -> Json:
    """All that is kept of Ada, the course of the talk aside."""
    rows = {name: found for name, found in dump(run.store).items() if name not in TALK}
    kept = {name: [row for row in found if "ada" in map(str, row)] for name, found in rows.items()}
    kept["person"] = [tuple(each for each in row if "heard_at" not in str(each)) for row in kept["person"]]
    return {"rows": kept, "plan": run.data()["plan"], "profile": run.data()["profile"]}


@pytest.mark.parametrize("who", IMPOSTORS)
@pytest.mark.parametrize("chat", ["private", "tuesday-group"])
def test_nobody_else_acts_as_the_coach(records: Path, tmp_path: Path, who: str, chat: str) -> None:
    path = tmp_path / "b.sqlite3"
    path.write_bytes(records.read_bytes())
    run = OnTheWire.on(path)
    before = about_ada(run)
    for number, text in enumerate(SENTENCES):
        place: Json = {"chat": who} if chat == "private" else {"chat": chat, "from": who}
        for each in run.feed({"at": at("06:10"), "id": f"i-{number}", "text": text} | place):
            assert each["chat"] != "ada" or who == "ada", text
            assert each["chat"] != "kim", text
            assert "canary" not in str(each["text"]), text
    assert about_ada(run) == before


@pytest.mark.parametrize("who", ["lee", "old"])
def test_a_refusal_tells_nothing(records: Path, tmp_path: Path, who: str) -> None:
    path = tmp_path / "b.sqlite3"
    path.write_bytes(records.read_bytes())
    run = OnTheWire.on(path)
    for number, text in enumerate(SENTENCES[:8]):
        known = run.feed({"at": at("06:10"), "id": f"k-{number}", "chat": who, "text": text})
        nobody = run.feed({"at": at("06:10"), "id": f"n-{number}", "chat": who, "text": text.replace("ada", "eve")})
        assert [each["text"] for each in known] == [each["text"] for each in nobody]
    (found,) = run.feed({"at": at("06:10"), "id": "w", "chat": who, "text": "who needs me"})
    assert found["about"]["runners"] == []  # type: ignore[index]
