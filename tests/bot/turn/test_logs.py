"""What is logged: a week with illness in it, all levels captured, and not a word of it is there."""

import json
import logging
import re
from pathlib import Path

import pytest

from bot.logs import note
from bot.turn import turns
from tests.support.faults import hindered
from tests.support.people import ada, kim
from tests.support.shell import bot
from tests.support.trees import sources
from tests.support.wire import Json, OnTheWire, url_of

SAID = (
    "tight chest going up the hill, canary-one",
    "my left knee hurts 4/10 canary-two",
    "I want to kill myself canary-three",
    "throwing up after dinner to lose weight",
    "weight 103.2 kg",
    "fever 38.9 and a cough",
    "bleeding, I am pregnant",
    "my sugar is 2.9 and I'm shaking",
    "erase everything",
)
WORDS = re.compile(
    r"canary|chest|knee|kill|dinner|vomit|throw|weight|103|fever|cough|bleed|pregnan|sugar|hurts|ada\b|kim\b|Ada|erase",
    re.IGNORECASE,
)


def week() -> list[Json]:
    """Each of those words on a day of its own."""
    return [
        {"at": f"2026-03-{2 + day:02d}T08:00:00+00:00", "id": f"u-{day}", "chat": "ada", "text": text}
        for day, text in enumerate(SAID)
    ]


def harmful(text: str) -> list[str]:
    return sorted(set(WORDS.findall(text)))


def test_nothing_of_what_was_said_is_logged(caplog: pytest.LogCaptureFixture, wire: OnTheWire) -> None:
    caplog.set_level(logging.DEBUG)
    wire.feed(*week())
    assert harmful(caplog.text) == []


def test_nothing_of_it_is_logged_when_the_records_fail(
    caplog: pytest.LogCaptureFixture, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    caplog.set_level(logging.DEBUG)
    OnTheWire.on(tmp_path / "a.sqlite3", ada(), kim()).store.close()
    for at in range(3, 30, 6):
        OnTheWire(hindered(url_of(tmp_path / "a.sqlite3"), at)).feed(*week())
    assert "fault=FullDisk" in caplog.text, "the faults did not happen"
    assert harmful(caplog.text + "".join(capsys.readouterr())) == []


@pytest.mark.servers
def test_a_process_of_its_own_says_nothing_on_standard_error(tmp_path: Path) -> None:
    url = url_of(tmp_path / "own.sqlite3")
    OnTheWire.on(tmp_path / "own.sqlite3", ada(), kim()).store.close()
    lines = [*(json.dumps(each) for each in week()), "{tight chest canary"]
    run = bot("wire", "--db", url, said="\n".join(lines))
    assert (run.returncode, run.stderr) == (0, "")


def test_a_note_holds_its_keys_and_nothing_else(caplog: pytest.LogCaptureFixture) -> None:
    note("turn_failed", row=7, fault="KeyError")
    assert caplog.messages == ["event=turn_failed row=7 fault=KeyError"]


def test_only_one_module_writes_logs() -> None:
    writers = {each.name for each in sources("bot", "planning") if "logging" in each.imported()}
    assert writers == {"bot/logs.py"}
    assert turns.note is note
