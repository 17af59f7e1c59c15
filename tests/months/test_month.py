"""A month of one invented runner on the wire: the same bytes on each run, in this process and in one of its own."""

import json
import shutil
from collections import Counter
from pathlib import Path

import pytest

from bot.doors.wire import DOOR, Wire
from bot.post.desk import Desk
from bot.store.tables import Base
from bot.store.unit import Store
from tests.support.people import ada, kim
from tests.support.shell import bot
from tests.support.wire import OnTheWire, dump, url_of

LINES = Path(__file__).with_name("month.jsonl").read_text(encoding="utf-8")


def played(url: str) -> list[str]:
    """What the month brings out on these records, line by line."""
    out: list[str] = []
    store = Store.open(url)
    Wire(Desk(store, DOOR), out.append).run(LINES.splitlines())
    store.close()
    return out


@pytest.fixture(scope="module")
def month(templates: Path, tmp_path_factory: pytest.TempPathFactory) -> tuple[list[str], Path]:
    """The lines of one run, and the records after it."""
    path = Path(shutil.copy(templates / "enrolled.sqlite3", tmp_path_factory.mktemp("month")))
    return played(url_of(path)), path


Month = tuple[list[str], Path]


def test_a_second_run_is_the_same_byte_for_byte(month: Month, templates: Path, tmp_path: Path) -> None:
    path = Path(shutil.copy(templates / "enrolled.sqlite3", tmp_path))
    assert played(url_of(path)) == month[0]
    assert dump(Store.open(url_of(path))) == dump(Store.open(url_of(month[1])))


@pytest.mark.servers
def test_a_process_of_its_own_writes_the_same_bytes(month: Month, tmp_path: Path) -> None:
    people, url = tmp_path / "people.json", url_of(tmp_path / "own.sqlite3")
    people.write_text(json.dumps([ada(), kim()]), encoding="utf-8")
    assert bot("enrol", "--db", url, str(people)).returncode == 0
    run = bot("wire", "--db", url, said=LINES)
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.splitlines() == month[0]


@pytest.mark.postgres
def test_a_server_writes_the_same_bytes_as_a_file(month: Month, server_url: str) -> None:
    OnTheWire.at(server_url, ada(), kim()).store.close()
    assert played(server_url) == month[0]
    assert kept(server_url) == kept(url_of(month[1]))


def kept(url: str) -> dict[str, list[tuple[object, ...]]]:
    """Every row without its number, which a file gives out again."""
    store = Store.open(url)
    found = dump(store)
    store.close()
    numbered = {table.name for table in Base.metadata.sorted_tables if "id" in table.columns}
    return {name: sorted((row[name in numbered :] for row in rows), key=repr) for name, rows in found.items()}


def test_feeding_the_month_again_adds_nothing(month: Month, tmp_path: Path) -> None:
    run = OnTheWire(Store.open(url_of(Path(shutil.copy(month[1], tmp_path)))))
    before = run.data()
    assert [each for each in run.feed(*LINES.splitlines()) if "error" not in each] == []
    assert run.data() == before


def test_each_line_is_done_and_none_is_an_error(month: Month) -> None:
    told = [json.loads(line) for line in month[0]]
    assert [each for each in told if "error" in each] == []
    assert [each["done"] for each in told if "done" in each] == [
        line.get("id", line["at"]) for line in map(json.loads, LINES.splitlines())
    ]


def test_no_answer_says_that_something_went_wrong(month: Month) -> None:
    kinds = Counter(json.loads(line).get("about", {}).get("kind") for line in month[0])
    assert kinds["error"] == kinds["not_read"] == kinds["stranger"] == 0
    assert {"today", "logged", "triage", "rescue", "urgent", "notice", "cleared", "break", "moved"} <= kinds.keys()


def test_no_planned_day_is_sent_twice(month: Month) -> None:
    told = [json.loads(line) for line in month[0]]
    pushes = Counter(
        each["at"][:10]
        for each in told
        if each.get("about", {}).get("kind") == "today" and "facts" not in each["about"]
    )
    put_off = {"2026-03-06"}
    assert {day: count for day, count in pushes.items() if count > 1 and day not in put_off} == {}


def test_times_never_go_back_but_for_danger_that_overtakes(month: Month) -> None:
    told = [each for each in map(json.loads, month[0]) if "at" in each]
    instants = [each["at"] for each in told if each["about"]["kind"] not in ("urgent", "care", "notice")]
    assert instants == sorted(instants)


def test_the_whole_log_is_there(month: Month) -> None:
    entries = OnTheWire(Store.open(url_of(month[1]))).data()["entries"]
    done = [each for each in entries if each["status"] == "done"]  # type: ignore[attr-defined]
    assert len(done) >= 8
    assert all(each["from_id"].startswith("u-") for each in done)
