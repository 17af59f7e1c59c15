"""A process that upgrades records dies at each of its statements: nothing is lost, and the next one finishes."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import Engine, event
from sqlalchemy.engine import make_url

from bot.store.engine import file_of, open_engine
from bot.store.unit import Store
from bot.store.upgrade import HEAD, version_of
from tests.support.cluster import Cluster
from tests.support.released import RELEASED, Rows, differences, filled, has_all_of, rows_of
from tests.support.wire import url_of

LIVED, DIED, FAILED = 0, 9, 1
LEAST_STATEMENTS = 15
"""Fewer would mean that the statements aren't seen."""


def lives(url: str, point: int) -> bool:
    """Whether a process that opens the records lives, if it is to die at one *point* of its way.

    Points are counted from 1: one before each statement (so after the one before it), one before the commit.
    """
    child = os.fork()
    if child == 0:
        try:
            passed = count(1)
            for name in ("before_cursor_execute", "commit"):
                event.listen(Engine, name, lambda *_: os._exit(DIED) if next(passed) == point else None)
            Store.open(url).close()
            os._exit(LIVED)
        finally:
            os._exit(FAILED)
    ended = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert ended in (LIVED, DIED)
    return ended == LIVED


@contextmanager
def a_copy(url: str, request: pytest.FixtureRequest) -> Iterator[str]:
    """The records at *url* once more, for as long as they are wanted."""
    path = file_of(open_engine(url))
    if path is not None:
        folder = path.with_name("again")
        folder.mkdir()
        yield url_of(Path(shutil.copy(path, folder) if path.exists() else folder / path.name))
        shutil.rmtree(folder)
    else:
        cluster: Cluster = request.getfixturevalue("cluster")
        name = cluster.create(str(make_url(url).database))
        yield cluster.url(name)
        cluster.drop(name)


def all_is_well(url: str, before: Rows, version: str | None) -> None:
    """All rows of *before* are there, in tables of *version*."""
    engine = open_engine(url)
    assert version_of(engine) == version
    after = rows_of(engine)
    assert has_all_of(after, before) if version == HEAD else after == before
    assert version != HEAD or differences(engine) == []
    engine.dispose()


@pytest.mark.parametrize("step", [9, pytest.param(1, marks=pytest.mark.nightly)])
@pytest.mark.parametrize("released", [None, *RELEASED], ids=lambda each: each.stem if each else "nothing")
def test_an_upgrade_may_die_at_any_statement(
    bare_url: str, request: pytest.FixtureRequest, released: Path | None, step: int
) -> None:
    engine = filled(bare_url, released) if released else open_engine(bare_url)
    version, before = version_of(engine), rows_of(engine)
    engine.dispose()
    for point in count(1, step):
        with a_copy(bare_url, request) as url:
            lived = lives(url, point)
            all_is_well(url, before, HEAD if lived else version)
            Store.open(url).close()
            all_is_well(url, before, HEAD)
        if lived:
            break
    assert point > LEAST_STATEMENTS
