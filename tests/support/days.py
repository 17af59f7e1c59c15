"""Days of one person without records: what is due is computed, happens, and is kept in a value."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date, datetime, time, timedelta

from bot.conversation import converse
from bot.conversation.agenda import ORDER, Appointment, agenda
from bot.conversation.changes import AddEntry, Change, Fix, LiftHolds, SetMarks, SetQuestion, SetSnooze
from bot.conversation.events import DueKind
from bot.conversation.known import Known
from bot.conversation.says import Say
from planning.terms.choices import Do, Purpose
from planning.terms.entry import Entry
from planning.terms.person import DayTime, Profile
from planning.terms.plan import Segment, Session

WALK = (Segment(Do.WALK, 1200),)


def sessions_of(days: tuple[DayTime, ...], begin: date, weeks: int) -> tuple[Session, ...]:
    """A walk of twenty minutes on each given day."""
    every = (begin + timedelta(days=place) for place in range(weeks * 7))
    at = {each.day: each.at for each in days}
    return tuple(Session(day, at[day.weekday()], Purpose.EASY, (2, 3), WALK) for day in every if day.weekday() in at)


@dataclass
class Days:
    """One person's days. *sent*: what went out by the clock, with its instant."""

    known: Known
    sent: list[tuple[Appointment, tuple[Say, ...]]] = field(default_factory=list)
    due: tuple[Appointment, ...] = ()

    @classmethod
    def of(cls, profile: Profile, sessions: tuple[Session, ...], since: datetime) -> "Days":
        """Somebody whose clock starts at *since*."""
        days = cls(Known(profile.who, profile, since=since, sessions=sessions))
        days.due = agenda(days.known)
        return days

    def run(self, until: datetime) -> None:
        """Everything that is due up to *until* happens, each thing on time."""
        while ready := sorted(
            (each for each in self.due if each.at <= until), key=lambda each: (each.at, ORDER[each.due.kind])
        ):
            outcome = converse(self.known, ready[0].due, ready[0].at)
            self.keep(*outcome.changes)
            self.sent.append((ready[0], outcome.says))
            self.due = agenda(self.known)

    def hear(self, now: datetime, *changes: Change) -> None:
        """The person says something that leads to *changes*."""
        self.run(now)
        self.keep(*changes, SetMarks(replace(self.known.marks, heard_at=now)))
        self.due = agenda(self.known, now)

    def keep(self, *changes: Change) -> None:
        """What is known after these changes."""
        for change in changes:
            self.known = kept(self.known, change)

    def told(self, *kinds: DueKind) -> list[Appointment]:
        """What went out of these kinds, silent ends of days left out."""
        return [each for each, says in self.sent if says and each.due.kind in kinds]


def kept(known: Known, change: Change) -> Known:
    """*known* after one *change*; changes of the plan alone are left out."""
    match change:
        case AddEntry(entry=entry):
            return replace(known, entries=(*known.entries, entry))
        case SetMarks(marks=marks):
            return replace(known, marks=marks)
        case SetSnooze(snooze=snooze):
            return replace(known, snooze=snooze)
        case SetQuestion(question=question):
            return replace(known, question=question)
        case LiftHolds():
            return replace(known, holds=())
        case Fix(fixed=fixed):
            rest = [each for each in known.sessions if each.on != fixed.on]
            return replace(known, sessions=in_order([*rest, *([fixed.session] if fixed.session else [])]))
        case _:
            return known


def in_order(sessions: Iterable[Session]) -> tuple[Session, ...]:
    """Sessions by date."""
    return tuple(sorted(sessions, key=lambda each: each.on))


def done_on(day: date) -> AddEntry:
    """The session of a day was done."""
    return AddEntry(Entry(day, planned_on=day, from_id=f"u-{day}"))


NIGHT = (time(22), time(5))
"""Bedtime and wake-up where somebody named none."""
