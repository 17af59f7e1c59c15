"""Two replies, the sweep and the coach at one person at once: what is kept is what some order of them keeps."""

import shutil
from itertools import permutations
from pathlib import Path

import pytest

from bot.store.unit import Store
from bot.turn import Turns
from tests.conftest import EVENING_BEFORE
from tests.support.cluster import Cluster
from tests.support.people import ada, kim
from tests.support.racing import Actor, News, OneByOne, prepare, race, rows, serially
from tests.support.wire import OnTheWire, url_of

Order = tuple[Actor, ...]
Rows = dict[str, list[tuple[object, ...]]]

ORDERS = list(permutations(Actor))
EVERY = 4
"""One order in so many is tried each time, all of them at night."""


def tried(place: int) -> object:
    order = ORDERS[place]
    marks = () if place % EVERY == 0 else (pytest.mark.nightly,)
    return pytest.param(order, marks=marks, id="-".join(each.name.lower() for each in order))


IN_ORDER = pytest.mark.parametrize("order", [tried(place) for place in range(len(ORDERS))])
WAYS = pytest.mark.parametrize("kind", [Turns, OneByOne], ids=["together", "one-by-one"])


class Serial:
    """What each order keeps when nothing is done at once."""

    def __init__(self, start: Path, folder: Path) -> None:
        self.start, self.folder = start, folder
        self.found: dict[Order, Rows] = {}

    def of(self, order: Order) -> Rows:
        if order not in self.found:
            url = url_of(Path(shutil.copy(self.start, self.folder / "serial.sqlite3")))
            serially(url, order)
            self.found[order] = rows(url)
        return self.found[order]

    def has(self, kept: Rows, likely: Order) -> bool:
        """Whether some order keeps that; the *likely* one is tried first."""
        return any(self.of(order) == kept for order in (likely, *ORDERS))


@pytest.fixture(scope="module")
def file_start(templates: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Ada in two chats and her coach, on her first Wednesday."""
    path = Path(shutil.copy(templates / "started.sqlite3", tmp_path_factory.mktemp("races")))
    prepare(OnTheWire(Store.open(url_of(path))))
    return path


@pytest.fixture(scope="module")
def serial(file_start: Path, tmp_path_factory: pytest.TempPathFactory) -> Serial:
    return Serial(file_start, tmp_path_factory.mktemp("serial"))


@pytest.fixture(scope="module")
def server_start(cluster: Cluster) -> str:
    """The name of a database with the same on a server."""
    run = OnTheWire.at(cluster.url(cluster.create("blank", "races")), ada(), kim())
    run.feed({"at": EVENING_BEFORE})
    prepare(run)
    return "races"


@WAYS
@IN_ORDER
def test_in_a_file_what_happens_at_once_is_kept_as_in_some_order(
    file_start: Path, serial: Serial, tmp_path: Path, order: Order, kind: type[Turns]
) -> None:
    url = url_of(Path(shutil.copy(file_start, tmp_path)))
    met = race(url, order, kind)
    assert serial.has(rows(url), order)
    assert set(met) == {News.WAITS}


@pytest.mark.postgres
@WAYS
@IN_ORDER
def test_on_a_server_what_happens_at_once_is_kept_as_in_some_order(
    server_start: str, cluster: Cluster, serial: Serial, order: Order, kind: type[Turns]
) -> None:
    name = cluster.create(server_start)
    met = race(cluster.url(name), order, kind)
    kept = rows(cluster.url(name))
    cluster.drop(name)
    assert serial.has(kept, order)
    assert set(met) <= {News.AWAY, News.WAITS}


def test_it_matters_who_is_first(serial: Serial) -> None:
    found = [serial.of(order) for order in ORDERS[::EVERY]]
    assert all(one != other for place, one in enumerate(found) for other in found[:place])
