"""The connection: what SQLite promises only when it is asked to."""

import socket
from concurrent.futures import ThreadPoolExecutor
from datetime import datetime, timedelta, timezone
from os import dup
from pathlib import Path

import pytest
from sqlalchemy import Connection, inspect, make_url, select, text
from sqlalchemy.exc import IntegrityError, StatementError

from bot.conversation.known import Marks
from bot.store.changes import person_row
from bot.store.engine import open_engine
from bot.store.locks import hold
from bot.store.tables import ClockRow, EntryRow, PersonRow
from bot.store.unit import Store
from tests.support.letters import at
from tests.support.network import Network

IN_FORCE = (
    ("journal_mode", "wal", "readers go on while something is written"),
    ("synchronous", 2, "FULL: what was acknowledged survives a power cut"),
    ("foreign_keys", 1, "off by default"),
    ("busy_timeout", 5000, "wait for another writer instead of failing"),
    ("secure_delete", 1, "what was erased is gone from the bytes"),
)


@pytest.mark.parametrize(("name", "value", "why"), IN_FORCE, ids=[row[0] for row in IN_FORCE])
def test_a_setting_is_in_force(file_store: Store, name: str, value: object, why: str) -> None:
    with file_store.begin() as tx:
        assert tx.scalar(text(f"PRAGMA {name}")) == value, why


def test_a_setting_is_in_force_on_every_connection(file_store: Store) -> None:
    both = [file_store.engine.raw_connection() for _ in range(2)]
    found = [each.cursor().execute("PRAGMA foreign_keys").fetchone() for each in both]
    for each in both:
        each.close()
    assert found == [(1,), (1,)]


def test_writers_at_once_lose_nothing(store: Store) -> None:
    with store.begin() as tx:
        person_row(tx, "ada").last_id = "0"

    def add_fifty(_writer: int) -> None:
        for _ in range(50):
            with store.begin() as tx:
                hold(tx, "ada")
                row = person_row(tx, "ada")
                row.last_id = str(int(row.last_id or 0) + 1)

    with ThreadPoolExecutor(8) as writers:
        list(writers.map(add_fifty, range(8)))
    with store.begin() as tx:
        assert person_row(tx, "ada").last_id == "400"


def test_a_table_that_was_rolled_back_is_gone(store: Store) -> None:
    def make_and_fail() -> None:
        with store.begin() as tx:
            tx.execute(text("CREATE TABLE half_done (id INTEGER)"))
            raise RuntimeError

    with pytest.raises(RuntimeError):
        make_and_fail()
    assert not inspect(store.engine).has_table("half_done")


def test_a_block_that_raises_keeps_nothing(store: Store) -> None:
    def write_and_fail() -> None:
        with store.begin() as tx:
            person_row(tx, "ada")
            raise RuntimeError

    with pytest.raises(RuntimeError):
        write_and_fail()
    with store.begin() as tx:
        assert tx.get(PersonRow, "ada") is None


def test_a_time_without_a_zone_is_refused(store: Store) -> None:
    naive = at().replace(tzinfo=None)
    with pytest.raises(StatementError, match="needs a zone"), store.begin() as tx:
        tx.add(ClockRow(id=1, at=naive))


@pytest.mark.parametrize("hours", [-12, 0, 5.75, 14])
def test_an_instant_comes_back_in_utc(store: Store, hours: float) -> None:
    there = datetime.fromisoformat("2026-03-02T07:00:00.000001+00:00").astimezone(timezone(timedelta(hours=hours)))
    with store.begin() as tx:
        tx.add(ClockRow(id=1, at=there))
    with store.begin() as tx:
        found = tx.get_one(ClockRow, 1).at
    assert (found, found.utcoffset()) == (there, at().utcoffset())


def test_the_order_of_texts_is_the_order_of_instants(store: Store) -> None:
    moments = [at(minutes) for minutes in (-9e6, -1, -0.001, 0, 0.5, 1, 9e6)]
    with store.begin() as tx:
        for place, moment in enumerate(reversed(moments)):
            tx.add(ClockRow(id=place, at=moment))
    with store.begin() as tx:
        assert list(tx.scalars(select(ClockRow.at).order_by(ClockRow.at))) == moments


def test_nothing_is_kept_of_nobody(store: Store) -> None:
    with pytest.raises(IntegrityError), store.begin() as tx:
        tx.add(EntryRow(who="nobody", on=at().date(), status="done", from_id="x", place=0))


def test_errors_show_no_values(store: Store) -> None:
    def keep_twice() -> None:
        for _ in range(2):
            with store.begin() as tx:
                tx.add(PersonRow(who="canary-who", marks=Marks(), why=(), last_id="canary-id"))

    with pytest.raises(IntegrityError) as fault:
        keep_twice()
    assert "canary" not in str(fault.value)


def knows(store: Store) -> bool:
    with store.begin() as tx:
        return tx.get(PersonRow, "ada") is not None


def test_records_in_memory_are_there_on_every_thread_and_end_with_the_program() -> None:
    store = Store.open("sqlite:///:memory:")
    with store.begin() as tx:
        person_row(tx, "ada")
    with ThreadPoolExecutor(1) as another:
        assert another.submit(knows, store).result()
    store.close()
    assert not knows(Store.open("sqlite:///:memory:"))


@pytest.mark.postgres
def test_a_process_soon_learns_that_its_network_is_cut(server_url: str) -> None:
    where = make_url(server_url)
    network = Network(Path(str(where.query["host"])) / ".s.PGSQL.5432")
    engine = open_engine(f"postgresql://lamppost@127.0.0.1:{network.port}/{where.database}")
    with engine.connect() as connection, socket.socket(fileno=dup(_file_number(connection))) as wire:
        limits = (socket.TCP_KEEPIDLE, socket.TCP_KEEPINTVL, socket.TCP_KEEPCNT, socket.TCP_USER_TIMEOUT)
        assert [wire.getsockopt(socket.IPPROTO_TCP, each) for each in limits] == [4, 2, 2, 8_000]
    engine.dispose()
    network.close()


def _file_number(connection: Connection) -> int:
    driver = connection.connection.driver_connection
    assert driver is not None
    return int(driver.fileno())
