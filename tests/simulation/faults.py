"""What goes wrong: a process dies at a commit or while sending; a message comes twice. From one seed, counted."""

from collections import Counter
from collections.abc import Callable
from random import Random
from sqlite3 import Connection

from sqlalchemy import Engine, event
from sqlalchemy.orm import Session

from bot.store.engine import open_engine
from bot.store.unit import Store
from tests.support.faults import Crash

BEFORE_COMMIT, AFTER_COMMIT = "died before a commit", "died after a commit that it did not see"
BEFORE_SEND, AFTER_SEND = "died before sending", "died between sending and marking"
DOUBLED, SWITCHED = "a message came twice", "another process went on"

NASTY = (BEFORE_COMMIT, AFTER_COMMIT, BEFORE_SEND, AFTER_SEND, DOUBLED, SWITCHED)
"""What has to have happened, or nothing was proved."""


def without_sync(connection: Connection, _record: object) -> None:
    """Processes die here, not machines: what was committed outlives them without a sync."""
    connection.execute("PRAGMA synchronous=OFF")


class Fate:
    """Draws what happens. *chance*: of each fault at each place where it can happen."""

    def __init__(self, seed: int, chance: float) -> None:
        self.random, self.chance = Random(f"fate {seed}"), chance
        self.happened: Counter[str] = Counter()
        self.engines: dict[int, Engine] = {}

    def befalls(self, what: str, weight: float = 1.0) -> bool:
        """Whether it happens here; it is counted. *weight*: so many times as often as other things."""
        hit = self.random.random() < self.chance * weight
        self.happened[what] += hit
        return hit

    def store(self, url: str, place: int = 0) -> "ShakyStore":
        """Records whose process, one of those at *place*, may die at each commit."""
        opened = ShakyStore(self._engine(url, place))
        opened.fate = self
        return opened

    def _engine(self, url: str, place: int) -> Engine:
        """One for all processes of a place: statements are put into words once, connections die with a process."""
        if place not in self.engines:
            self.engines[place] = open_engine(url)
            event.listen(self.engines[place], "connect", without_sync)
        return self.engines[place]

    def around(self, send: Callable[[], None]) -> None:
        """Send, or die before it or after it."""
        if self.befalls(BEFORE_SEND):
            raise Crash
        send()
        if self.befalls(AFTER_SEND):
            raise Crash


class ShakyStore(Store):
    """Dies now and then."""

    fate: Fate

    def commit(self, tx: Session) -> None:
        if self.fate.befalls(BEFORE_COMMIT):
            raise Crash
        super().commit(tx)
        if self.fate.befalls(AFTER_COMMIT):
            raise Crash
