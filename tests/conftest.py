"""Records for the tests: made once, copied for each test."""

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.store.unit import Store
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire, url_of

EVENING_BEFORE = "2026-03-01T20:00:00+00:00"
"""Sunday evening before the first day of the invented people."""


@pytest.fixture(scope="session")
def templates(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with empty records, and with those of a runner and her coach: enrolled, and with the clock running."""
    folder = tmp_path_factory.mktemp("templates")
    Store.open(url_of(folder / "blank.sqlite3")).close()
    OnTheWire.on(folder / "enrolled.sqlite3", ada(), kim()).store.close()
    started = OnTheWire(Store.open(url_of(Path(shutil.copy(folder / "enrolled.sqlite3", folder / "started.sqlite3")))))
    started.feed({"at": EVENING_BEFORE})
    started.store.close()
    return folder


@pytest.fixture
def blank_url(templates: Path, tmp_path: Path) -> str:
    """Empty records."""
    return url_of(Path(shutil.copy(templates / "blank.sqlite3", tmp_path)))


@pytest.fixture
def store(blank_url: str) -> Iterator[Store]:
    """Empty records, open."""
    opened = Store.open(blank_url)
    yield opened
    opened.close()


@pytest.fixture
def wire(templates: Path, tmp_path: Path) -> Iterator[OnTheWire]:
    """Ada and her coach on the wire, on the evening before her first day."""
    run = OnTheWire(Store.open(url_of(Path(shutil.copy(templates / "started.sqlite3", tmp_path)))))
    yield run
    run.store.close()
