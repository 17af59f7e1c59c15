"""Building the running program; the only file that knows every room."""

from pathlib import Path

from platformdirs import user_data_dir

from bot.post.desk import Desk
from bot.store.unit import Store
from bot.turn.coaching import Draw, by_chance


def default_url() -> str:
    """The records in the user's data folder, which is made when it isn't there, open to nobody else."""
    folder = Path(user_data_dir("lamppost", appauthor=False))
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    return f"sqlite:///{folder / 'lamppost.sqlite3'}"


def open_desk(url: str, door: str, draw: Draw = by_chance) -> Desk:
    """The desk on the records at *url*. Raises `StoreError`."""
    return Desk(Store.open(url), door, draw)
