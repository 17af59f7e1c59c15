"""What is logged: events with keys from a fixed list. No text of a person, no name, no part of a body."""

import logging
import sys

LOG = logging.getLogger("lamppost")

OTHERS = ("websockets", "asyncio", "apscheduler", "alembic", "sqlalchemy")
"""Libraries whose own logs may quote what somebody wrote, or a token."""


def note(event: str, *, row: int, fault: str) -> None:
    """Log that something of ours went wrong: the event, the number of the row, the type of the fault."""
    LOG.error("event=%s row=%d fault=%s", event, row, fault)


def tell(event: str, *, what: str = "", count: int = 0) -> None:
    """Log that something of ours happened. *what*: a name of ours, as that of a door."""
    LOG.info("event=%s what=%s count=%d", event, what, count)


def to_standard_error() -> None:
    """Write one line for each event; nothing of other libraries."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
    LOG.addHandler(handler)
    LOG.setLevel(logging.INFO)
    LOG.propagate = False
    for name in OTHERS:
        logger = logging.getLogger(name)
        logger.addHandler(logging.NullHandler())
        logger.propagate = False
        logger.setLevel(logging.CRITICAL + 1)
