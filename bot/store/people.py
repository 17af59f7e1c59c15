"""Rows -> Known: what the conversation needs of one person."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any

from sqlalchemy import ColumnElement, Row, Select, Table, bindparam, select
from sqlalchemy.orm import Session as Transaction

from bot.conversation.known import Hold, Known, Team, Whole
from bot.store.coaching import notices_to, peers_of, runners_of
from bot.store.due import line_of
from bot.store.plain import plain
from bot.store.plans import find_plan, session_of
from bot.store.seen import Part, Seen, person, persons, seen
from bot.store.tables import ADDRESS, BREAK, DUE, ENTRY, FIXED, FLAG, HOLD, SESSION, WEEK, WEIGHT, PersonRow
from planning.calendar import local
from planning.progress.weight import Weighing
from planning.terms import choices
from planning.terms.entry import Break, Entry, Fixed, Flag, History, Status

BACK = timedelta(weeks=9)
"""Sessions this far back: the four weeks before the last four, for what changed since."""

AHEAD = timedelta(days=21)
LOGGED = timedelta(weeks=14)
"""Entries this far back are looked at: twelve steady weeks open more room when time is scarce."""


def find_known(tx: Transaction, who: str, now: datetime) -> Known:
    """What is known of *who* at *now*; of a stranger nothing but the name."""
    row = person(tx, who)
    if row is None:
        return Known(who)
    if row.profile is None:
        return Known(who, draft=row.draft, question=row.question)
    found = _look_up(tx, [row], now)[0]
    return Known(
        who,
        profile=row.profile,
        since=row.since,
        sessions=found.sessions or (),
        strength=tuple(each for week in found.strength or () for each in week),
        entries=found.entries or (),
        weights=(found.weights or ()) if row.profile.weight_talk else (),
        flags=found.flags or (),
        holds=found.holds or (),
        breaks=found.breaks or (),
        question=row.question,
        snooze=row.snooze,
        marks=row.marks,
        stale=row.stale,
        why=row.why,
        last_id=row.last_id,
        waiting_since=row.waiting_since,
        notices=notices_to(tx, who) if row.profile.role is choices.Role.COACH else (),
    )


def look_ahead(tx: Transaction, whos: Sequence[str], now: datetime) -> None:
    """Look up all that `find_known` will ask for about these people: a few questions for all instead of for each."""
    rows = persons(tx, whos)
    _look_up(tx, [row for row in rows if row.profile is not None], now)


@dataclass(frozen=True, slots=True)
class _Question:
    """How a part of several people is looked up, and what each row says."""

    wanted: Select[Any]
    says: Callable[[Row[Any]], object]


def _of_all(table: Table, *more: ColumnElement[bool]) -> Select[Any]:
    return select(table).where(table.c.who.in_(bindparam("whos", expanding=True)), *more)


def _look_up(tx: Transaction, rows: Sequence[PersonRow], now: datetime) -> list[Seen]:
    """What was seen of these enrolled people, all parts of it."""
    found, days = [], _by_day(rows, now)
    for day, whos in days.items():
        for who in whos:
            found.append(seen(tx, who))
            found[-1].turn_to(day)
        if all(each.is_whole() for each in found):
            continue
        for part in _QUESTIONS:
            missing = [who for who in whos if getattr(seen(tx, who), part) is None]
            if missing:
                _fill(tx, part, missing, day)
    return found


def _by_day(rows: Iterable[PersonRow], now: datetime) -> dict[date, list[str]]:
    """Who is at which local day."""
    days: dict[date, list[str]] = {}
    for row in rows:
        assert row.profile is not None
        days.setdefault(local(now, row.profile.tz).date(), []).append(row.who)
    return days


def _fill(tx: Transaction, part: Part, whos: Sequence[str], day: date) -> None:
    question = _QUESTIONS[part]
    monday = day - timedelta(days=day.weekday())
    about: dict[str, list[object]] = {who: [] for who in whos}
    asked = {
        "whos": whos,
        "first": day - BACK,
        "last": day + AHEAD,
        "logged": day - LOGGED,
        "monday": monday,
        "next_monday": monday + timedelta(days=7),
    }
    for row in plain(tx).execute(question.wanted, asked):
        about[row.who].append(question.says(row))
    for who, each in about.items():
        setattr(seen(tx, who), part, tuple(each))


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


def history_of(tx: Transaction, who: str) -> History:
    """All that really happened, for making the plan anew."""
    named = {"who": who, "whos": [who]}
    latest = {row.on: Fixed(row.on, row.session) for row in plain(tx).execute(_FIXED, named)}
    return History(
        entries=tuple(map(entry_of, plain(tx).execute(_ENTRIES, named))),
        flags=tuple(map(flag_of, plain(tx).execute(_FLAGS, named))),
        breaks=tuple(map(break_of, plain(tx).execute(_BREAKS_BY_DAY, named))),
        fixed=tuple(latest[on] for on in sorted(latest)),
    )


def entry_of(row: Row[Any]) -> Entry:
    """The entry that a row keeps."""
    return Entry(
        on=row.on,
        status=Status(row.status),
        kind=choices.Activity(row.kind) if row.kind else None,
        minutes=row.minutes,
        km=row.km,
        share=row.share,
        effort=row.effort,
        planned_on=row.planned_on,
        from_id=row.from_id,
    )


def flag_of(row: Row[Any]) -> Flag:
    """The flag that a row keeps."""
    side = choices.Side(row.side) if row.side else None
    return Flag(choices.Part(row.part), side, choices.Colour(row.colour), row.since, row.cleared_on)


def hold_of(row: Row[Any]) -> Hold:
    """The hold that a row keeps."""
    return Hold(row.codes, row.since, row.from_id)


def break_of(row: Row[Any]) -> Break:
    """The break that a row keeps."""
    return Break(row.first, row.last, row.ill, row.fever)


def weighing_of(row: Row[Any]) -> Weighing:
    """The weighing that a row keeps."""
    return Weighing(row.on, row.kg)


_FIXED = _of_all(FIXED).order_by(FIXED.c.id)
_ENTRIES = _of_all(ENTRY, ENTRY.c.gone_by.is_(None)).order_by(ENTRY.c.on, ENTRY.c.id)
_FLAGS = _of_all(FLAG).order_by(FLAG.c.id)
_BREAKS = _of_all(BREAK).order_by(BREAK.c.id)
_BREAKS_BY_DAY = _of_all(BREAK).order_by(BREAK.c.first, BREAK.c.id)
_HOLDS = _of_all(HOLD, HOLD.c.lifted_on.is_(None)).order_by(HOLD.c.id)
_WEIGHTS = _of_all(WEIGHT).order_by(WEIGHT.c.on, WEIGHT.c.id)
_ADDRESSES = _of_all(ADDRESS).order_by(ADDRESS.c.used_at.desc())
_DUES = _of_all(DUE).order_by(DUE.c.id)
_SESSIONS = _of_all(SESSION, SESSION.c.on.between(bindparam("first"), bindparam("last"))).order_by(SESSION.c.on)
_STRENGTH = _of_all(WEEK, WEEK.c.monday.between(bindparam("monday"), bindparam("next_monday"))).order_by(WEEK.c.monday)
_LOGGED = _ENTRIES.where(ENTRY.c.on >= bindparam("logged"))

_QUESTIONS = {
    Part.SESSIONS: _Question(_SESSIONS, session_of),
    Part.STRENGTH: _Question(_STRENGTH, lambda row: row.strength),
    Part.ENTRIES: _Question(_LOGGED, entry_of),
    Part.WEIGHTS: _Question(_WEIGHTS, weighing_of),
    Part.FLAGS: _Question(_FLAGS, flag_of),
    Part.HOLDS: _Question(_HOLDS, hold_of),
    Part.BREAKS: _Question(_BREAKS, break_of),
    Part.DUES: _Question(_DUES, line_of),
    Part.ADDRESSES: _Question(_ADDRESSES, lambda row: (row.door, row.chat)),
}
