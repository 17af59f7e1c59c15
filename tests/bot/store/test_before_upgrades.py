"""Before a file of records is upgraded it is copied beside itself; without that copy nothing is changed."""

import os
import resource
import sqlite3
import stat
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, closing, contextmanager
from pathlib import Path

import pytest

from bot.conversation.changes import Erase
from bot.store import copying, health, upgrade
from bot.store.changes import keep
from bot.store.copies import back_up, restore
from bot.store.engine import open_engine
from bot.store.errors import NoRecords
from bot.store.unit import Store
from bot.store.upgrade import HEAD, version_of
from tests.support.letters import at
from tests.support.released import RELEASED, filled, rows_of
from tests.support.wire import url_of

DIED = 9


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Records of the last released version."""
    filled(url_of(tmp_path / "a.sqlite3"), RELEASED[-1]).dispose()
    return tmp_path / "a.sqlite3"


def copy_of(path: Path) -> Path:
    return path.with_name(f"{path.name}.before-{HEAD}")


def test_the_copy_is_the_records_as_they_were(path: Path, caplog: pytest.LogCaptureFixture) -> None:
    before = rows_of(open_engine(url_of(path)))
    with caplog.at_level("INFO", "lamppost"):
        Store.open(url_of(path)).close()
    assert caplog.messages == [f"event=copied_before_upgrade what={HEAD} count=0"]
    copy = open_engine(url_of(copy_of(path)))
    assert version_of(copy) == RELEASED[-1].stem
    assert rows_of(copy) == before
    assert stat.S_IMODE(copy_of(path).stat().st_mode) == 0o600


def test_the_copy_has_what_stands_in_the_log_alone(path: Path) -> None:
    still_open = open_engine(url_of(path)).connect()
    still_open.exec_driver_sql("UPDATE person SET why = 'in the log' WHERE who = 'ada'")
    still_open.commit()
    assert b"in the log" not in path.read_bytes()
    Store.open(url_of(path)).close()
    assert b"in the log" in copy_of(path).read_bytes()


def test_nobody_writes_between_copy_and_upgrade(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def copy(*_paths: Path) -> None:
        with (
            closing(sqlite3.connect(path, timeout=0)) as other,
            pytest.raises(sqlite3.OperationalError, match="locked"),
        ):
            other.execute("DELETE FROM entry")

    monkeypatch.setattr(upgrade, "copy_whole", copy)
    Store.open(url_of(path)).close()
    assert version_of(open_engine(url_of(path))) == HEAD


def test_who_looked_before_another_upgraded_makes_no_second_copy(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(upgrade, "version_of", lambda _: RELEASED[-1].stem)
    for _ in range(2):
        Store.open(url_of(path)).close()
    assert version_of(open_engine(url_of(copy_of(path)))) == RELEASED[-1].stem


def test_new_records_and_new_tables_are_not_copied(tmp_path: Path) -> None:
    for _ in range(2):
        Store.open(url_of(tmp_path / "new.sqlite3")).close()
    assert list(tmp_path.glob("*before*")) == []


@contextmanager
def a_full_disk(path: Path) -> Iterator[None]:
    """No file can become as large as the copy would be."""
    before = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (path.stat().st_size // 2, before[1]))
    yield
    resource.setrlimit(resource.RLIMIT_FSIZE, before)


@contextmanager
def a_place_that_is_taken(path: Path) -> Iterator[None]:
    """A folder has the name, as if nothing could be written there."""
    copy_of(path).mkdir()
    yield
    copy_of(path).rmdir()


@contextmanager
def damaged_records(path: Path) -> Iterator[None]:
    """A row belongs to nobody."""
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("UPDATE entry SET who = 'nobody' WHERE id = 1")
        connection.commit()
    yield


Hindrance = Callable[[Path], AbstractContextManager[None]]
HINDRANCES: tuple[Hindrance, ...] = (a_full_disk, a_place_that_is_taken, damaged_records)


@pytest.mark.parametrize("hindrance", HINDRANCES, ids=lambda each: each.__name__)
def test_without_a_copy_nothing_is_changed(
    path: Path, hindrance: Callable[[Path], AbstractContextManager[None]]
) -> None:
    with hindrance(path):
        before = rows_of(open_engine(url_of(path)))
        with pytest.raises(NoRecords, match="nothing was changed") as refused:
            Store.open(url_of(path))
    assert len(str(refused.value).splitlines()) == 1
    assert version_of(open_engine(url_of(path))) == RELEASED[-1].stem
    assert rows_of(open_engine(url_of(path))) == before
    assert list(path.parent.glob("*before*")) == []


def test_a_copy_that_was_cut_off_is_made_anew(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    copy_of(path).write_bytes(b"of an upgrade before that came to nothing")
    child = os.fork()
    if child == 0:
        monkeypatch.setattr(copying, "check_file", lambda _: os._exit(DIED))
        Store.open(url_of(path))
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == DIED
    assert list(path.parent.glob("*.part"))
    Store.open(url_of(path)).close()
    assert version_of(open_engine(url_of(copy_of(path)))) == RELEASED[-1].stem
    assert not list(path.parent.glob("*.part*"))


def test_who_is_erased_is_in_no_copy(path: Path) -> None:
    store = Store.open(url_of(path))
    assert b"ada" in copy_of(path).read_bytes()
    with store.begin() as tx:
        keep(tx, "ada", Erase())
    assert not copy_of(path).exists()


def test_a_copy_that_is_put_back_needs_no_second_one(path: Path, tmp_path: Path) -> None:
    back_up(url_of(path), tmp_path / "copy")
    restore(tmp_path / "copy", url_of(tmp_path / "b.sqlite3"), newer=path)
    assert version_of(open_engine(url_of(tmp_path / "b.sqlite3"))) == HEAD
    assert not list(tmp_path.glob("*before*"))


def test_check_says_that_it_is_there(path: Path) -> None:
    told = [each for each in health.look(Store.open(url_of(path)), at(), "2026a") if each.name == "copy"]
    assert [(each.fine, copy_of(path).name in each.told) for each in told] == [(True, True)]
