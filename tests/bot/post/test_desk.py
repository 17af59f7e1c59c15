"""The desk of a single process: what was kept is answered, whoever kept it."""

from pathlib import Path

from bot.store import inbox
from bot.store.unit import Store
from tests.support.letters import incoming
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire, url_of


def test_what_a_process_kept_that_died_is_answered_when_it_comes_again_to_another(tmp_path: Path) -> None:
    living = OnTheWire.on(tmp_path / "a.sqlite3", ada(), kim())
    dead = Store.open(url_of(tmp_path / "a.sqlite3"))
    with dead.begin() as tx:
        inbox.accept(tx, incoming("u-1", "week"))
    dead.close()
    lines = living.feed({"at": "2026-03-02T08:00:00+00:00", "id": "u-1", "chat": "ada", "text": "week"})
    assert [each["about"]["kind"] for each in lines] == ["week"]
    living.store.close()
