"""What falls due: at most one row for each person and kind, found by an index on the instant."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import select
from sqlalchemy.orm import Session as Transaction

from bot.conversation.agenda import ORDER, Appointment
from bot.conversation.events import Due, DueKind
from bot.store.locks import free_at, hold
from bot.store.tables import DueRow, PersonRow


@dataclass(frozen=True, slots=True)
class Claim:
    """Something that fell due: for whom, what, and the instant that it was due at."""

    who: str
    due: Due
    at: datetime


def next_claim(tx: Transaction, until: datetime) -> Claim | None:
    """The earliest thing due at or before *until*; its row is gone when this transaction is kept."""
    wanted = select(DueRow.id, DueRow.who).where(DueRow.at <= until).order_by(DueRow.at, DueRow.rank, DueRow.who)
    while (found := tx.execute(wanted.limit(1)).first()) is not None:
        claim = take(tx, found.id, found.who, until)
        if claim is not None:
            return claim
    return None


def take(tx: Transaction, row_id: int, who: str, until: datetime) -> Claim | None:
    """What one row says, in a turn of *who*; None if somebody else did it or it was put off beyond *until*."""
    hold(tx, who)
    row = tx.get(DueRow, row_id)
    if row is None or row.at > until:
        return None
    tx.delete(row)
    tx.flush()
    return Claim(row.who, Due(DueKind(row.kind), row.on, row.ordinal, row.at), row.at)


def claim_some(tx: Transaction, now: datetime, lease: timedelta, most: int) -> tuple[tuple[int, str], ...]:
    """Row numbers and people of up to *most* things that are due, in order; no other process gets them for a *lease*.

    Each still has to be taken, in a transaction of its own.
    """
    free = free_at(DueRow.held_until, now)
    wanted = select(DueRow).where(DueRow.at <= now, free).order_by(DueRow.at, DueRow.rank, DueRow.who).limit(most)
    rows = tx.scalars(wanted.with_for_update(skip_locked=True)).all()
    for row in rows:
        row.held_until = now + lease
    return tuple((row.id, row.who) for row in rows)


def set_agenda(
    tx: Transaction, who: str, appointments: Iterable[Appointment], kept_until: datetime | None = None
) -> None:
    """The person's next appointments become these. Rows due by *kept_until* stay as they are."""
    rows = {row.kind: row for row in tx.scalars(select(DueRow).where(DueRow.who == who))}
    kept = {kind for kind, row in rows.items() if kept_until is not None and row.at <= kept_until}
    wanted = {each.due.kind.value: each for each in appointments if each.due.kind not in kept}
    for kind, row in rows.items():
        if kind not in wanted and kind not in kept:
            tx.delete(row)
    for kind, each in wanted.items():
        known = rows.get(kind)
        if known is None:
            rank = ORDER[each.due.kind]
            tx.add(DueRow(who=who, kind=kind, on=each.due.on, ordinal=each.due.ordinal, at=each.at, rank=rank))
        elif (known.on, known.ordinal, known.at) != (each.due.on, each.due.ordinal, each.at):
            known.on, known.ordinal, known.at, known.held_until = each.due.on, each.due.ordinal, each.at, None


def unstarted(tx: Transaction) -> tuple[str, ...]:
    """Everybody who was enrolled before the clock had started, in order."""
    wanted = select(PersonRow.who).where(PersonRow.profile.is_not(None), PersonRow.since.is_(None))
    return tuple(tx.scalars(wanted.order_by(PersonRow.who)))
