"""The contract of the records holds on both databases: each test that takes `store` runs once on each."""

from collections.abc import Iterator

import pytest

from bot.store.unit import Store


@pytest.fixture
def file_store(blank_url: str) -> Iterator[Store]:
    """Empty records in a file, for what is promised of files alone."""
    opened = Store.open(blank_url)
    yield opened
    opened.close()


@pytest.fixture
def store(any_url: str) -> Iterator[Store]:
    """Empty records, open: in a file, then on a server."""
    opened = Store.open(any_url)
    yield opened
    opened.close()
