"""Who may change what at one time. A file has one writer, so there is nothing to do; a server has many.

A turn of a runner holds that runner, and shares the coach's team with the turns of the other runners; a turn of a
coach has the whole team for itself. All of it ends with the transaction.
"""

from datetime import datetime, timedelta

from sqlalchemy import ColumnElement, Row, func, or_, select
from sqlalchemy.orm import InstrumentedAttribute
from sqlalchemy.orm import Session as Transaction

from bot.store.engine import POSTGRES
from bot.store.seen import forget
from bot.store.tables import PersonRow
from planning.terms.choices import Role

Place = Row[str | None, str | None] | None


def has_many_writers(tx: Transaction) -> bool:
    """Whether other processes may write at the same time: on a server; a file has one writer at a time."""
    return tx.get_bind().dialect.name == POSTGRES


def hold(tx: Transaction, who: str) -> None:
    """Nobody else has a turn of *who* before this transaction ends. What was read before may be old."""
    if not has_many_writers(tx):
        return
    tx.flush()
    forget(tx)
    before, now = None, _place_of(tx, who)
    while before is None or now != before[0]:
        before = (now,)
        _hold_team(tx, who, now)
        hold_person(tx, who)
        now = _place_of(tx, who)
    tx.expire_all()


def hold_person(tx: Transaction, who: str) -> None:
    """Nobody else writes down what falls due for *who* before this transaction ends."""
    if has_many_writers(tx):
        tx.execute(select(func.pg_advisory_xact_lock(_number(f"person {who}"))))


def _hold_team(tx: Transaction, who: str, place: Place) -> None:
    role, coach = place or (None, None)
    if role == Role.COACH:
        tx.execute(select(func.pg_advisory_xact_lock(_number(f"team {who}"))))
    elif coach is not None:
        tx.execute(select(func.pg_advisory_xact_lock_shared(_number(f"team {coach}"))))


LONGEST_HOLD = timedelta(hours=1)
"""Nothing is held for longer: what seems to be was written while the clock stood wrong."""


def free_at(held_until: InstrumentedAttribute[datetime | None], now: datetime) -> ColumnElement[bool]:
    """Whether nobody is at a row."""
    return or_(held_until.is_(None), held_until <= now, held_until > now + LONGEST_HOLD)


def hold_upgrade(tx: Transaction) -> None:
    """Only one process at a time changes the tables, however long it takes."""
    if has_many_writers(tx):
        tx.execute(select(func.set_config("statement_timeout", "0", True), func.set_config("lock_timeout", "0", True)))
        tx.execute(select(func.pg_advisory_xact_lock(_number("upgrade"))))


def _place_of(tx: Transaction, who: str) -> Place:
    return tx.execute(select(PersonRow.role, PersonRow.coach).where(PersonRow.who == who)).one_or_none()


def _number(name: str) -> object:
    return func.hashtextextended(name, 0)
