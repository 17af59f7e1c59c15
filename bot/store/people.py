"""Rows -> Known: what the conversation needs of one person."""

from datetime import datetime, timedelta

from sqlalchemy import Select, select
from sqlalchemy.orm import Session as Transaction

from bot.conversation.known import Hold, Known, Team, Whole
from bot.store.coaching import notices_to, peers_of, runners_of
from bot.store.plans import find_plan, sessions_between, strength_from
from bot.store.seen import recall, remember
from bot.store.tables import BreakRow, EntryRow, FixedRow, FlagRow, HoldRow, PersonRow, WeightRow
from planning.calendar import local
from planning.progress.weight import Weighing
from planning.terms.choices import Activity, Colour, Part, Role, Side
from planning.terms.entry import Break, Entry, Fixed, Flag, History, Status

BACK = timedelta(weeks=9)
"""Sessions this far back: the four weeks before the last four, for what changed since."""

AHEAD = timedelta(days=21)
LOGGED = timedelta(weeks=14)
"""Entries this far back are looked at: twelve steady weeks open more room when time is scarce."""


def find_known(tx: Transaction, who: str, now: datetime) -> Known:
    """What is known of *who* at *now*; of a stranger nothing but the name."""
    return recall(tx, who, now) or remember(tx, now, _look_up(tx, who, now))


def _look_up(tx: Transaction, who: str, now: datetime) -> Known:
    row = tx.get(PersonRow, who)
    if row is None:
        return Known(who)
    if row.profile is None:
        return Known(who, draft=row.draft, question=row.question)
    today = local(now, row.profile.tz).date()
    return Known(
        who,
        profile=row.profile,
        since=row.since,
        sessions=sessions_between(tx, who, today - BACK, today + AHEAD),
        strength=strength_from(tx, who, today - timedelta(days=today.weekday())),
        entries=tuple(map(entry_of, tx.scalars(_entries(who).where(EntryRow.on >= today - LOGGED)))),
        weights=_weights(tx, who) if row.profile.weight_talk else (),
        flags=tuple(map(flag_of, tx.scalars(select(FlagRow).where(FlagRow.who == who).order_by(FlagRow.id)))),
        holds=tuple(map(hold_of, tx.scalars(_open_holds(who)))),
        breaks=tuple(map(break_of, tx.scalars(select(BreakRow).where(BreakRow.who == who).order_by(BreakRow.id)))),
        question=row.question,
        snooze=row.snooze,
        marks=row.marks,
        stale=row.stale,
        why=row.why,
        last_id=row.last_id,
        waiting_since=row.waiting_since,
        notices=notices_to(tx, who) if row.profile.role is Role.COACH else (),
    )


def enrolled_after(tx: Transaction, who: str, most: int) -> tuple[str, ...]:
    """Up to *most* people by name, beginning behind *who*; "": from the first on."""
    wanted = select(PersonRow.who).where(
        PersonRow.who > who, PersonRow.profile.is_not(None), PersonRow.since.is_not(None)
    )
    return tuple(tx.scalars(wanted.order_by(PersonRow.who).limit(most)))


def find_team(tx: Transaction, coach: str, now: datetime) -> Team:
    """What the *coach* may see of their own runners; nobody else's turn may ask for it."""
    return Team(tuple(find_known(tx, who, now) for who in runners_of(tx, coach)), peers_of(tx, coach))


def find_whole(tx: Transaction, who: str) -> Whole | None:
    """The whole plan of *who* and all that happened; None without a plan."""
    plan = find_plan(tx, who)
    return None if plan is None else Whole(plan, history_of(tx, who))


def _weights(tx: Transaction, who: str) -> tuple[Weighing, ...]:
    wanted = select(WeightRow).where(WeightRow.who == who).order_by(WeightRow.on, WeightRow.id)
    return tuple(Weighing(row.on, row.kg) for row in tx.scalars(wanted))


def history_of(tx: Transaction, who: str) -> History:
    """All that really happened, for making the plan anew."""
    flags = tx.scalars(select(FlagRow).where(FlagRow.who == who).order_by(FlagRow.id))
    breaks = tx.scalars(select(BreakRow).where(BreakRow.who == who).order_by(BreakRow.first, BreakRow.id))
    fixed = tx.scalars(select(FixedRow).where(FixedRow.who == who).order_by(FixedRow.id))
    latest = {row.on: Fixed(row.on, row.session) for row in fixed}
    return History(
        entries=tuple(map(entry_of, tx.scalars(_entries(who)))),
        flags=tuple(map(flag_of, flags)),
        breaks=tuple(map(break_of, breaks)),
        fixed=tuple(latest[on] for on in sorted(latest)),
    )


def _entries(who: str) -> Select[EntryRow]:
    there = (EntryRow.who == who, EntryRow.gone_by.is_(None))
    return select(EntryRow).where(*there).order_by(EntryRow.on, EntryRow.id)


def _open_holds(who: str) -> Select[HoldRow]:
    return select(HoldRow).where(HoldRow.who == who, HoldRow.lifted_on.is_(None)).order_by(HoldRow.id)


def entry_of(row: EntryRow) -> Entry:
    """The entry that a row keeps."""
    return Entry(
        on=row.on,
        status=Status(row.status),
        kind=Activity(row.kind) if row.kind else None,
        minutes=row.minutes,
        km=row.km,
        share=row.share,
        effort=row.effort,
        planned_on=row.planned_on,
        from_id=row.from_id,
    )


def flag_of(row: FlagRow) -> Flag:
    """The flag that a row keeps."""
    side = Side(row.side) if row.side else None
    return Flag(Part(row.part), side, Colour(row.colour), row.since, row.cleared_on)


def hold_of(row: HoldRow) -> Hold:
    """The hold that a row keeps."""
    return Hold(row.codes, row.since, row.from_id)


def break_of(row: BreakRow) -> Break:
    """The break that a row keeps."""
    return Break(row.first, row.last, row.ill, row.fever)
