"""Danger beside the letters of a code is seen, whatever the letters would say."""

from datetime import datetime

import pytest

from bot.conversation.hearing import hear
from planning.terms.choices import Danger

AT = datetime(2026, 5, 13, 18, 20)  # noqa: DTZ001 - the wall time of the sender
READ_AS_WORDS = ("NT27-5648-VYP9", "XWP3-8PPL-3B8R", "V252-NT97-7P94", "M3SG-P6KM-P2NT")
"""Codes with letters in which short writing has "not" and "people"."""


@pytest.mark.parametrize("code", READ_AS_WORDS)
def test_danger_is_heard_beside_a_code(code: str) -> None:
    assert hear(f"{code} chest pain", AT, "UTC").danger == (Danger.CHEST,)


def test_a_code_alone_says_nothing() -> None:
    assert all(hear(code, AT, "UTC").danger == hear(code, AT, "UTC").alarm == () for code in READ_AS_WORDS)


def test_without_a_code_it_is_what_was_read() -> None:
    assert hear("did 20", AT, "UTC").did[0].minutes == 20
