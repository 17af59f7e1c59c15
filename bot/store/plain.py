"""Statements on tables that no mapped object stands for, past all that only those need: a turn has a dozen of them."""

from sqlalchemy import Connection
from sqlalchemy.orm import Session as Transaction

_CONNECTION = "connection"


def plain(tx: Transaction) -> Connection:
    """The connection beneath *tx*. What was changed in mapped objects, those of people above all, may wait yet: whoever
    asks for that asks *tx*, which writes it first; else it is written with the commit, for many people at once.
    """
    found: Connection | None = tx.info.get(_CONNECTION)
    if found is None:
        found = tx.info[_CONNECTION] = tx.connection()
    return found
