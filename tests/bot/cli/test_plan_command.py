"""`python -m bot plan`: a table, JSON lines, a picture, a calendar file, or one line for each fault."""

import json
from pathlib import Path

import pytest
from icalendar import Calendar

from bot.cli import main
from bot.forms.texts import limit_text, warning_text
from planning import LIMITS
from planning.plan.warnings import Warn

SAM: dict[str, object] = {
    "who": "sam",
    "tz": "Europe/London",
    "days": {"mon": "07:00", "wed": "18:30", "fri": "07:00", "sun": "01:30"},
    "begin": "2026-03-02",
    "walk_min": 20,
    "race": {"date": "2026-11-01", "km": 21.0975},
    "age": 44,
    "height_cm": 168,
    "weight_kg": 104,
}


def saved(folder: Path, value: object) -> str:
    name = folder / "profile.json"
    name.write_text(value if isinstance(value, str) else json.dumps(value), encoding="utf-8")
    return str(name)


def test_json_gives_one_object_a_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--profile", saved(tmp_path, [SAM, SAM]), "--json"]) == 0
    plans = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [each["who"] for each in plans] == ["sam", "sam"]
    assert plans[0]["weeks"][0]["sessions"][1]["at"] == "18:30"
    assert set(plans[0]) >= {"begin", "may_start", "fits", "earliest_race", "race_day", "warnings"}


def test_the_table_names_every_week(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--profile", saved(tmp_path, SAM)]) == 0
    out = capsys.readouterr().out
    assert "2026-03-02" in out
    assert "race day: about" in out
    assert "goes wrong around 15 km" in out
    assert "(kit, food, skin, feet)" in out
    assert "\x1b" not in out


def test_why_names_the_rule_and_its_source(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--profile", saved(tmp_path, SAM), "--why"]) == 0
    out = capsys.readouterr().out
    assert "Frandsen et al. 2025" in out
    assert "stretch calf: Hands on a wall" in out
    assert "sit to stand: From a chair" in out


@pytest.mark.parametrize(
    ("value", "lines"),
    [
        ([SAM, SAM | {"days": {"tue": "noon"}}], ['[1].days.tue: "noon" is no time; write "07:00"']),
        (SAM | {"age": 3, "sex": "x"}, ["age: 3 is out of range; write 18 to 100", 'sex: "x" is none of "f", "m"']),
        ({"who": "kim", "role": "coach", "tz": "UTC"}, ["role: a coach has no plan"]),
    ],
)
def test_wrong_profiles_get_a_line_for_each_fault(
    value: object, lines: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["plan", "--profile", saved(tmp_path, value)]) == 2
    out, err = capsys.readouterr()
    assert (out, err.splitlines()) == ("", lines)


@pytest.mark.parametrize("text", ["{", "nothing", ""])
def test_a_file_that_is_no_json_gets_one_line(text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--profile", saved(tmp_path, text)]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_a_missing_file_gets_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--profile", str(tmp_path / "none.json")]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


@pytest.mark.parametrize(("name", "start"), [("weeks.png", b"\x89PNG"), ("weeks.svg", b"<?xml")])
def test_the_chart_is_a_picture_of_its_kind(name: str, start: bytes, tmp_path: Path) -> None:
    assert main(["plan", "--profile", saved(tmp_path, SAM), "--chart", str(tmp_path / name)]) == 0
    assert (tmp_path / name).read_bytes().startswith(start)


def test_a_chart_of_another_kind_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["plan", "--profile", saved(tmp_path, SAM), "--chart", "weeks.bmp"]) == 2
    assert capsys.readouterr().err == "--chart: weeks.bmp ends in neither .png nor .svg\n"


def calendar_of(folder: Path) -> tuple[bytes, Calendar]:
    name = folder / "sam.ics"
    assert main(["plan", "--profile", saved(folder, SAM), "--ics", str(name)]) == 0
    return name.read_bytes(), Calendar.from_ical(name.read_bytes())  # type: ignore[return-value]


def test_the_calendar_file_keeps_the_standard(tmp_path: Path) -> None:
    """RFC 5545: CRLF, lines of 75 octets at most, VERSION and PRODID, UID and DTSTAMP in each event."""
    raw, calendar = calendar_of(tmp_path)
    assert raw.count(b"\n") == raw.count(b"\r\n") > 0
    assert max(map(len, raw.split(b"\r\n"))) <= 75
    assert (calendar["version"], bool(calendar["prodid"])) == ("2.0", True)
    uids = [event["uid"] for event in calendar.walk("VEVENT") if event["dtstamp"]]
    assert len(uids) == len(set(uids)) > 100


def test_the_calendar_holds_instants_across_a_clock_change(tmp_path: Path) -> None:
    """Europe/London 2026-03-29 01:30 does not exist; the first minute that does is 02:00, 01:00 UTC."""
    _, calendar = calendar_of(tmp_path)
    starts = [event["dtstart"].dt.isoformat() for event in calendar.walk("VEVENT")]
    assert "2026-03-22T01:30:00+00:00" in starts
    assert "2026-03-29T01:00:00+00:00" in starts
    assert "2026-04-05T00:30:00+00:00" in starts


def test_every_warning_and_every_limit_has_a_sentence() -> None:
    assert all(warning_text(each).endswith(".") for each in Warn)
    assert all(limit_text(each.name).endswith(".") for each in LIMITS)
