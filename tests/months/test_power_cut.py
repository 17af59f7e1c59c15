"""The power fails between two syncs: some of what was written since the last one is there, in pieces. Nothing that was
acknowledged before is lost, and the file is whole.

SQLite's documentation (sqlite.org/wal.html) puts the sync of the log at each commit when `synchronous` is FULL. So the
files are copied after each commit of a scripted week; then the log of the next commit is cut off at several places, or
parts of it are zeros, as a disk leaves them.
"""

import json
import shutil
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise
from pathlib import Path

import pytest
from sqlalchemy.orm import Session

from bot.store.engine import open_engine
from bot.store.unit import Store
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire, url_of

WEEK = [json.loads(line) for line in Path(__file__).with_name("week.jsonl").read_text(encoding="utf-8").splitlines()]
SECTOR = 512


@dataclass
class Disk:
    """The bytes of the file and of its log after each commit, and the ids that were kept by then."""

    path: Path
    states: list[tuple[bytes, bytes, frozenset[str]]] = field(default_factory=list)

    def look(self) -> None:
        """Take down how the disk looks now."""
        log = self.path.with_name(self.path.name + "-wal")
        with sqlite3.connect(self.path) as other:
            ids = frozenset(row[0] for row in other.execute("SELECT transport_id FROM inbox"))
        self.states.append((self.path.read_bytes(), log.read_bytes() if log.exists() else b"", ids))

    def cuts(self) -> Iterator[tuple[bytes, bytes, frozenset[str]]]:
        """The disk at places between two commits: file, log, and what had been acknowledged."""
        for (file, log, ids), (_, later, _) in pairwise(self.states):
            new = later[len(log) :] if later.startswith(log) else b""
            for part in (len(new) // 3, len(new) * 9 // 10):
                yield file, log + new[:part], ids
            if len(new) > 2 * SECTOR:
                yield file, log + bytes(SECTOR) + new[SECTOR:], ids
                yield file, log + new[:-SECTOR] + bytes(SECTOR), ids


class WatchedStore(Store):
    """Shows the disk after each commit."""

    disk: Disk

    def commit(self, tx: Session) -> None:
        super().commit(tx)
        self.disk.look()


@pytest.fixture(scope="module")
def disk(tmp_path_factory: pytest.TempPathFactory) -> Disk:
    """The scripted week, commit by commit."""
    path = tmp_path_factory.mktemp("power") / "run.sqlite3"
    OnTheWire.on(path, ada(), kim()).store.close()
    store = WatchedStore(open_engine(url_of(path)))
    store.disk = Disk(path)
    OnTheWire(store).feed(*WEEK[: len(WEEK) // 2])
    store.close()
    return store.disk


def test_after_a_power_cut_the_file_is_whole_and_all_that_was_acknowledged_is_there(disk: Disk, tmp_path: Path) -> None:
    tried = 0
    for file, log, acknowledged in disk.cuts():
        path = tmp_path / f"{tried}.sqlite3"
        path.write_bytes(file)
        path.with_name(path.name + "-wal").write_bytes(log)
        with sqlite3.connect(path) as found:
            assert found.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            assert found.execute("PRAGMA foreign_key_check").fetchall() == []
            assert acknowledged <= {row[0] for row in found.execute("SELECT transport_id FROM inbox")}
        tried += 1
    assert tried >= 200, "too few places"


def test_after_a_power_cut_the_week_goes_on_to_the_same_end(disk: Disk, tmp_path: Path) -> None:
    file, log, _ = list(disk.cuts())[37]
    for name, (content, beside) in {"cut": (file, log), "plain": disk.states[-1][:2]}.items():
        (tmp_path / f"{name}.sqlite3").write_bytes(content)
        (tmp_path / f"{name}.sqlite3-wal").write_bytes(beside)
    ends = []
    for name in ("cut", "plain"):
        run = OnTheWire(Store.open(url_of(tmp_path / f"{name}.sqlite3")))
        run.feed(*WEEK)
        ends.append(run.data())
        run.store.close()
    assert ends[0] == ends[1]
    shutil.rmtree(tmp_path)
