"""The tables and their migrations agree, and records that can't be used are refused in one line."""

from pathlib import Path

import pytest
from alembic.script import ScriptDirectory
from sqlalchemy import text

from bot.store.engine import open_engine
from bot.store.errors import NewerRecords, NoRecords, StoreError
from bot.store.migrations.run import configuration, known_versions
from bot.store.unit import Store
from bot.store.upgrade import HEAD, version_of
from tests.support.released import differences
from tests.support.wire import url_of


def test_the_tables_are_those_of_the_migrations(store: Store) -> None:
    assert differences(store.engine) == []


def test_the_head_is_the_newest_migration() -> None:
    assert ScriptDirectory.from_config(configuration()).get_heads() == [HEAD]
    folder = Path(configuration().get_main_option("script_location") or "") / "versions"
    assert max(path.name for path in folder.glob("m*.py")).startswith(f"m{HEAD}_")


def test_new_records_get_the_newest_version(tmp_path: Path) -> None:
    engine = open_engine(url_of(tmp_path / "new.sqlite3"))
    assert version_of(engine) is None
    Store.open(url_of(tmp_path / "new.sqlite3")).close()
    assert version_of(engine) == HEAD


def test_opening_again_changes_nothing(blank_url: str) -> None:
    path = Path(blank_url.removeprefix("sqlite:///"))
    before = path.read_bytes()
    Store.open(blank_url).close()
    assert path.read_bytes() == before


def test_records_of_a_newer_version_are_refused(blank_url: str) -> None:
    with open_engine(blank_url).begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(NewerRecords, match="9999") as refused:
        Store.open(blank_url)
    assert len(str(refused.value).splitlines()) == 1
    assert "9999" not in known_versions()


def no_folder(folder: Path) -> str:
    return url_of(folder / "not" / "there.sqlite3")


def a_folder(folder: Path) -> str:
    return url_of(folder)


def no_database(folder: Path) -> str:
    path = folder / "text.sqlite3"
    path.write_text("This is a diary, and no database.\n" * 100, encoding="utf-8")
    return url_of(path)


def another_program(folder: Path) -> str:
    path = folder / "other.sqlite3"
    with open_engine(url_of(path)).begin() as connection:
        connection.execute(text("CREATE TABLE person (name TEXT)"))
    return url_of(path)


def no_url(_folder: Path) -> str:
    return "lamppost.sqlite3"


def no_such_database(_folder: Path) -> str:
    return "nosuch://here"


def empty(_folder: Path) -> str:
    return ""


BAD = (no_folder, a_folder, no_database, another_program, no_url, no_such_database, empty)


@pytest.mark.parametrize("place", BAD, ids=lambda each: each.__name__)
def test_a_place_that_can_not_be_opened_is_one_line(tmp_path: Path, place: object) -> None:
    assert callable(place)
    with pytest.raises(StoreError) as refused:
        Store.open(place(tmp_path))
    assert isinstance(refused.value, NoRecords)
    assert len(str(refused.value).splitlines()) == 1


def test_an_upgrade_that_fails_leaves_nothing_behind(tmp_path: Path) -> None:
    url = another_program(tmp_path)
    with pytest.raises(StoreError):
        Store.open(url)
    with open_engine(url).connect() as connection:
        found = connection.scalars(text("SELECT name FROM sqlite_master WHERE type = 'table'")).all()
    assert found == ["person"]
