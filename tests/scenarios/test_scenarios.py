"""Every scenario, on the wire in this process: what each answer says in facts, and in words."""

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.support.playing import InProcess, Json, Played, Records
from tests.support.scenarios import Scenario, scenarios_in
from tests.support.wording import wrong_words

ALL = scenarios_in(Path(__file__).with_name("files"))
WORKS_NOT = frozenset({"error", "not_read", "stranger"})


def marked(scenario: Scenario) -> object:
    """A scenario whose fault is known must fail until it is mended."""
    marks = [pytest.mark.xfail(reason=scenario.fails, raises=pytest.fail.Exception)] if scenario.fails else []
    return pytest.param(scenario, id=f"{scenario.place} {scenario.title}", marks=marks)


@pytest.fixture(scope="module")
def records(tmp_path_factory: pytest.TempPathFactory) -> Records:
    """Records to begin with, made once for each kind of person."""
    return Records(tmp_path_factory.mktemp("records"))


PRESSED: set[tuple[str, ...]] = set()
"""Sets of buttons that were pressed in this process: once is enough."""


def press_all(wire: InProcess, message: Json, at: datetime, folder: Path) -> list[str]:
    """What went wrong when each button of *message* was pressed, each on a copy of the records."""
    buttons = message.get("buttons", [])
    assert isinstance(buttons, list)
    about = message["about"]
    assert isinstance(about, dict)
    key = (str(about["kind"]), str(about.get("asks")), *(each["label"] for each in buttons))
    if key in PRESSED:
        return []
    PRESSED.add(key)
    return [fault for each in buttons for fault in press(wire, str(message["chat"]), each, at, folder)]


def press(wire: InProcess, chat: str, button: dict[str, str], at: datetime, folder: Path) -> list[str]:
    path = folder / "pressed.sqlite3"
    wire.copy_to(path)
    other = InProcess(path)
    line: Json = {"at": (at + timedelta(seconds=30)).isoformat(), "id": "p", "chat": chat, "press": button["id"]}
    came = [each for each in other.feed(line) if each["chat"] == chat]
    other.close()
    kinds = [each["about"]["kind"] for each in came]  # type: ignore[index]
    wrong = not kinds or WORKS_NOT & set(kinds) or any("older message" in str(each["text"]) for each in came)
    return [f"the button {button['label']!r} brought {came}"] if wrong else []


@pytest.mark.parametrize("scenario", list(map(marked, ALL)))
def test_scenario(scenario: Scenario, records: Records, tmp_path: Path) -> None:
    path = tmp_path / "run.sqlite3"
    clock = records.copy(scenario, path)
    wire, wrong = InProcess(path), []

    def seen(message: Json, at: datetime) -> None:
        wrong.extend(wrong_words(message))
        wrong.extend(press_all(wire, message, at, tmp_path))

    played = Played(scenario, wire, clock, seen)
    wrong.extend(played.play())
    wire.close()
    if wrong:
        pytest.fail("\n".join(each[:600] for each in wrong), pytrace=False)


def test_there_are_enough_scenarios_and_each_looks_at_something() -> None:
    assert len(ALL) >= 150
    assert len({each.title for each in ALL}) == len(ALL)
    assert [each.title for each in ALL if not any(step.told or step.counted for step in each.steps)] == []
