"""The command line: help with examples, one line for each fault, exit status 2, never a traceback."""

import json
from pathlib import Path

import pytest

from bot.cli import main
from tests.support.people import Json, ada, kim
from tests.support.wire import OnTheWire, url_of

COMMANDS = ("chat", "serve", "enrol", "wire", "read", "plan", "data", "backup", "restore", "check", "simulate")


def run(capsys: pytest.CaptureFixture[str], *arguments: str) -> tuple[int, list[str], list[str]]:
    """Exit status, lines out, lines of errors of one command in this process."""
    try:
        status = main(arguments)
    except SystemExit as ended:
        status = int(ended.code or 0)
    out, err = capsys.readouterr()
    return status, out.splitlines(), err.splitlines()


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_examples(capsys: pytest.CaptureFixture[str], command: str) -> None:
    status, out, _ = run(capsys, command, "--help")
    told = "\n".join(out)
    assert status == 0
    assert "examples:" in told
    assert f"python -m bot {command}" in told


def test_the_help_names_every_command(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "--help")
    assert [each for each in COMMANDS if f"    {each} " not in "\n".join(out)] == []


@pytest.mark.parametrize("arguments", [(), ("nosuch",), ("data",), ("enrol", "--db", "x"), ("plan",), ("wire", "--no")])
def test_a_command_that_is_not_whole_is_refused(capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...]) -> None:
    status, out, err = run(capsys, *arguments)
    assert (status, out) == (2, [])
    assert err


def written(folder: Path, value: object, name: str = "people.json") -> str:
    path = folder / name
    path.write_text(value if isinstance(value, str) else json.dumps(value), encoding="utf-8")
    return str(path)


FAULTS: list[tuple[str, object, list[str]]] = [
    ("no JSON", "{", ["is no JSON"]),
    ("an empty file", "", ["is no JSON"]),
    ("a number", 5, ["no profile"]),
    ("an empty list", [], ["no profile"]),
    ("no zone", ada(tz="Nowhere/Land"), ["tz"]),
    ("three wrong fields", ada(tz="Nowhere/Land", age=7, height_cm=-3), ["tz", "age", "height_cm"]),
    ("wrong fields in a list", [ada(), ada(who="bea", age=7), ada(who="cem", begin="soon")], ["[1].age", "[2].begin"]),
    ("somebody twice", [ada(), ada()], ["[1].who"]),
    ("an unknown field", ada(mood="fine"), ["mood"]),
    ("a coach with a zone that is none", [kim() | {"tz": "?"}], ["[0].tz"]),
]


@pytest.mark.parametrize("command", ["enrol", "plan"])
@pytest.mark.parametrize(("what", "people", "told"), FAULTS, ids=[row[0] for row in FAULTS])
def test_each_wrong_field_is_one_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, command: str, what: str, people: object, told: list[str]
) -> None:
    if command == "plan" and what in ("an empty list", "somebody twice", "a coach with a zone that is none"):
        pytest.skip("a plan is for runners, one by one")
    file = written(tmp_path, people)
    ways = {"enrol": ("enrol", "--db", url_of(tmp_path / "a.sqlite3"), file), "plan": ("plan", "--profile", file)}
    status, out, err = run(capsys, *ways[command])
    assert (status, out) == (2, [])
    assert len(err) == len(told), err
    assert [fragment for fragment, line in zip(told, err, strict=True) if fragment not in line] == []


def test_a_file_that_is_not_there_is_one_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    missing = str(tmp_path / "missing.json")
    for arguments in (("enrol", "--db", url_of(tmp_path / "a.sqlite3"), missing), ("plan", "--profile", missing)):
        status, out, err = run(capsys, *arguments)
        assert (status, out, len(err)) == (2, [], 1)
        assert "missing.json" in err[0]


def test_bytes_that_are_no_text_are_one_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "bytes.json"
    path.write_bytes(b"\xff\xfe\x00{")
    for arguments in (("enrol", "--db", url_of(tmp_path / "a.sqlite3"), str(path)), ("plan", "--profile", str(path))):
        status, _, err = run(capsys, *arguments)
        assert (status, len(err)) == (2, 1)


BAD_PLACES = ["nosuch://x", "lamppost.sqlite3", "", "sqlite:////no/such/folder/x.sqlite3"]


@pytest.mark.parametrize("place", BAD_PLACES)
@pytest.mark.parametrize("command", ["chat", "wire", "data", "enrol"])
def test_a_bad_place_is_one_line(capsys: pytest.CaptureFixture[str], tmp_path: Path, command: str, place: str) -> None:
    more = {"data": ["ada"], "enrol": [written(tmp_path, ada())]}.get(command, [])
    if command == "chat" and place == "":
        pytest.skip("without a place the chat takes the user's own folder")
    status, out, err = run(capsys, command, "--db", place, *more)
    assert (status, out, len(err)) == (2, [], 1)
    assert "--db" in err[0]


@pytest.mark.parametrize("at", ["yesterday", "2026-03-03", "2026-03-03T07:00:00", "", "9999-12-31T23:59:59-12:00"])
def test_a_bad_instant_is_one_line(capsys: pytest.CaptureFixture[str], blank_url: str, at: str) -> None:
    status, out, err = run(capsys, "chat", "--db", blank_url, "--at", at)
    assert (status, out, len(err)) == (2, [], 1)
    assert "--at" in err[0]


def test_an_instant_before_the_clock_is_one_line(capsys: pytest.CaptureFixture[str], blank_url: str) -> None:
    OnTheWire.on(Path(blank_url.removeprefix("sqlite:///"))).feed({"at": "2026-03-02T07:00:00+00:00"})
    status, out, err = run(capsys, "chat", "--db", blank_url, "--at", "2026-03-02T06:59:59+00:00")
    assert (status, out, len(err)) == (2, [], 1)
    assert "2026-03-02T07:00:00" in err[0]


def test_enrolling_is_all_or_nothing(capsys: pytest.CaptureFixture[str], tmp_path: Path, blank_url: str) -> None:
    assert run(capsys, "enrol", "--db", blank_url, written(tmp_path, [ada(), ada(who="bea", age=7)]))[0] == 2
    assert run(capsys, "data", "--db", blank_url, "ada")[0] == 2


def test_enrolling_tells_who(capsys: pytest.CaptureFixture[str], tmp_path: Path, blank_url: str) -> None:
    status, out, err = run(capsys, "enrol", "--db", blank_url, written(tmp_path, [ada(), kim()]))
    assert (status, out, err) == (0, ["enrolled: ada, kim"], [])


def test_enrolling_twice_changes_the_profile_and_keeps_the_log(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, wire: OnTheWire
) -> None:
    wire.feed({"at": "2026-03-02T08:00:00+00:00", "id": "u-1", "chat": "ada", "text": "done"})
    url = str(wire.store.engine.url)
    assert run(capsys, "enrol", "--db", url, written(tmp_path, ada(called="Adele")))[0] == 0
    data = printed(capsys, url, "ada")
    assert data["profile"]["called"] == "Adele"  # type: ignore[index]
    assert len(data["entries"]) == 1  # type: ignore[arg-type]
    again = wire.feed({"at": "2026-03-02T20:00:00+00:00"})
    assert again == [], "the day that was done is not sent again"


def printed(capsys: pytest.CaptureFixture[str], url: str, who: str) -> Json:
    status, out, err = run(capsys, "data", "--db", url, who)
    assert (status, err) == (0, [])
    found = json.loads("\n".join(out))
    assert isinstance(found, dict)
    return found


def test_data_is_one_object_with_all_that_is_kept(capsys: pytest.CaptureFixture[str], wire: OnTheWire) -> None:
    wire.feed({"at": "2026-03-02T08:00:00+00:00", "id": "u-1", "chat": "ada", "text": "did 15, left knee pain 4/10"})
    data = printed(capsys, str(wire.store.engine.url), "ada")
    assert data["profile"].items() >= {name: value for name, value in ada().items() if name != "race"}.items()  # type: ignore[attr-defined]
    assert [(each["date"], each["minutes"], each["from_id"]) for each in data["entries"]] == [("2026-03-02", 15, "u-1")]  # type: ignore[attr-defined]
    assert [(each["part"], each["colour"]) for each in data["flags"]] == [("knee", "amber")]  # type: ignore[attr-defined]
    assert data["plan"]["weeks"][0]["sessions"][0]["date"] == "2026-03-02"  # type: ignore[index]


def test_data_of_somebody_unknown_is_one_line(capsys: pytest.CaptureFixture[str], blank_url: str) -> None:
    status, out, err = run(capsys, "data", "--db", blank_url, "zoe")
    assert (status, out, err) == (2, [], ['"zoe" is not known here'])


def test_data_makes_no_records_where_there_are_none(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    path = tmp_path / "none.sqlite3"
    assert run(capsys, "data", "--db", url_of(path), "ada")[0] == 2
    assert not path.exists()


def test_plans_of_a_list_are_one_line_each(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    status, out, err = run(capsys, "plan", "--json", "--profile", written(tmp_path, [ada(), ada(who="bea")]))
    assert (status, err) == (0, [])
    assert [json.loads(line)["who"] for line in out] == ["ada", "bea"]


def test_a_plan_for_people_is_a_table(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    status, out, err = run(capsys, "plan", "--profile", written(tmp_path, ada()))
    assert (status, err) == (0, [])
    assert len(out) > 30
