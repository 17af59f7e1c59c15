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


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def store(request: pytest.FixtureRequest) -> Iterator[Store]:
    """Empty records, open: in a file, then on a server."""
    url = request.getfixturevalue("blank_url" if request.param == "sqlite" else "server_url")
    opened = Store.open(url)
    yield opened
    opened.close()
