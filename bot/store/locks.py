"""Who may change what at one time. A file has one writer, so there is nothing to do; a server has many.

A turn of a runner holds that runner, and shares the coach's team with the turns of the other runners; a turn of a
coach has the whole team for itself. All of it ends with the transaction.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta

from sqlalchemy import Column, ColumnElement, TextClause, bindparam, func, or_, select, text
from sqlalchemy.orm import Session as Transaction

from bot.store.engine import POSTGRES
from bot.store.seen import forget_all
from bot.store.tables import PersonRow
from planning.terms.choices import Role

Place = tuple[str | None, str | None] | None
"""Role and coach of somebody; None: not known."""

_HELD = "held"

_FREE = "SELECT name FROM unnest(CAST(:names AS text[])) name WHERE {}(hashtextextended(name, 0))"
_TRY = text(_FREE.format("pg_try_advisory_xact_lock"))
_TRY_SHARED = text(_FREE.format("pg_try_advisory_xact_lock_shared"))


def has_many_writers(tx: Transaction) -> bool:
    """Whether other processes may write at the same time: on a server; a file has one writer at a time."""
    return tx.get_bind().dialect.name == POSTGRES


def hold(tx: Transaction, who: str) -> None:
    """Nobody else has a turn of *who* before this transaction ends. What was read before may be old."""
    if not has_many_writers(tx) or who in tx.info.get(_HELD, ()):
        return
    _look_again(tx)
    before, now = None, _place_of(tx, who)
    while before is None or now != before[0]:
        before = (now,)
        _hold_team(tx, who, now)
        hold_person(tx, who)
        now = _place_of(tx, who)
    tx.expire_all()


def hold_some(tx: Transaction, whos: Sequence[str]) -> frozenset[str]:
    """Those of *whos* of whom nobody else has a turn just now: from here on nobody has before this transaction ends.

    It waits for nobody, and of those whom it does not get it holds nothing that a turn in another process may wait for:
    so two processes never wait for each other.
    """
    if not has_many_writers(tx) or not whos:
        return frozenset(whos)
    _look_again(tx)
    before = _places_of(tx, whos)
    own = _tried(tx, _TRY, {name for who in whos for name in _own(who, before.get(who))})
    shared = _tried(tx, _TRY_SHARED, {name for who in whos for name in _shared(before.get(who))})
    free = [
        who
        for who in whos
        if own.issuperset(_own(who, before.get(who))) and shared.issuperset(_shared(before.get(who)))
    ]
    persons = _tried(tx, _TRY, set(map(_person, free)))
    after = _places_of(tx, whos)
    tx.expire_all()
    held = frozenset(who for who in free if _person(who) in persons and before.get(who) == after.get(who))
    tx.info[_HELD] = held
    return held


def _own(who: str, place: Place) -> tuple[str, ...]:
    """The team that a turn of *who* has for itself."""
    return (_team(who),) if place is not None and place[0] == Role.COACH else ()


def _shared(place: Place) -> tuple[str, ...]:
    """What a turn shares with the turns of others."""
    role, coach = place or (None, None)
    return () if role == Role.COACH or coach is None else (_team(coach),)


def _tried(tx: Transaction, statement: TextClause, names: set[str]) -> set[str]:
    """Those of *names* that were free."""
    return set(tx.scalars(statement, {"names": sorted(names)})) if names else set()


def hold_person(tx: Transaction, who: str) -> None:
    """Nobody else writes down what falls due for *who* before this transaction ends."""
    if has_many_writers(tx) and who not in tx.info.get(_HELD, ()):
        tx.execute(select(func.pg_advisory_xact_lock(_number(_person(who)))))


def _hold_team(tx: Transaction, who: str, place: Place) -> None:
    for name in _own(who, place):
        tx.execute(select(func.pg_advisory_xact_lock(_number(name))))
    for name in _shared(place):
        tx.execute(select(func.pg_advisory_xact_lock_shared(_number(name))))


LONGEST_HOLD = timedelta(hours=1)
"""Nothing is held for longer: what seems to be was written while the clock stood wrong."""


def is_free(held_until: Column[datetime | None]) -> ColumnElement[bool]:
    """Whether nobody is at a row; to be asked with `hold_times`."""
    return or_(held_until.is_(None), held_until <= bindparam("now"), held_until > bindparam("longest"))


def hold_times(now: datetime) -> dict[str, datetime]:
    """The instants that `is_free` compares with."""
    return {"now": now, "longest": now + LONGEST_HOLD}


def hold_upgrade(tx: Transaction) -> None:
    """Only one process at a time changes the tables, however long it takes."""
    if has_many_writers(tx):
        tx.execute(select(func.set_config("statement_timeout", "0", True), func.set_config("lock_timeout", "0", True)))
        tx.execute(select(func.pg_advisory_xact_lock(_number("upgrade"))))


def _look_again(tx: Transaction) -> None:
    tx.flush()
    forget_all(tx)


def _place_of(tx: Transaction, who: str) -> Place:
    row = tx.execute(select(PersonRow.role, PersonRow.coach).where(PersonRow.who == who)).one_or_none()
    return None if row is None else (row.role, row.coach)


def _places_of(tx: Transaction, whos: Sequence[str]) -> dict[str, Place]:
    wanted = select(PersonRow.who, PersonRow.role, PersonRow.coach).where(PersonRow.who.in_(whos))
    return {who: (role, coach) for who, role, coach in tx.execute(wanted)}


def _person(who: str) -> str:
    return f"person {who}"


def _team(coach: str) -> str:
    return f"team {coach}"


def _number(name: str) -> object:
    return func.hashtextextended(name, 0)
