"""Building the running program; the only file that knows every room."""

from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from platformdirs import user_data_dir

from bot.post.desk import Desk
from bot.store.unit import Store
from bot.turn import Turns
from bot.turn.coaching import Draw, by_chance

if TYPE_CHECKING:
    from bot.clock.system import SystemClock
    from bot.ports import ServedDoor
    from bot.post.serving import Serving
    from bot.settings import Settings


def default_url() -> str:
    """The records in the user's data folder, which is made when it isn't there, open to nobody else."""
    folder = Path(user_data_dir("lamppost", appauthor=False))
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    return f"sqlite:///{folder / 'lamppost.sqlite3'}"


def open_desk(url: str, door: str, draw: Draw = by_chance) -> Desk:
    """The desk on the records at *url*. Raises `StoreError`."""
    return Desk(Store.open(url), door, draw)


class NoDoor(Exception):
    """No door is set up."""


def open_serving(store: Store, settings: "Settings") -> "Serving":
    """All that `serve` runs on *store*. Has to be called in the loop that will run it. Raises `NoDoor`."""
    from bot.clock.system import SystemClock
    from bot.clock.zones import zone_data_version
    from bot.post.clerk import Clerk
    from bot.post.serving import Serving
    from bot.post.zones import ZoneWatch

    clock = SystemClock()
    doors = _doors(settings, clock)
    if not doors:
        raise NoDoor
    zones = ZoneWatch(store, zone_data_version())
    lease = timedelta(seconds=settings.lease_seconds)
    clerk = Clerk(store, Turns(store, doors[0].name, by_chance, settings.most_a_minute), clock, zones, lease)
    return Serving(store, clerk, clock, doors, timedelta(seconds=settings.takeover_seconds))


def _doors(settings: "Settings", clock: "SystemClock") -> "tuple[ServedDoor, ...]":
    from bot.doors.wire_socket import Access, WireSocket

    if settings.wire is None or settings.wire_token is None:
        return ()
    host, _, port = settings.wire.rpartition(":")
    access = Access(host.strip("[]"), int(port), settings.wire_token.get_secret_value(), settings.wire_origins)
    return (WireSocket(access, clock, alone=settings.wire_alone),)
