"""Plans in rows: a head, weeks, sessions. Answers read the rows near today; a new plan reads and writes all."""

from collections.abc import Iterable
from datetime import date, timedelta

from sqlalchemy import delete, insert, select
from sqlalchemy.orm import Session as Transaction

from bot.store.seen import forget
from bot.store.tables import PlanRow, SessionRow, WeekRow
from planning.terms.choices import Purpose, WeekKind
from planning.terms.plan import Plan, Session, Strength, Week


def sessions_between(tx: Transaction, who: str, first: date, last: date) -> tuple[Session, ...]:
    """Planned sessions from *first* to *last*, in order."""
    wanted = select(SessionRow).where(SessionRow.who == who, SessionRow.on >= first, SessionRow.on <= last)
    return tuple(map(_session_of, tx.scalars(wanted.order_by(SessionRow.on))))


def find_plan(tx: Transaction, who: str) -> Plan | None:
    """The whole plan, None if none was made."""
    head = tx.get(PlanRow, who)
    if head is None:
        return None
    weeks = tx.scalars(select(WeekRow).where(WeekRow.who == who).order_by(WeekRow.number)).all()
    sessions = tuple(
        map(_session_of, tx.scalars(select(SessionRow).where(SessionRow.who == who).order_by(SessionRow.on)))
    )
    return Plan(
        who=who,
        begin=head.begin,
        may_start=head.may_start,
        fits=head.fits,
        earliest_race=head.earliest_race,
        weeks=_with_sessions(weeks, sessions),
        race_day=head.race_day,
        warnings=head.warnings,
    )


def keep_plan(tx: Transaction, plan: Plan, before: Plan | None) -> None:
    """The plan becomes this one. *before*: the one that is kept now; rows that are the same stay as they are."""
    if plan == before:
        return
    forget(tx)
    tx.merge(
        PlanRow(
            who=plan.who,
            begin=plan.begin,
            may_start=plan.may_start,
            fits=plan.fits,
            earliest_race=plan.earliest_race,
            race_day=plan.race_day,
            warnings=plan.warnings,
        )
    )
    kept = {week.number: week for week in before.weeks} if before else {}
    changed = [week for week in plan.weeks if kept.get(week.number) != week]
    _drop_weeks(tx, plan.who, {week.number for week in changed} | (kept.keys() - {week.number for week in plan.weeks}))
    if changed:
        tx.execute(insert(WeekRow), [_week_row(plan.who, week) for week in changed])
    rows = [_session_values(plan.who, week.number, session) for week in changed for session in week.sessions]
    if rows:
        tx.execute(delete(SessionRow).where(SessionRow.who == plan.who, SessionRow.on.in_([row["on"] for row in rows])))
        tx.execute(insert(SessionRow), rows)
    tx.flush()
    tx.expire_all()


def _drop_weeks(tx: Transaction, who: str, numbers: set[int]) -> None:
    tx.execute(delete(WeekRow).where(WeekRow.who == who, WeekRow.number.in_(numbers)))
    tx.execute(delete(SessionRow).where(SessionRow.who == who, SessionRow.week.in_(numbers)))


def keep_session(tx: Transaction, who: str, day: date, session: Session | None) -> None:
    """The session of one day becomes this one, or none, before the plan is made anew around it."""
    forget(tx)
    row = tx.get(SessionRow, (who, day))
    if row is not None and session is None:
        tx.delete(row)
    if session is not None:
        before = select(WeekRow.number).where(WeekRow.who == who, WeekRow.monday <= day)
        number = tx.scalars(before.order_by(WeekRow.number.desc()).limit(1)).first()
        tx.merge(SessionRow(**_session_values(who, number or 0, session)))


def strength_from(tx: Transaction, who: str, monday: date) -> tuple[Strength, ...]:
    """The strength sessions of the week from *monday* and of the next one, in order."""
    last = monday + timedelta(days=7)
    weeks = select(WeekRow.strength).where(WeekRow.who == who, WeekRow.monday >= monday, WeekRow.monday <= last)
    return tuple(each for row in tx.scalars(weeks.order_by(WeekRow.monday)) for each in row)


def _with_sessions(weeks: Iterable[WeekRow], sessions: tuple[Session, ...]) -> tuple[Week, ...]:
    return tuple(
        Week(
            number=row.number,
            monday=row.monday,
            kind=WeekKind(row.kind),
            sessions=tuple(each for each in sessions if row.monday <= each.on <= row.monday + timedelta(days=6)),
            strength=row.strength,
        )
        for row in weeks
    )


def _week_row(who: str, week: Week) -> dict[str, object]:
    return {
        "who": who,
        "number": week.number,
        "monday": week.monday,
        "kind": week.kind.value,
        "strength": week.strength,
    }


def _session_values(who: str, number: int, session: Session) -> dict[str, object]:
    low, high = session.effort
    return {
        "who": who,
        "on": session.on,
        "week": number,
        "at": session.at,
        "purpose": session.purpose.value,
        "effort_low": low,
        "effort_high": high,
        "segments": session.segments,
        "after": session.after,
    }


def _session_of(row: SessionRow) -> Session:
    return Session(
        on=row.on,
        at=row.at,
        purpose=Purpose(row.purpose),
        effort=(row.effort_low, row.effort_high),
        segments=row.segments,
        after=row.after,
    )
