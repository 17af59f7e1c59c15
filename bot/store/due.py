"""What falls due: at most one row for each person and kind, found by an index on the instant."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import BindParameter, Row, bindparam, delete, insert, select, update
from sqlalchemy.orm import Session as Transaction

from bot.conversation.agenda import ORDER, Appointment
from bot.conversation.events import Due, DueKind
from bot.store.locks import hold, hold_some, hold_times, is_free
from bot.store.plain import plain
from bot.store.seen import DueLine, Part, forget, seen
from bot.store.tables import DUE, PersonRow


@dataclass(frozen=True, slots=True)
class Claim:
    """Something that fell due: for whom, what, and the instant that it was due at."""

    who: str
    due: Due
    at: datetime


_WHO: BindParameter[str] = bindparam("whom")
_IN_ORDER = (DUE.c.at, DUE.c.rank, DUE.c.who)
_EARLIEST = select(DUE.c.id, DUE.c.who).where(DUE.c.at <= bindparam("until")).order_by(*_IN_ORDER).limit(1)
_FREE = select(DUE).where(DUE.c.at <= bindparam("now"), is_free(DUE.c.held_until)).order_by(*_IN_ORDER)
# Of several who ask at one time each gets other rows.
_DUE = _FREE.limit(bindparam("most")).with_for_update(skip_locked=True)
_ROW = select(DUE).where(DUE.c.id == bindparam("row"))
_LINES = select(DUE).where(DUE.c.who == _WHO).order_by(DUE.c.id)
_NEW = insert(DUE)
_GONE = delete(DUE).where(DUE.c.who == _WHO, DUE.c.kind == bindparam("old_kind"))
_MOVED = (
    update(DUE)
    .where(DUE.c.who == _WHO, DUE.c.kind == bindparam("old_kind"))
    .values(on=bindparam("new_on"), ordinal=bindparam("new_ordinal"), at=bindparam("new_at"), held_until=None)
)


def next_claim(tx: Transaction, until: datetime) -> Claim | None:
    """The earliest thing due at or before *until*; its row is gone when this transaction is kept."""
    while (found := plain(tx).execute(_EARLIEST, {"until": until}).first()) is not None:
        claim = take(tx, found.id, found.who, until)
        if claim is not None:
            return claim
    return None


def take(tx: Transaction, row_id: int, who: str, until: datetime) -> Claim | None:
    """What one row says, in a turn of *who*; None if somebody else did it or it was put off beyond *until*."""
    hold(tx, who)
    row = plain(tx).execute(_ROW, {"row": row_id}).first()
    return None if row is None or row.at > until else _taken(tx, [row])[0]


def take_some(tx: Transaction, now: datetime, most: int) -> tuple[Claim, ...]:
    """Up to *most* things that are due, in order, each of another person of whom nobody else has a turn just now.

    Their rows are gone when this transaction is kept; nobody else gets them before it ends.
    """
    first: dict[str, Row[Any]] = {}
    for row in plain(tx).execute(_DUE, {"most": most, **hold_times(now)}):
        first.setdefault(row.who, row)
    held = hold_some(tx, list(first))
    return tuple(_taken(tx, [row for who, row in first.items() if who in held]))


def _taken(tx: Transaction, rows: list[Row[Any]]) -> list[Claim]:
    if rows:
        plain(tx).execute(delete(DUE).where(DUE.c.id.in_([row.id for row in rows])))
    for row in rows:
        forget(tx, row.who, Part.DUES)
    return [Claim(row.who, Due(DueKind(row.kind), row.on, row.ordinal, row.at), row.at) for row in rows]


def claim_some(tx: Transaction, now: datetime, lease: timedelta, most: int) -> tuple[tuple[int, str], ...]:
    """Row numbers and people of up to *most* things that are due, in order; no other process gets them for a *lease*.

    Each still has to be taken, in a transaction of its own.
    """
    rows = plain(tx).execute(_DUE, {"most": most, **hold_times(now)}).all()
    plain(tx).execute(update(DUE).where(DUE.c.id.in_([row.id for row in rows])).values(held_until=now + lease))
    return tuple((row.id, row.who) for row in rows)


def set_agenda(
    tx: Transaction, who: str, appointments: Iterable[Appointment], kept_until: datetime | None = None
) -> None:
    """The person's next appointments become these. Rows due by *kept_until* stay as they are."""
    there = {each.kind: each for each in _lines(tx, who)}
    stay = {kind for kind, line in there.items() if kept_until is not None and line.at <= kept_until}
    wanted = {kind: there[kind] for kind in stay}
    for each in appointments:
        line = DueLine(each.due.kind.value, each.due.on, each.due.ordinal, each.at)
        wanted.setdefault(line.kind, line)
    for kind in there.keys() - wanted.keys():
        plain(tx).execute(_GONE, {"whom": who, "old_kind": kind})
    new = [_row(who, line) for kind, line in wanted.items() if kind not in there]
    if new:
        plain(tx).execute(_NEW, new)
    for kind, line in wanted.items():
        if kind in there and there[kind] != line:
            moved = {"new_on": line.on, "new_ordinal": line.ordinal, "new_at": line.at}
            plain(tx).execute(_MOVED, {"whom": who, "old_kind": kind, **moved})
    seen(tx, who).dues = tuple(wanted.values())


def _lines(tx: Transaction, who: str) -> tuple[DueLine, ...]:
    known = seen(tx, who).dues
    if known is None:
        known = tuple(map(line_of, plain(tx).execute(_LINES, {"whom": who})))
    return known


def line_of(row: Row[Any]) -> DueLine:
    """The line that a row keeps."""
    return DueLine(row.kind, row.on, row.ordinal, row.at)


def _row(who: str, line: DueLine) -> dict[str, object]:
    rank = ORDER[DueKind(line.kind)]
    return {"who": who, "kind": line.kind, "on": line.on, "ordinal": line.ordinal, "at": line.at, "rank": rank}


def unstarted(tx: Transaction) -> tuple[str, ...]:
    """Everybody who was enrolled before the clock had started, in order."""
    wanted = select(PersonRow.who).where(PersonRow.profile.is_not(None), PersonRow.since.is_(None))
    return tuple(tx.scalars(wanted.order_by(PersonRow.who)))
