"""Change -> rows: one function for each kind of change."""

from typing import assert_never

from sqlalchemy import delete, select, update
from sqlalchemy.orm import Session as Transaction

from bot.conversation import changes as c
from bot.conversation.known import Marks
from bot.store.coaching import keep_coaching
from bot.store.plans import keep_session
from bot.store.privacy import erase
from bot.store.seen import forget
from bot.store.tables import BreakRow, ClearanceRow, EntryRow, FixedRow, FlagRow, HoldRow, PersonRow, WeightRow
from planning.terms.entry import Entry


def keep(tx: Transaction, who: str, change: c.Change) -> None:
    """Keep one *change* of *who*. `Replan` is the turn's work, since it needs `planning`."""
    forget(tx)
    match change:
        case c.AddEntry(entry=entry, place=place):
            tx.add(_entry_row(who, entry, place))
        case c.ReplaceEntries():
            _replace_entries(tx, who, change)
        case c.RaiseFlag():
            _raise_flag(tx, who, change)
        case c.ClearFlag():
            _clear_flags(tx, who, change)
        case c.RaiseHold(hold=hold):
            tx.add(HoldRow(who=who, codes=hold.codes, since=hold.since, from_id=hold.from_id))
        case c.LiftHolds():
            _lift_holds(tx, who, change)
        case c.StartBreak(pause=pause, from_id=from_id):
            last, ill, fever = pause.last, pause.ill, pause.fever
            tx.add(BreakRow(who=who, first=pause.first, last=last, ill=ill, fever=fever, from_id=from_id))
        case c.EndBreaks():
            _end_breaks(tx, who, change)
        case c.Fix(fixed=fixed, from_id=from_id):
            tx.add(FixedRow(who=who, on=fixed.on, session=fixed.session, from_id=from_id))
            keep_session(tx, who, fixed.on, fixed.session)
        case c.NoteWeight(on=on, kg=kg, from_id=from_id):
            tx.add(WeightRow(who=who, on=on, kg=kg, from_id=from_id))
        case c.TakeBack(from_id=from_id):
            _take_back(tx, who, from_id)
        case c.Erase():
            erase(tx, who)
        case c.Replan():
            pass
        case (
            c.SendNotice()
            | c.SeeNotices()
            | c.PassNotices()
            | c.SetWaiting()
            | c.NoteClearance()
            | c.MakeCode()
            | c.UseCode()
        ):
            keep_coaching(tx, who, change)
        case c.MarkStale() | c.SetQuestion() | c.SetSnooze() | c.SetMarks() | c.KeepDraft() | c.KeepProfile():
            _keep_person(tx, who, change)
        case _:
            assert_never(change)
    tx.flush()


def _keep_person(
    tx: Transaction,
    who: str,
    change: c.MarkStale | c.SetQuestion | c.SetSnooze | c.SetMarks | c.KeepDraft | c.KeepProfile,
) -> None:
    row = person_row(tx, who)
    match change:
        case c.MarkStale():
            row.stale = True
        case c.SetQuestion(question=question):
            row.question = question
        case c.SetSnooze(snooze=snooze):
            row.snooze = snooze
        case c.SetMarks(marks=marks):
            row.marks = marks
        case c.KeepDraft(draft=draft):
            row.draft = draft
        case c.KeepProfile(profile=profile):
            row.profile, row.role, row.coach = profile, profile.role, profile.coach
            row.since = row.since or change.since
            row.consent_at = row.consent_at or change.consent_at
        case _:
            assert_never(change)


def person_row(tx: Transaction, who: str) -> PersonRow:
    """The row of *who*, made when there is none; whoever asks for it changes it."""
    forget(tx)
    row = tx.get(PersonRow, who)
    if row is None:
        row = PersonRow(who=who, marks=Marks(), stale=False, why=())
        tx.add(row)
        tx.flush()
    return row


def _entry_row(who: str, entry: Entry, place: int, kept_by: str | None = None) -> EntryRow:
    return EntryRow(
        who=who,
        on=entry.on,
        status=entry.status,
        kind=entry.kind,
        minutes=entry.minutes,
        km=entry.km,
        share=entry.share,
        effort=entry.effort,
        planned_on=entry.planned_on,
        from_id=entry.from_id or "",
        kept_by=kept_by or entry.from_id or "",
        place=place,
    )


def _replace_entries(tx: Transaction, who: str, change: c.ReplaceEntries) -> None:
    there = (EntryRow.who == who, EntryRow.planned_on == change.planned_on, EntryRow.gone_by.is_(None))
    tx.execute(update(EntryRow).where(*there).values(gone_by=change.from_id))
    for place, entry in enumerate(change.entries):
        tx.add(_entry_row(who, entry, place, change.from_id))


def _raise_flag(tx: Transaction, who: str, change: c.RaiseFlag) -> None:
    flag = change.flag
    tx.execute(
        update(FlagRow)
        .where(
            FlagRow.who == who,
            FlagRow.part == flag.part,
            FlagRow.side.is_not_distinct_from(flag.side),
            FlagRow.cleared_on.is_(None),
        )
        .values(cleared_on=flag.since, cleared_id=change.from_id)
    )
    side, colour, since = flag.side, flag.colour, flag.since
    tx.add(FlagRow(who=who, part=flag.part, side=side, colour=colour, since=since, from_id=change.from_id))


def _clear_flags(tx: Transaction, who: str, change: c.ClearFlag) -> None:
    tx.execute(
        update(FlagRow)
        .where(FlagRow.who == who, FlagRow.part == change.part, FlagRow.cleared_on.is_(None))
        .values(cleared_on=change.on, cleared_id=change.from_id)
    )


def _lift_holds(tx: Transaction, who: str, change: c.LiftHolds) -> None:
    held = tx.scalars(select(HoldRow).where(HoldRow.who == who, HoldRow.lifted_on.is_(None))).all()
    for row in held:
        row.lifted_on, row.lifted_by, row.lifted_id = change.on, change.by, change.from_id
    tx.execute(
        update(FlagRow)
        .where(FlagRow.who == who, FlagRow.cleared_on.is_(None), FlagRow.from_id.in_([row.from_id for row in held]))
        .values(cleared_on=change.on, cleared_id=change.from_id)
    )


def _end_breaks(tx: Transaction, who: str, change: c.EndBreaks) -> None:
    open_ones = select(BreakRow).where(BreakRow.who == who, BreakRow.last.is_(None) | (BreakRow.last > change.last))
    for row in tx.scalars(open_ones):
        row.meant_last, row.last, row.ended_id = row.last, max(row.first, change.last), change.from_id


def _take_back(tx: Transaction, who: str, from_id: str) -> None:
    tx.execute(delete(EntryRow).where(EntryRow.who == who, EntryRow.kept_by == from_id))
    tx.execute(update(EntryRow).where(EntryRow.who == who, EntryRow.gone_by == from_id).values(gone_by=None))
    for table in (FlagRow, BreakRow, FixedRow, WeightRow, ClearanceRow):
        tx.execute(delete(table).where(table.who == who, table.from_id == from_id))
    tx.execute(
        update(FlagRow)
        .where(FlagRow.who == who, FlagRow.cleared_id == from_id)
        .values(cleared_on=None, cleared_id=None)
    )
    tx.execute(
        update(HoldRow)
        .where(HoldRow.who == who, HoldRow.lifted_id == from_id)
        .values(lifted_on=None, lifted_by=None, lifted_id=None)
    )
    tx.execute(
        update(BreakRow)
        .where(BreakRow.who == who, BreakRow.ended_id == from_id)
        .values(last=BreakRow.meant_last, meant_last=None, ended_id=None)
    )
