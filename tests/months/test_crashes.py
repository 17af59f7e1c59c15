"""A scripted week with the process dying at every commit: equal to the same week without any fault."""

import json
import shutil
from pathlib import Path

import pytest

from bot.store.unit import Store
from tests.support.faults import Crash, When, dying
from tests.support.people import ada, kim
from tests.support.wire import OnTheWire, dump, url_of

WEEK = [json.loads(line) for line in Path(__file__).with_name("week.jsonl").read_text(encoding="utf-8").splitlines()]


@pytest.fixture(scope="module")
def copies(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The records before each line of the week without faults, and after the last one."""
    folder = tmp_path_factory.mktemp("week")
    path = folder / "run.sqlite3"
    OnTheWire.on(path, ada(), kim()).store.close()
    for place, line in enumerate([*WEEK, None]):
        shutil.copy(path, folder / f"{place}.sqlite3")
        if line is not None:
            run = OnTheWire(Store.open(url_of(path)))
            run.feed(line)
            run.store.close()
    return folder


def written(run: OnTheWire) -> dict[str, object]:
    return {str(each["id"]): each for each in run.out if "id" in each}


Seen = tuple[dict[str, object], object]


def once_without_faults(copies: Path, place: int, path: Path) -> Seen:
    shutil.copy(copies / f"{place}.sqlite3", path)
    run = OnTheWire(Store.open(url_of(path)))
    run.feed(WEEK[place])
    return written(run), dump(run.store)


def once_with_a_crash(copies: Path, place: int, path: Path, at: int, when: When) -> Seen | None:
    """The same line with a death at the *at*-th commit, taken up again by a new process; None: no commit is left."""
    shutil.copy(copies / f"{place}.sqlite3", path)
    store, out = dying(url_of(path), at, when), []
    try:
        OnTheWire(store, out).feed(WEEK[place])
    except Crash:
        store.close()
        second = OnTheWire(Store.open(url_of(path)), out)
        second.feed(WEEK[place])
        return written(second), dump(second.store)
    return None


def crash_everywhere(copies: Path, folder: Path, place: int, when: When, step: int) -> int:
    """Die at every *step*-th commit of a line, beginning with one that differs from line to line; how often it died."""
    expected = once_without_faults(copies, place, folder / "twin.sqlite3")
    at, died = 1 + place % step, 0
    while (found := once_with_a_crash(copies, place, folder / f"{at}.sqlite3", at, when)) is not None:
        assert found == expected, f"line {place + 1}, commit {at}, {when.value}"
        at, died = at + step, died + 1
    return died


@pytest.mark.parametrize("place", range(len(WEEK)))
def test_a_crash_at_some_commits_changes_nothing(copies: Path, tmp_path: Path, place: int) -> None:
    when = list(When)[place % 2]
    assert crash_everywhere(copies, tmp_path, place, when, step=4) >= 1, "the faults did not happen"


@pytest.mark.nightly
@pytest.mark.parametrize("when", list(When))
@pytest.mark.parametrize("place", range(len(WEEK)))
def test_a_crash_at_every_commit_changes_nothing(copies: Path, tmp_path: Path, place: int, when: When) -> None:
    assert crash_everywhere(copies, tmp_path, place, when, step=1) >= 3, "the faults did not happen"
