"""More messages than anybody can answer: a word about it, then quiet; help always."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from bot.messages import Incoming
from bot.store.unit import Store
from bot.turn import Turns
from bot.turn.coaching import by_count
from tests.support.people import ada, kim
from tests.support.serving import FakeDoor, HandClock, Process
from tests.support.wire import OnTheWire

NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)
MOST = 5


@pytest.fixture
def process(tmp_path: Path) -> Process:
    """Ada and her coach behind a door that answers five messages a minute."""
    store: Store = OnTheWire.on(tmp_path / "run.sqlite3", ada(), kim()).store
    found = Process(store, FakeDoor(), HandClock(NOON))
    found.clerk.turns = Turns(store, "wire", by_count, MOST)
    found.work()
    found.door.got.clear()
    return found


def said(process: Process, text: str, times: int, chat: str = "ada") -> list[str]:
    """What answers *text*, said so many times, each a second after the other."""
    before = len(process.door.got)
    for _ in range(times):
        process.clock.at += timedelta(seconds=1)
        now = process.clock.at
        process.hear(Incoming("wire", f"{chat}-{now}", chat, chat, now, text))
        process.work()
    return [each.text.splitlines()[0] for each in process.door.got[before:] if each.chat == chat]


def test_what_comes_beyond_the_limit_is_told_once(process: Process) -> None:
    answers = said(process, "thanks", 40)
    assert len(answers) == MOST + 1
    assert answers[-1].startswith("That's more than I can read")


def test_after_a_quiet_minute_all_is_as_before(process: Process) -> None:
    said(process, "thanks", 40)
    process.clock.at += timedelta(minutes=1)
    assert len(said(process, "thanks", 1)) == 1


def test_somebody_who_goes_on_and_on_is_told_no_second_time(process: Process) -> None:
    said(process, "thanks", 200)
    assert said(process, "thanks", 200) == []


def test_help_comes_in_the_middle_of_it(process: Process) -> None:
    said(process, "thanks", 40)
    (urgent,) = said(process, "chest pain", 1)
    assert not urgent.startswith("That's more")


def test_somebody_who_writes_slowly_is_never_held_back(process: Process) -> None:
    for _ in range(30):
        process.clock.at += timedelta(seconds=14)
        assert len(said(process, "thanks", 1)) == 1


def test_a_coach_and_a_stranger_are_answered_as_ever(process: Process) -> None:
    assert len(said(process, "who needs me", 12, "kim")) == 12
    assert len(said(process, "hello", 12, "zoe")) == 12


def test_nobody_else_is_held_back(process: Process) -> None:
    said(process, "thanks", 40)
    assert len(said(process, "who needs me", 3, "kim")) == 3
