"""One seed, run twice: as it should go, and with two processes that die all the time. What is kept must be the same."""

import shutil
from collections import Counter
from pathlib import Path

from bot.store.unit import Store
from tests.simulation.faults import DOUBLED, SWITCHED, Fate
from tests.simulation.world import World, world
from tests.support.faults import Crash
from tests.support.wire import Json, OnTheWire, dump, url_of

CHANCE = 0.015
OFTEN = 12
"""Messages that come twice or to another process are common, deaths are rare."""


class Processes:
    """Two processes on the same records; one that dies is followed by another. *out*: all that was written."""

    def __init__(self, url: str, fate: Fate) -> None:
        self.url, self.fate = url, fate
        self.out: list[Json] = []
        self.both: list[OnTheWire | None] = [None, None]

    def _process(self, place: int) -> OnTheWire:
        found = self.both[place]
        if found is None:
            found = OnTheWire(self.fate.store(self.url, place), self.out)
            plain = found.wire.write
            found.wire.write = lambda line: self.fate.around(lambda: plain(line))
            self.both[place] = found
        return found

    def feed(self, line: Json) -> None:
        """The line, sent again until it is done, as a sender does; sometimes once more than that."""
        times = 2 if self.fate.befalls(DOUBLED, OFTEN) else 1
        while times:
            place = int(self.fate.befalls(SWITCHED, OFTEN))
            try:
                self._process(place).feed(line)
                times -= 1
            except Crash:
                self._bury(place)

    def _bury(self, place: int) -> None:
        dead = self.both[place]
        if dead is not None:
            dead.store.close()
        self.both[place] = None
        try:
            self._process(place)
        except Crash:
            self.both[place] = None

    def close(self) -> None:
        """All processes end."""
        for each in self.both:
            if each is not None:
                each.store.close()


def plainly(story: World, url: str) -> list[Json]:
    """What is written when nothing goes wrong."""
    run = OnTheWire(Fate(0, 0.0).store(url))
    run.feed(*story.lines)
    run.store.close()
    return run.out


def messages(out: list[Json]) -> dict[object, Json]:
    """All messages by their id. A second copy has to be the same message."""
    found: dict[object, Json] = {}
    for each in out:
        if "id" in each:
            assert found.setdefault(each["id"], each) == each, f"two messages have the id {each['id']}"
    return found


def kept(url: str) -> dict[str, list[tuple[object, ...]]]:
    """Every row."""
    store = Store.open(url)
    rows = dump(store)
    store.close()
    return rows


def play(seed: int, people: int, days: int, folder: Path) -> Counter[str]:
    """Run a seed both ways and compare; what went wrong, counted."""
    story, fate = world(seed, people, days), Fate(seed, CHANCE)
    plain, shaky = folder / f"{seed}-plain.sqlite3", folder / f"{seed}-shaky.sqlite3"
    story.enrolled(url_of(plain))
    shutil.copy(plain, shaky)
    expected = messages(plainly(story, url_of(plain)))
    processes = Processes(url_of(shaky), fate)
    for line in story.lines:
        processes.feed(line)
    processes.close()
    errors = [each for each in processes.out if "error" in each]
    assert errors == [], f"seed {seed}: {errors[:1]}"
    assert messages(processes.out) == expected, f"seed {seed}: other messages than without faults"
    assert kept(url_of(shaky)) == kept(url_of(plain)), f"seed {seed}: something else is kept than without faults"
    return fate.happened
