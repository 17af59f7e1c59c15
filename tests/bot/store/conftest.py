"""The contract of the records holds on both databases: each test that takes `store` runs once on each."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.store.unit import Store
from tests.support.wire import url_of


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


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def bare_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """A place with nothing in it: for a file, then on a server."""
    if request.param == "sqlite":
        return url_of(tmp_path / "bare.sqlite3")
    cluster = request.getfixturevalue("cluster")
    return str(cluster.url(cluster.create()))
