"""A few scenarios once more, each by a process of its own."""

from pathlib import Path

import pytest

from tests.scenarios.test_scenarios import ALL
from tests.support.playing import OwnProcess, Played, Records
from tests.support.scenarios import Scenario

pytestmark = pytest.mark.servers

CHOSEN = [each for each in ALL if each.process]


@pytest.mark.parametrize("scenario", CHOSEN, ids=[each.title for each in CHOSEN])
def test_a_process_of_its_own_answers_the_same(scenario: Scenario, tmp_path: Path) -> None:
    path = tmp_path / "run.sqlite3"
    clock = Records(tmp_path).copy(scenario, path)
    wire = OwnProcess(path)
    wrong = Played(scenario, wire, clock, lambda message, at: None).play()
    wire.close()
    assert wrong == []


def test_there_are_at_least_five() -> None:
    assert len(CHOSEN) >= 5
