"""What falls due: at most one row for each person and kind, found by an index on the instant."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import delete, select
from sqlalchemy.orm import Session as Transaction

from bot.conversation.agenda import ORDER, Appointment
from bot.conversation.events import Due, DueKind
from bot.store.locks import hold
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


def set_agenda(tx: Transaction, who: str, appointments: Iterable[Appointment]) -> None:
    """The person's next appointments become these."""
    tx.execute(delete(DueRow).where(DueRow.who == who))
    for each in appointments:
        due = each.due
        tx.add(DueRow(who=who, kind=due.kind, on=due.on, ordinal=due.ordinal, at=each.at, rank=ORDER[due.kind]))


def unstarted(tx: Transaction) -> tuple[str, ...]:
    """Everybody who was enrolled before the clock had started, in order."""
    wanted = select(PersonRow.who).where(PersonRow.profile.is_not(None), PersonRow.since.is_(None))
    return tuple(tx.scalars(wanted.order_by(PersonRow.who)))
