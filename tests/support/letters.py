"""Messages in and out, and instants, as the store tests need them. All of it is invented."""

from datetime import UTC, datetime, timedelta

from bot.messages import Incoming
from bot.store.outbox import Letter, NewButton

START = datetime(2026, 3, 2, 7, 0, tzinfo=UTC)


def at(minutes: float = 0) -> datetime:
    """So many minutes after Monday, 2 March 2026, 7:00 UTC."""
    return START + timedelta(minutes=minutes)


def incoming(name: str = "u-1", text: str = "done", *, who: str = "ada", door: str = "wire") -> Incoming:
    """A private text."""
    return Incoming(door, name, who, who, at(), text)


def letter(key: str = "k-1", text: str = "Hello", *, who: str = "ada", buttons: int = 0) -> Letter:
    """A message that waits to be sent, with so many buttons."""
    shown = tuple(NewButton(f"Label {place}", f"text {place}", None) for place in range(buttons))
    return Letter("wire", who, who, at(), text, '{"kind": "small"}', key, shown)
