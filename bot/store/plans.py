"""Plans in rows: a head, weeks, sessions. Answers read the rows near today; a new plan reads and writes all."""

from collections.abc import Iterable
from datetime import date, timedelta
from typing import Any

from sqlalchemy import BindParameter, Row, bindparam, delete, insert, select, update
from sqlalchemy.orm import Session as Transaction

from bot.store.plain import plain
from bot.store.seen import Part, forget, seen
from bot.store.tables import PLAN, SESSION, WEEK
from planning.terms.choices import Purpose, WeekKind
from planning.terms.plan import Plan, Session, Week

_WHO: BindParameter[str] = bindparam("who")
_PLAN = select(PLAN).where(PLAN.c.who == _WHO)
_WEEKS = select(WEEK).where(WEEK.c.who == _WHO).order_by(WEEK.c.number)
_SESSIONS = select(SESSION).where(SESSION.c.who == _WHO).order_by(SESSION.c.on)
_CLEAR_DAYS = delete(SESSION).where(SESSION.c.who == _WHO, SESSION.c.on.in_(bindparam("days", expanding=True)))
_NUMBER = (
    select(WEEK.c.number)
    .where(WEEK.c.who == _WHO, WEEK.c.monday <= bindparam("day"))
    .order_by(WEEK.c.number.desc())
    .limit(1)
)


def find_plan(tx: Transaction, who: str) -> Plan | None:
    """The whole plan, None if none was made."""
    named = {"who": who}
    head = plain(tx).execute(_PLAN, named).first()
    if head is None:
        return None
    weeks = plain(tx).execute(_WEEKS, named).all()
    sessions = tuple(map(session_of, plain(tx).execute(_SESSIONS, named)))
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
    forget(tx, plan.who, Part.SESSIONS, Part.STRENGTH)
    _keep_head(tx, plan, before)
    kept = {week.number: week for week in before.weeks} if before else {}
    changed = [week for week in plan.weeks if kept.get(week.number) != week]
    _drop_weeks(tx, plan.who, {week.number for week in changed} | (kept.keys() - {week.number for week in plan.weeks}))
    if changed:
        plain(tx).execute(insert(WEEK), [_week_row(plan.who, week) for week in changed])
    rows = [_session_values(plan.who, week.number, session) for week in changed for session in week.sessions]
    if rows:
        plain(tx).execute(
            delete(SESSION).where(SESSION.c.who == plan.who, SESSION.c.on.in_([row["on"] for row in rows]))
        )
        plain(tx).execute(insert(SESSION), rows)


def _keep_head(tx: Transaction, plan: Plan, before: Plan | None) -> None:
    head = _head_of(plan)
    if before is None:
        plain(tx).execute(insert(PLAN).values(who=plan.who, **head))
    elif head != _head_of(before):
        plain(tx).execute(update(PLAN).where(PLAN.c.who == plan.who).values(**head))


def _head_of(plan: Plan) -> dict[str, object]:
    return {
        "begin": plan.begin,
        "may_start": plan.may_start,
        "fits": plan.fits,
        "earliest_race": plan.earliest_race,
        "race_day": plan.race_day,
        "warnings": plan.warnings,
    }


def _drop_weeks(tx: Transaction, who: str, numbers: set[int]) -> None:
    if numbers:
        plain(tx).execute(delete(WEEK).where(WEEK.c.who == who, WEEK.c.number.in_(numbers)))
        plain(tx).execute(delete(SESSION).where(SESSION.c.who == who, SESSION.c.week.in_(numbers)))


def keep_session(tx: Transaction, who: str, day: date, session: Session | None) -> None:
    """The session of one day becomes this one, or none, before the plan is made anew around it."""
    known = seen(tx, who)
    days = {day} if session is None else {day, session.on}
    plain(tx).execute(_CLEAR_DAYS, {"who": who, "days": sorted(days)})
    same_day = session is not None and any(each.on == day == session.on for each in known.sessions or ())
    known.sessions = known.sessions if same_day else None
    if session is not None:
        number = plain(tx).scalar(_NUMBER, {"who": who, "day": day})
        plain(tx).execute(insert(SESSION), _session_values(who, number or 0, session))
        known.sessions = known.sessions and tuple(session if each.on == day else each for each in known.sessions)


def _with_sessions(weeks: Iterable[Row[Any]], sessions: tuple[Session, ...]) -> tuple[Week, ...]:
    of_week: dict[date, list[Session]] = {}
    for each in sessions:
        of_week.setdefault(each.on - timedelta(days=each.on.weekday()), []).append(each)
    return tuple(
        Week(
            number=row.number,
            monday=row.monday,
            kind=WeekKind(row.kind),
            sessions=tuple(of_week.get(row.monday, ())),
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


def session_of(row: Row[Any]) -> Session:
    """The session that a row keeps."""
    return Session(
        on=row.on,
        at=row.at,
        purpose=Purpose(row.purpose),
        effort=(row.effort_low, row.effort_high),
        segments=row.segments,
        after=row.after,
    )
