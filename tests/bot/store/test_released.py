"""Records of every released version come up to the newest one with all that is in them, whoever still writes."""

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import MetaData, insert, inspect, text

from bot.conversation.events import DueKind
from bot.store import due, outbox, sending
from bot.store.engine import open_engine
from bot.store.unit import Store
from bot.store.upgrade import HEAD, version_of
from tests.support.letters import at
from tests.support.released import RELEASED, differences, filled, has_all_of, rows_of
from tests.support.wire import OnTheWire


@pytest.mark.parametrize("released", RELEASED, ids=lambda each: each.stem)
def test_no_row_is_lost_on_the_way_up(bare_url: str, released: Path) -> None:
    engine = filled(bare_url, released)
    before = rows_of(engine)
    Store.open(bare_url).close()
    after = rows_of(engine)
    assert version_of(engine) == HEAD
    assert has_all_of(after, before)
    assert differences(engine) == []


@pytest.mark.parametrize("released", RELEASED, ids=lambda each: each.stem)
def test_the_conversation_goes_on(bare_url: str, released: Path) -> None:
    filled(bare_url, released)
    wire = OnTheWire(Store.open(bare_url))
    assert len(wire.data()["entries"]) >= 2  # type: ignore[arg-type]
    assert wire.says("2026-03-29T10:00:00+00:00", "week")["kind"] == "week"


def test_every_version_has_records_here() -> None:
    folder = Path(__file__).parents[3] / "bot/store/migrations/versions"
    versions = {path.name[1:5] for path in folder.glob("m*.py")}
    assert versions - {path.stem for path in RELEASED} == {HEAD}


def test_a_process_of_the_version_before_writes_on(bare_url: str) -> None:
    engine = filled(bare_url, RELEASED[-1])
    old = MetaData()
    old.reflect(engine)
    store = Store.open(bare_url)
    kept_by_old = {"door": "wire", "chat": "bea", "who": "bea", "at": "2026-03-02T07:00:00.000000", "text": "Hello"}
    with engine.begin() as connection:
        letter = kept_by_old | {"about": "{}", "buttons": "[]", "files": "[]", "key": "k-old", "sent": False}
        connection.execute(insert(old.tables["outbox"]).values(letter))
    with store.begin() as tx:
        assert "Hello" in [each.text for each in outbox.unsent(tx, "wire")]
        found = sending.claim(tx, sending.Claim("wire", at(), timedelta(minutes=1), 99, "here"))
        assert [each.number for each in found if each.key == "k-old"] == [1]
    with engine.begin() as connection:
        connection.execute(text("DELETE FROM due"))
        row = {"who": "ada", "kind": "push", "on": at().date(), "ordinal": 0, "at": "2026-03-02T07:00:00", "rank": 2}
        connection.execute(insert(old.tables["due"]).values(row))
    with store.begin() as tx:
        assert due.next_claim(tx, at()).due.kind is DueKind.PUSH  # type: ignore[union-attr]


def test_two_processes_upgrade_at_once(bare_url: str) -> None:
    filled(bare_url, RELEASED[0])
    with ThreadPoolExecutor(4) as processes:
        list(processes.map(lambda _: Store.open(bare_url).close(), range(4)))
    assert version_of(open_engine(bare_url)) == HEAD


def test_an_upgrade_that_dies_half_way_leaves_the_old_version(bare_url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    engine = filled(bare_url, RELEASED[0])
    before = rows_of(engine)
    monkeypatch.setattr("alembic.op.create_index", _dies)
    with pytest.raises(KeyboardInterrupt):
        Store.open(bare_url)
    assert version_of(engine) == RELEASED[0].stem
    assert rows_of(engine) == before
    monkeypatch.undo()
    Store.open(bare_url).close()
    assert "held_until" in {column["name"] for column in inspect(engine).get_columns("due")}


def _dies(*_arguments: object, **_more: object) -> None:
    raise KeyboardInterrupt
