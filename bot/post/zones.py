"""Governments change their clocks at short notice: with new time zone data all future due times are computed anew."""

from datetime import datetime

from bot.store import inbox, people
from bot.store.unit import Store
from bot.turn.held_up import renew

AT_ONCE = 10
"""People whose due times are computed in one step; in between messages are answered."""


class ZoneWatch:
    """Brings the due times to the zone data of this process, a few people at a time."""

    def __init__(self, store: Store, version: str) -> None:
        """*version*: of the zone data that this process has."""
        self.store, self.version = store, version
        self.after: str | None = None
        self.finished = False

    def step(self, now: datetime) -> bool:
        """A few people more. False: there is nothing to do."""
        if self.finished:
            return False
        if self.after is None:
            return self._begin()
        with self.store.begin() as tx:
            names = people.enrolled_after(tx, self.after, AT_ONCE)
            if not names:
                inbox.set_zones(tx, self.version)
        for who in names:
            with self.store.begin() as tx:
                renew(tx, who, now)
            self.after = who
        self.finished = not names
        return True

    def _begin(self) -> bool:
        with self.store.begin() as tx:
            self.finished = inbox.zones(tx) == self.version
        self.after = ""
        return not self.finished
