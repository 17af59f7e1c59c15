"""The disk is full for a moment: nothing that was acknowledged is lost, nothing happens twice, the wire goes on."""

import shutil
from pathlib import Path

import pytest

from bot.store.unit import Store
from tests.support.faults import hindered
from tests.support.wire import Json, OnTheWire, dump, url_of

LINES: list[Json] = [
    {"at": "2026-03-01T20:00:00+00:00"},
    {"at": "2026-03-02T07:10:00+00:00", "id": "u-1", "chat": "ada", "text": "only 12 min today"},
    {"at": "2026-03-02T07:40:00+00:00", "id": "u-2", "chat": "ada", "text": "did 12, calf a bit sore 2/10, eased"},
    {"at": "2026-03-04T19:00:00+00:00", "id": "u-3", "chat": "ada", "text": "tight chest"},
    {"at": "2026-03-05T12:00:00+00:00"},
]
WHOLE = ("entry", "flag", "hold", "fixed", "session", "due")
"""Tables that say what was kept."""


def fed(run: OnTheWire) -> OnTheWire:
    """The lines, each sent a second time at once, as a sender does who got no answer."""
    for line in LINES:
        run.feed(line, line)
    return run


@pytest.fixture
def copy(templates: Path, tmp_path: Path) -> str:
    return url_of(Path(shutil.copy(templates / "enrolled.sqlite3", tmp_path)))


def state(run: OnTheWire) -> dict[str, object]:
    """What is kept; row numbers are left out, since they may differ."""
    return {name: sorted(repr(row[1:]) for row in rows) for name, rows in dump(run.store).items() if name in WHOLE}


def once(run: OnTheWire) -> list[object]:
    """Ids of messages that were written more than once."""
    ids = [each["id"] for each in run.out if "id" in each]
    return sorted({each for each in ids if ids.count(each) > 1}, key=str)


@pytest.mark.parametrize("at", range(1, 30, 4))
def test_a_full_disk_at_any_commit_changes_nothing(templates: Path, tmp_path: Path, copy: str, at: int) -> None:
    twin = OnTheWire(Store.open(url_of(Path(shutil.copy(templates / "enrolled.sqlite3", tmp_path / "twin.sqlite3")))))
    run = OnTheWire(hindered(copy, at))
    assert state(fed(run)) == state(fed(twin))
    assert once(run) == []


@pytest.mark.parametrize("at", range(1, 12, 2))
def test_danger_is_answered_though_nothing_can_be_kept(copy: str, at: int) -> None:
    run = OnTheWire(hindered(copy, at))
    run.feed({"at": "2026-03-01T20:00:00+00:00"})
    told = run.feed({"at": "2026-03-02T06:00:00+00:00", "id": "u-1", "chat": "ada", "text": "crushing chest pain"})
    assert "urgent" in {each["about"]["kind"] for each in told if each.get("chat") == "ada"}  # type: ignore[index]
