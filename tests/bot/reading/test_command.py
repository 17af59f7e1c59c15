"""The command: one line out for each line in, whatever comes."""

import argparse
import io
import json

import pytest

from bot.cli import read as command

GOOD = '{"text": "did 20", "at": "2026-03-04T18:20:00", "tz": "Europe/London", "planned_min": 25, "asked": null}'
DID_20 = {"kind": "session", "minutes": 20}


def outputs(*lines: str) -> list[dict[str, object]]:
    return [json.loads(answer) for answer in command.answers(lines)]


def test_a_reply_gives_its_facts() -> None:
    (answer,) = outputs(GOOD)
    assert answer["did"] == [DID_20]


@pytest.mark.parametrize(
    "line",
    [
        "[]", "x", "1", '{"text": 1}', '{"text": "a"}', '{"text": "a", "at": "soon", "tz": "UTC"}', "[" * 100_000,
        '{"text": "a", "at": "2026-01-01", "tz": "../etc/passwd"}', '{"text": "a", "at": "2026-01-01", "tz": 5}',
        '{"text": "a", "at": "2026-01-01"}', '{"text": "a", "at": 5, "tz": "UTC"}', "{}", "null", '"text"',
    ],
)  # fmt: skip
def test_a_bad_line_gets_one_error_and_the_stream_goes_on(line: str) -> None:
    bad, good = outputs(line, GOOD)
    assert list(bad) == ["error"]
    assert good["did"] == [DID_20]


@pytest.mark.parametrize(
    "odd",
    [
        '{"text": "\\ud800 did 20 \\u0000", "at": "2026-01-01T10:00", "tz": "UTC"}',
        '{"text": "did 20", "at": "2026-01-01T10:00+02:00", "tz": "UTC", "planned_min": NaN}',
        '{"text": "did 20", "at": "2026-01-01T10:00Z", "tz": "UTC", "planned_min": 1e309, "asked": ["x"]}',
        '{"text": "did 20", "at": "2026-01-01", "tz": "UTC", "planned_min": "x", "asked": "weather"}',
    ],
)
def test_odd_values_do_no_harm(odd: str) -> None:
    assert outputs(odd)[0]["did"] == [DID_20]


def test_blank_lines_are_no_lines() -> None:
    assert outputs("\n", "  ", GOOD, "\n")[0]["did"] == [DID_20]
    assert len(outputs("\n", "  ", GOOD, "\n")) == 1


def test_lines_are_answered_in_order(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{GOOD}\n{GOOD.replace('20', '21', 1)}\n"))
    assert command.run(argparse.Namespace(explain=None)) == 0
    minutes = [json.loads(line)["did"][0]["minutes"] for line in capsys.readouterr().out.splitlines()]
    assert minutes == [20, 21]


def test_explain_shows_rule_and_rest(capsys: pytest.CaptureFixture[str]) -> None:
    args = argparse.Namespace(explain="did 15 of 25, the goose again", at="2026-03-04T18:20", tz="Europe/London")
    assert command.run(args) == 0
    shown = capsys.readouterr().out
    assert "did <- '15 of 25'" in shown
    assert "not read: the goose" in shown


def test_explain_names_what_is_wrong_with_its_time(capsys: pytest.CaptureFixture[str]) -> None:
    assert command.run(argparse.Namespace(explain="x", at="soon", tz="UTC")) == command.WRONG
    assert '"at"' in capsys.readouterr().err
