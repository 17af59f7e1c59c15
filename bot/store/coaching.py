"""Between runners and coaches: who belongs to whom, grave messages until somebody has seen them, clearances."""

from typing import assert_never

from sqlalchemy import ColumnElement, select, update
from sqlalchemy.orm import Session as Transaction

from bot.conversation import changes as c
from bot.conversation.known import Notice, Peer
from bot.store import invites
from bot.store.seen import person
from bot.store.tables import ClearanceRow, NoticeRow, PersonRow
from planning.terms.choices import Role


def keep_coaching(tx: Transaction, who: str, change: c.Coaching) -> None:
    """Keep one *change* of *who* that has to do with coaches."""
    match change:
        case c.SendNotice():
            _send_notice(tx, who, change)
        case c.SeeNotices(runners=runners, at=at):
            seen = update(NoticeRow).where(_unseen(who), NoticeRow.who.in_(runners))
            tx.execute(seen.values(seen_at=at, seen_by=who))
        case c.PassNotices(runners=runners, to=to):
            passed = update(NoticeRow).where(_unseen(who), NoticeRow.who.in_(runners))
            tx.execute(passed.values(passed_to=to))
        case c.SetWaiting(since=since):
            tx.execute(update(PersonRow).where(PersonRow.who == who).values(waiting_since=since))
        case c.NoteClearance(on=on, by=by, told_by=told_by, from_id=from_id):
            tx.add(ClearanceRow(who=who, on=on, by=by, told_by=told_by, from_id=from_id))
        case c.MakeCode(mark=mark, role=role, at=at):
            invites.make(tx, mark, who, role, at)
        case c.UseCode(mark=mark, at=at):
            invites.use(tx, mark, at)
        case _:
            assert_never(change)


def _send_notice(tx: Transaction, who: str, change: c.SendNotice) -> None:
    """Keep that a message led to a grave one; one line for each message, whatever stood in it."""
    known = select(NoticeRow.id).where(NoticeRow.who == who, NoticeRow.from_id == change.message)
    if tx.scalars(known).first() is None:
        tx.add(NoticeRow(who=who, coach=change.coach, at=change.at, from_id=change.message))


def _unseen(who: str) -> ColumnElement[bool]:
    return NoticeRow.seen_at.is_(None) & ((NoticeRow.coach == who) | (NoticeRow.passed_to == who))


def notices_to(tx: Transaction, who: str) -> tuple[Notice, ...]:
    """Grave messages to the coach *who*, or passed on to them, that nobody has seen, oldest first."""
    found = tx.scalars(select(NoticeRow).where(_unseen(who)).order_by(NoticeRow.at, NoticeRow.id))
    return tuple(Notice(row.who, row.coach, row.at, row.from_id, row.passed_to) for row in found)


def runners_of(tx: Transaction, coach: str) -> tuple[str, ...]:
    """Everybody whose profile names that *coach*, in order."""
    return tuple(tx.scalars(select(PersonRow.who).where(PersonRow.coach == coach).order_by(PersonRow.who)))


def peers_of(tx: Transaction, coach: str) -> tuple[Peer, ...]:
    """All other coaches, in order."""
    others = select(PersonRow.who).where(PersonRow.role == Role.COACH, PersonRow.who != coach)
    return tuple(Peer(who, called(tx, who)) for who in tx.scalars(others.order_by(PersonRow.who)))


def called(tx: Transaction, who: str) -> str:
    """What *who* is called, by name if they said one."""
    row = person(tx, who)
    return (row.profile.called if row and row.profile else "") or who
