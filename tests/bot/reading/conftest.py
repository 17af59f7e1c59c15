"""The word lists are read on the first reply: here, so that no single test pays for it."""

from datetime import datetime

import pytest

from bot.reading import read


@pytest.fixture(autouse=True, scope="session")
def _lists_are_loaded() -> None:
    read("walked 20, kneees sore", datetime(2026, 1, 1), "UTC")  # noqa: DTZ001 - the wall time of the sender
