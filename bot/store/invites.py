"""Codes that invite somebody: kept as hashes, used once, good for two weeks; guessing is slowed down."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from hashlib import sha256

from sqlalchemy import delete, func, select, update
from sqlalchemy.orm import Session as Transaction

from bot.store.tables import AttemptRow, InviteRow
from planning.terms.choices import Role

GOOD_FOR = timedelta(days=14)
AN_HOUR = timedelta(hours=1)
MOST_WRONG = 5
"""Wrong codes an hour from one sender; from then on right ones don't open anything either."""
MOST_WRONG_AT_ONE_DOOR = 50


@dataclass(frozen=True, slots=True)
class Invitation:
    """What a code opens: a role, and for a runner their coach."""

    mark: str
    role: Role
    coach: str | None


def made_so_far(tx: Transaction) -> int:
    """How many codes were made."""
    return tx.scalar(select(func.count()).select_from(InviteRow)) or 0


def is_made(tx: Transaction, mark: str) -> bool:
    """Whether a code with this *mark* was given out."""
    return tx.get(InviteRow, mark) is not None


def make(tx: Transaction, mark: str, who: str | None, role: Role, at: datetime | None) -> None:
    """Keep a code as its *mark*. *who*: the coach who gave it; *at* None: before the clock has started."""
    tx.add(InviteRow(mark=mark, who=who, role=role, made_at=at))
    tx.flush()


def start_clock(tx: Transaction, at: datetime) -> None:
    """Codes made before the clock had started count from here."""
    tx.execute(update(InviteRow).where(InviteRow.made_at.is_(None)).values(made_at=at))


def use(tx: Transaction, mark: str, at: datetime) -> None:
    """The code opens nothing more."""
    tx.execute(update(InviteRow).where(InviteRow.mark == mark).values(used_at=at))


def look_up(tx: Transaction, mark: str, door: str, sender: str, at: datetime) -> Invitation | None:
    """What the code with this *mark* opens for *sender*; None for a wrong, used or old one, or after too many wrong
    ones: nobody can tell which. A wrong one is counted.
    """
    tx.execute(delete(AttemptRow).where(AttemptRow.at <= at - AN_HOUR))
    mine, all_here = _hashed(door, sender), _hashed(door)
    slowed = _count(tx, mine) >= MOST_WRONG or _count(tx, all_here) >= MOST_WRONG_AT_ONE_DOOR
    row = tx.get(InviteRow, mark)
    opens = row is not None and row.used_at is None and (row.made_at is None or at < row.made_at + GOOD_FOR)
    if row is None or slowed or not opens:
        tx.add_all((AttemptRow(mark=mine, at=at), AttemptRow(mark=all_here, at=at)))
        tx.flush()
        return None
    return Invitation(mark, Role(row.role), row.who)


def _count(tx: Transaction, mark: str) -> int:
    return tx.scalar(select(func.count()).select_from(AttemptRow).where(AttemptRow.mark == mark)) or 0


def _hashed(*parts: str) -> str:
    return sha256("\n".join(parts).encode()).hexdigest()
