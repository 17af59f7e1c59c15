"""Records for the tests: made once, copied for each test."""

import shutil
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings
from hypothesis.internal.conjecture import providers

from bot.store.unit import Store
from tests.support.cluster import Cluster
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire, url_of

settings.register_profile("same", derandomize=True, database=None)
settings.register_profile("others", derandomize=False, print_blob=True)
settings.load_profile("same")
"""Properties are tried on the same cases in each run; `--hypothesis-profile others` looks for others."""
numbers_in_code = providers._get_local_constants


def numbers_to_try() -> providers.Constants:
    """Hypothesis tries numbers and words that it finds in the code of all modules imported so far, so that the cases of
    a test would depend on the tests before it and on any number changed anywhere: left to the search for others."""
    return providers._local_constants if settings.default.derandomize else numbers_in_code()  # type: ignore[attr-defined]


providers._get_local_constants = numbers_to_try

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


@pytest.fixture(scope="session")
def cluster() -> Iterator[Cluster]:
    """A throw-away server, with empty records in its database `blank`. The path of its socket has to be short."""
    folder = Path(tempfile.mkdtemp(prefix="lamppost-"))
    folder.chmod(0o755)
    server = Cluster(folder)
    server.create("template1", "blank")
    Store.open(server.url("blank")).close()
    yield server
    server.stop()
    shutil.rmtree(folder)


@pytest.fixture
def server_url(cluster: Cluster) -> Iterator[str]:
    """Empty records on a server."""
    name = cluster.create("blank")
    yield cluster.url(name)
    cluster.drop(name)


@pytest.fixture(params=["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def any_url(request: pytest.FixtureRequest) -> str:
    """Empty records: in a file, then on a server."""
    return str(request.getfixturevalue("blank_url" if request.param == "sqlite" else "server_url"))
