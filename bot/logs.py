"""What is logged: events with keys from a fixed list. No text of a person, no name, no part of a body."""

import logging

LOG = logging.getLogger("lamppost")


def note(event: str, *, row: int, fault: str) -> None:
    """Log that something of ours went wrong: the event, the number of the row, the type of the fault."""
    LOG.error("event=%s row=%d fault=%s", event, row, fault)
