"""What was looked up about people, until it is changed: a turn asks several times, and a file has one writer.

On a file it is kept from turn to turn, as long as nobody else has written: the file itself counts what others commit.
On a server any process may write at any time, so that nothing outlives its transaction there.
"""

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import Any

from sqlalchemy import bindparam, select
from sqlalchemy.orm import Session as Transaction

from bot.conversation.known import Hold
from bot.store.tables import PersonRow
from planning.progress.weight import Weighing
from planning.terms.entry import Break, Entry, Flag
from planning.terms.plan import Session, Strength

MOST = 1_000
"""People of whom something is kept from turn to turn; those who were not met for the longest time go first."""

_PEOPLE = select(PersonRow).where(PersonRow.who.in_(bindparam("whos", expanding=True)))
_MEMORY, _SEEN, _ROWS = "memory", "seen", "rows"


class Part(StrEnum):
    """What is looked up by itself; each is named as its field."""

    SESSIONS = "sessions"
    STRENGTH = "strength"
    ENTRIES = "entries"
    WEIGHTS = "weights"
    FLAGS = "flags"
    HOLDS = "holds"
    BREAKS = "breaks"
    DUES = "dues"
    ADDRESSES = "addresses"


_PARTS = tuple(part.value for part in Part)

OF_A_DAY = (Part.SESSIONS, Part.STRENGTH, Part.ENTRIES)
"""Looked up around one local day."""


@dataclass(frozen=True, slots=True)
class DueLine:
    """A line of what falls due: kind, local date, how often put off, UTC instant."""

    kind: str
    on: date
    ordinal: int
    at: datetime


@dataclass(slots=True)
class Seen:
    """What was looked up of one person; None: not yet, or changed since. *day*: the local day that they were at."""

    day: date | None = None
    sessions: tuple[Session, ...] | None = None
    strength: tuple[tuple[Strength, ...], ...] | None = None
    entries: tuple[Entry, ...] | None = None
    weights: tuple[Weighing, ...] | None = None
    flags: tuple[Flag, ...] | None = None
    holds: tuple[Hold, ...] | None = None
    breaks: tuple[Break, ...] | None = None
    dues: tuple[DueLine, ...] | None = None
    addresses: tuple[tuple[str, str], ...] | None = None
    """Door and chat where they were met, the last one first."""

    def turn_to(self, day: date) -> None:
        """What was looked up around another local day is of no use."""
        if self.day != day:
            self.drop(OF_A_DAY)
            self.day = day

    def is_whole(self) -> bool:
        """Whether nothing is left to be looked up."""
        return all(getattr(self, part) is not None for part in _PARTS)

    def drop(self, parts: tuple[Part, ...]) -> None:
        """These were changed."""
        for part in parts:
            setattr(self, part, None)


class Memory:
    """What outlives a transaction on a file."""

    def __init__(self) -> None:
        """Nothing is known."""
        self.people: OrderedDict[str, Seen] = OrderedDict()
        self.count: tuple[object, int] | None = None

    def look(self, tx: Transaction) -> None:
        """Drop all of it if somebody else has written since it was kept."""
        driver: Any = tx.connection().connection.driver_connection
        count = (driver, driver.execute("PRAGMA data_version").fetchone()[0])
        if count != self.count:
            self.people.clear()
            self.count = count

    def keep(self, seen: Mapping[str, Seen]) -> None:
        """What a transaction knew when it was kept."""
        for who, each in seen.items():
            self.people[who] = each
            self.people.move_to_end(who)
        while len(self.people) > MOST:
            self.people.popitem(last=False)


def begin(tx: Transaction, memory: Memory | None) -> None:
    """A transaction begins. *memory* None: nothing is known from before it."""
    tx.info[_MEMORY], tx.info[_SEEN] = memory, None


def keep(tx: Transaction) -> None:
    """The transaction was kept, and with it what it knew."""
    memory, known = tx.info.get(_MEMORY), tx.info.get(_SEEN)
    if memory is not None and known:
        memory.keep(known)


def seen(tx: Transaction, who: str) -> Seen:
    """What was looked up of *who*; to be filled where something is missing."""
    known = _known(tx)
    if who not in known:
        memory = tx.info.get(_MEMORY)
        before = memory.people.get(who) if memory is not None else None
        known[who] = Seen() if before is None else copy(before)
    return known[who]


def _known(tx: Transaction) -> dict[str, Seen]:
    known: dict[str, Seen] | None = tx.info.get(_SEEN)
    if known is None:
        known = tx.info[_SEEN] = {}
        if (memory := tx.info.get(_MEMORY)) is not None:
            memory.look(tx)
    return known


def person(tx: Transaction, who: str) -> PersonRow | None:
    """The row of *who*, None for a stranger. It stays loaded, since a turn asks for it again and again."""
    rows: dict[str, PersonRow] = tx.info.setdefault(_ROWS, {})
    row = rows.get(who) or tx.get(PersonRow, who)
    if row is not None:
        rows[who] = row
    return row


def persons(tx: Transaction, whos: Sequence[str]) -> tuple[PersonRow, ...]:
    """The rows of those of *whos* who are no strangers, by one question; they stay loaded."""
    rows = tx.scalars(_PEOPLE, {"whos": whos}).all()
    tx.info.setdefault(_ROWS, {}).update({row.who: row for row in rows})
    return tuple(rows)


def forget(tx: Transaction, who: str, *parts: Part) -> None:
    """These parts of *who* are changed: whoever asks next has to look again."""
    seen(tx, who).drop(parts)


def forget_all(tx: Transaction) -> None:
    """Anything may have changed."""
    if (memory := tx.info.get(_MEMORY)) is not None:
        memory.people.clear()
    tx.info[_SEEN], tx.info[_ROWS] = {}, {}
