"""The real terminal chat, in a real pseudo-terminal: typed at by a program as a person would."""

import os
import sys
from pathlib import Path

import pexpect
import pytest

from tests.support.people import ada
from tests.support.wire import OnTheWire

PROMPT = "\\x1b\\[\\?2004h"
"""What the prompt sends when it is ready to be typed at: bracketed paste is switched on."""

pytestmark = pytest.mark.servers


def opened(path: Path, at: str) -> "pexpect.spawn[str]":
    command = ["-m", "bot", "chat", "--db", f"sqlite:///{path}", "--as", "ada", "--at", at]
    env = {**os.environ, "PROMPT_TOOLKIT_NO_CPR": "1"}
    return pexpect.spawn(sys.executable, command, env=env, encoding="utf-8", timeout=120, dimensions=(40, 76))


@pytest.fixture
def records(tmp_path: Path) -> Path:
    path = tmp_path / "chat.sqlite3"
    OnTheWire.on(path, ada()).store.close()
    return path


def test_a_push_appears_while_nobody_types(records: Path) -> None:
    evening = opened(records, "2026-03-01T20:00:00+00:00")
    evening.expect(PROMPT)
    evening.sendline("week")
    evening.expect("Lamppost")  # only now do the records know that seven o'clock is still to come
    evening.close()
    chat = opened(records, "2026-03-02T06:59:58+00:00")
    chat.expect("Today: walk 20 min")
    chat.expect(PROMPT)
    chat.sendline("done")
    chat.expect("Next: Wed 4 Mar 18:30")
    chat.expect(PROMPT)
    chat.sendline("/quit")
    chat.expect(pexpect.EOF)


def test_the_log_is_still_there_next_morning(records: Path) -> None:
    first = opened(records, "2026-03-02T06:59:00+00:00")
    first.expect(PROMPT)
    first.sendline("walked 15 already")
    first.expect("15 min")
    first.expect(PROMPT)
    first.sendcontrol("d")
    first.expect(pexpect.EOF)
    second = opened(records, "2026-03-04T18:30:00+00:00")
    second.expect("walk 20 min")
    second.expect(PROMPT)
    second.sendline("data")
    second.expect("lamppost.json")
