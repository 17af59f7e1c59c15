"""Every scenario, on the wire in this process: what each answer says in facts, and in words."""

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.support.playing import InProcess, Json, Played, Records, Stage
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


@pytest.fixture(scope="module")
def stages(tmp_path_factory: pytest.TempPathFactory) -> tuple[Stage, Stage]:
    """Where scenarios are played, and where buttons are pressed beside them."""
    folder = tmp_path_factory.mktemp("stages")
    return Stage(folder / "run.sqlite3"), Stage(folder / "beside.sqlite3")


PRESSED: set[tuple[str, ...]] = set()
"""Sets of buttons that were pressed in this process: once is enough."""


def press_all(wire: InProcess, message: Json, at: datetime, beside: Stage) -> list[str]:
    """What went wrong when each button of *message* was pressed, each on a copy of the records."""
    buttons = message.get("buttons", [])
    assert isinstance(buttons, list)
    about = message["about"]
    assert isinstance(about, dict)
    key = (str(about["kind"]), str(about.get("asks")), *(each["label"] for each in buttons))
    if key in PRESSED:
        return []
    PRESSED.add(key)
    return [fault for each in buttons for fault in press(wire, str(message["chat"]), each, at, beside)]


def press(wire: InProcess, chat: str, button: dict[str, str], at: datetime, beside: Stage) -> list[str]:
    wire.copy_to(beside.clear())
    other = beside.begin()
    line: Json = {"at": (at + timedelta(seconds=30)).isoformat(), "id": "p", "chat": chat, "press": button["id"]}
    came = [each for each in other.feed(line) if each["chat"] == chat]
    other.close()
    kinds = [each["about"]["kind"] for each in came]  # type: ignore[index]
    wrong = not kinds or WORKS_NOT & set(kinds) or any("older message" in str(each["text"]) for each in came)
    return [f"the button {button['label']!r} brought {came}"] if wrong else []


@pytest.mark.parametrize("scenario", list(map(marked, ALL)))
def test_scenario(scenario: Scenario, records: Records, stages: tuple[Stage, Stage]) -> None:
    stage, beside = stages
    clock = records.copy(scenario, stage.clear())
    wire, wrong = stage.begin(), []

    def seen(message: Json, at: datetime) -> None:
        wrong.extend(wrong_words(message))
        wrong.extend(press_all(wire, message, at, beside))

    played = Played(scenario, wire, clock, seen)
    wrong.extend(played.play())
    wire.close()
    if wrong:
        pytest.fail("\n".join(each[:600] for each in wrong), pytrace=False)


def test_there_are_enough_scenarios_and_each_looks_at_something() -> None:
    assert len(ALL) >= 150
    assert len({each.title for each in ALL}) == len(ALL)
    assert [each.title for each in ALL if not any(step.told or step.counted for step in each.steps)] == []
