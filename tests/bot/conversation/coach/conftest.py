"""Two coaches and their runners on the wire, on the Monday that the runners begin. All of them are invented."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.people import ada, kim
from tests.support.wire import OnTheWire

BEGIN = "2026-03-02T06:00:00+00:00"


def lee() -> dict[str, object]:
    return kim() | {"who": "lee", "called": "Lee"}


@pytest.fixture
def two(tmp_path: Path) -> Iterator[OnTheWire]:
    """Kim coaches Ada and Cat, Lee coaches Bob."""
    people = (ada(), ada(who="cat", called="Cat"), ada(who="bob", called="Bob", coach="lee"), kim(), lee())
    run = OnTheWire.on(tmp_path / "two.sqlite3", *people)
    run.feed({"at": BEGIN})
    yield run
    run.store.close()
