"""Processes and records for the tests of `serve`."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.served import Crowd, enrolled


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def url(request: pytest.FixtureRequest) -> str:
    """Ada and her coach, in a file or on a server."""
    return enrolled(request.getfixturevalue("blank_url" if request.param == "sqlite" else "server_url"))


@pytest.fixture
def shared_url(server_url: str) -> str:
    """Ada and her coach, on a server."""
    return enrolled(server_url)


@pytest.fixture
def crowd(tmp_path: Path) -> Iterator[Crowd]:
    """Processes that end with the test."""
    found = Crowd(tmp_path)
    yield found
    found.end()
