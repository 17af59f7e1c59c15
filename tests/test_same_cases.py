"""Every property is tried on the same cases in each run: what passes today can't fail tomorrow for a case by lot."""

from pathlib import Path

from hypothesis import settings

from tests.bot.conversation import test_machine

HERE = Path(__file__)


def test_settings_that_a_test_makes_for_itself_choose_the_same_cases() -> None:
    assert settings(max_examples=1).derandomize
    assert test_machine.TestMonths.settings.derandomize
    assert test_machine.Months.TestCase.settings.derandomize


def test_no_test_chooses_otherwise() -> None:
    others = [each for each in HERE.parent.rglob("*.py") if each.name not in (HERE.name, "conftest.py")]
    assert [each for each in others if "derandomize" in each.read_text()] == []
