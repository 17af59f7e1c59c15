"""Plans in parts by person, as the page for hosts says: nothing is lost, one part is looked into, the talk goes on."""

from pathlib import Path

import psycopg
import pytest

from bot.store.unit import Store
from tests.support.people import ada, kim
from tests.support.scenes import answer, happens
from tests.support.wire import OnTheWire, dump

SCRIPT = Path(__file__).parents[3] / "deploy" / "partition.sql"
ONE = """EXPLAIN SELECT * FROM session WHERE who = 'ada' AND "on" >= '2026-03-02'"""


def partition(url: str) -> list[str]:
    """Run the script; gives how the database would look for one person."""
    with psycopg.connect(url.replace("postgresql+psycopg", "postgresql")) as connection:
        connection.execute(SCRIPT.read_text(encoding="utf-8"))
        return [row[0] for row in connection.execute(ONE)]


@pytest.mark.postgres
def test_plans_in_parts_are_the_same_plans_and_the_talk_goes_on(server_url: str) -> None:
    wire = OnTheWire.at(server_url, ada(), kim())
    happens(wire, (1, "20:00", None), (2, "08:00", "done"))
    before = dump(wire.store)
    wire.store.close()
    plan = partition(server_url)
    assert sum("session_" in line for line in plan) == 1
    again = OnTheWire(Store.open(server_url), count=wire.count)
    assert dump(again.store) == before
    assert answer(again, (4, "19:00", "done, effort 3"))["kind"] == "logged"
    assert answer(again, (5, "19:00", "move it to sunday"))["kind"] == "moved"
    again.store.close()
