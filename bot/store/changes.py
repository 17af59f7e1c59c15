"""Change -> rows: one function for each kind of change. What was looked up of the person is forgotten with it."""

from dataclasses import replace
from datetime import date
from typing import Any, assert_never

from sqlalchemy import Column, bindparam, case, delete, insert, select, update
from sqlalchemy.orm import Session as Transaction

from bot.conversation import changes as c
from bot.conversation.known import Marks
from bot.store.coaching import keep_coaching
from bot.store.plain import plain
from bot.store.plans import keep_session
from bot.store.privacy import erase
from bot.store.seen import Part, forget, person, seen
from bot.store.tables import BREAK, CLEARANCE, ENTRY, FIXED, FLAG, HOLD, WEIGHT, PersonRow
from planning.terms.entry import Entry, Flag

TOLD = (Part.ENTRIES, Part.FLAGS, Part.HOLDS, Part.BREAKS, Part.WEIGHTS)
"""Parts that a person's own messages fill, and that taking one back changes."""


def keep(tx: Transaction, who: str, change: c.Change) -> None:
    """Keep one *change* of *who*. `Replan` is the turn's work, since it needs `planning`."""
    match change:
        case c.AddEntry() | c.ReplaceEntries():
            _keep_entries(tx, who, change)
        case c.RaiseFlag():
            _raise_flag(tx, who, change)
        case c.ClearFlag():
            _clear_flags(tx, who, change)
        case c.RaiseHold(hold=hold):
            forget(tx, who, Part.HOLDS)
            plain(tx).execute(
                insert(HOLD), {"who": who, "codes": hold.codes, "since": hold.since, "from_id": hold.from_id}
            )
        case c.LiftHolds():
            _lift_holds(tx, who, change)
        case c.StartBreak() | c.EndBreaks():
            _keep_break(tx, who, change)
        case c.Fix(fixed=fixed, from_id=from_id):
            plain(tx).execute(insert(FIXED), {"who": who, "on": fixed.on, "session": fixed.session, "from_id": from_id})
            keep_session(tx, who, fixed.on, fixed.session)
        case c.NoteWeight(on=on, kg=kg, from_id=from_id):
            forget(tx, who, Part.WEIGHTS)
            plain(tx).execute(insert(WEIGHT), {"who": who, "on": on, "kg": kg, "from_id": from_id})
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
    row = person(tx, who)
    if row is None:
        row = PersonRow(who=who, marks=Marks(), stale=False, why=())
        tx.add(row)
        tx.flush()
    return row


_ADD = insert(ENTRY)
_REPLACED = (
    update(ENTRY)
    .where(ENTRY.c.who == bindparam("whose"), ENTRY.c.planned_on == bindparam("day"), ENTRY.c.gone_by.is_(None))
    .values(gone_by=bindparam("gone"))
)


def _keep_entries(tx: Transaction, who: str, change: c.AddEntry | c.ReplaceEntries) -> None:
    """Keep entries, and remember them as they would be read back: what is logged most often is not looked up again."""
    known = seen(tx, who).entries
    if isinstance(change, c.AddEntry):
        rows = [_entry_row(who, change.entry, change.place)]
        added: tuple[Entry, ...] = (change.entry,)
    else:
        plain(tx).execute(_REPLACED, {"whose": who, "day": change.planned_on, "gone": change.from_id})
        rows = [_entry_row(who, entry, place, change.from_id) for place, entry in enumerate(change.entries)]
        added = change.entries
        known = known and tuple(each for each in known if each.planned_on != change.planned_on)
    for row in rows:
        plain(tx).execute(_ADD, row)
    if known is not None:
        read_back = (replace(each, from_id=each.from_id or "") for each in added)
        seen(tx, who).entries = tuple(sorted((*known, *read_back), key=lambda each: each.on))


def _entry_row(who: str, entry: Entry, place: int, kept_by: str | None = None) -> dict[str, object]:
    return {
        "who": who,
        "on": entry.on,
        "status": entry.status,
        "kind": entry.kind,
        "minutes": entry.minutes,
        "km": entry.km,
        "share": entry.share,
        "effort": entry.effort,
        "planned_on": entry.planned_on,
        "from_id": entry.from_id or "",
        "kept_by": kept_by or entry.from_id or "",
        "place": place,
    }


_FLAG = insert(FLAG)
_FLAG_ENDED = (
    update(FLAG)
    .where(
        FLAG.c.who == bindparam("whose"),
        FLAG.c.part == bindparam("of_part"),
        FLAG.c.side.is_not_distinct_from(bindparam("of_side")),
        FLAG.c.cleared_on.is_(None),
    )
    .values(cleared_on=bindparam("ended"), cleared_id=bindparam("by"))
)


def _raise_flag(tx: Transaction, who: str, change: c.RaiseFlag) -> None:
    """Keep a flag in place of the one that was open, and remember both as they would be read back."""
    flag, known = change.flag, seen(tx, who)
    if known.flags is not None:
        flag = replace(flag, cleared_on=None)
        before = (_ended(each, flag.since) if _is_same(each, flag) else each for each in known.flags)
        known.flags = (*before, flag)
    same = {"whose": who, "of_part": flag.part, "of_side": flag.side}
    plain(tx).execute(_FLAG_ENDED, {**same, "ended": flag.since, "by": change.from_id})
    about = {"part": flag.part, "side": flag.side, "colour": flag.colour, "since": flag.since}
    plain(tx).execute(_FLAG, {"who": who, **about, "from_id": change.from_id})


def _is_same(one: Flag, other: Flag) -> bool:
    return (one.part, one.side, one.cleared_on) == (other.part, other.side, None)


def _ended(flag: Flag, on: date) -> Flag:
    return replace(flag, cleared_on=on)


def _clear_flags(tx: Transaction, who: str, change: c.ClearFlag) -> None:
    forget(tx, who, Part.FLAGS)
    there = (FLAG.c.who == who, FLAG.c.part == change.part, FLAG.c.cleared_on.is_(None))
    plain(tx).execute(update(FLAG).where(*there).values(cleared_on=change.on, cleared_id=change.from_id))


def _lift_holds(tx: Transaction, who: str, change: c.LiftHolds) -> None:
    forget(tx, who, Part.HOLDS, Part.FLAGS)
    standing = (HOLD.c.who == who, HOLD.c.lifted_on.is_(None))
    raised_by = plain(tx).scalars(select(HOLD.c.from_id).where(*standing)).all()
    lifted = {"lifted_on": change.on, "lifted_by": change.by, "lifted_id": change.from_id}
    plain(tx).execute(update(HOLD).where(*standing).values(**lifted))
    flags = update(FLAG).where(FLAG.c.who == who, FLAG.c.cleared_on.is_(None), FLAG.c.from_id.in_(raised_by))
    plain(tx).execute(flags.values(cleared_on=change.on, cleared_id=change.from_id))


def _keep_break(tx: Transaction, who: str, change: c.StartBreak | c.EndBreaks) -> None:
    forget(tx, who, Part.BREAKS)
    if isinstance(change, c.StartBreak):
        pause = change.pause
        about = {"first": pause.first, "last": pause.last, "ill": pause.ill, "fever": pause.fever}
        plain(tx).execute(insert(BREAK), {"who": who, **about, "from_id": change.from_id})
        return
    open_ones = (BREAK.c.who == who, BREAK.c.last.is_(None) | (BREAK.c.last > change.last))
    # Days off that begin later are over on their first day.
    last = case((BREAK.c.first > change.last, BREAK.c.first), else_=bindparam("over", change.last, BREAK.c.last.type))
    plain(tx).execute(
        update(BREAK).where(*open_ones).values(meant_last=BREAK.c.last, last=last, ended_id=change.from_id)
    )


def _take_back(tx: Transaction, who: str, from_id: str) -> None:
    forget(tx, who, *TOLD)
    plain(tx).execute(delete(ENTRY).where(ENTRY.c.who == who, ENTRY.c.kept_by == from_id))
    for table in (FLAG, BREAK, FIXED, WEIGHT, CLEARANCE):
        plain(tx).execute(delete(table).where(table.c.who == who, table.c.from_id == from_id))
    back: dict[Column[Any], dict[str, Any]] = {
        ENTRY.c.gone_by: {"gone_by": None},
        FLAG.c.cleared_id: {"cleared_on": None, "cleared_id": None},
        HOLD.c.lifted_id: {"lifted_on": None, "lifted_by": None, "lifted_id": None},
        BREAK.c.ended_id: {"last": BREAK.c.meant_last, "meant_last": None, "ended_id": None},
    }
    for column, values in back.items():
        plain(tx).execute(update(column.table).where(column.table.c.who == who, column == from_id).values(**values))
