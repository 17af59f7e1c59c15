"""Every property is tried on the same cases in each run: what passes today can't fail tomorrow for a case by lot."""

import importlib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.bot.conversation import test_machine

HERE = Path(__file__)


def test_settings_that_a_test_makes_for_itself_choose_the_same_cases() -> None:
    assert settings(max_examples=1).derandomize
    assert test_machine.TestMonths.settings.derandomize
    assert test_machine.Months.TestCase.settings.derandomize


def test_no_test_chooses_otherwise() -> None:
    others = [each for each in HERE.parent.rglob("*.py") if each.name not in (HERE.name, "conftest.py")]
    assert [each for each in others if "derandomize" in each.read_text()] == []


def cases() -> list[tuple[int, str]]:
    """What one property is tried on."""
    found = []

    @settings(max_examples=200)
    @given(st.integers(), st.text())
    def tried(number: int, text: str) -> None:
        found.append((number, text))

    tried()
    return found


def test_cases_do_not_depend_on_what_was_imported_before(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = cases()
    (tmp_path / "full_of_numbers.py").write_text(f"FOUND = {[(each * 12_347, f'word {each}') for each in range(500)]}")
    monkeypatch.syspath_prepend(tmp_path)
    importlib.import_module("full_of_numbers")
    assert cases() == before
