"""A plan as an iCalendar file (RFC 5545): one event for each session, at its instant in UTC."""

from datetime import UTC, date, datetime, time, timedelta

from icalendar import Calendar, Event

from planning.calendar import instant
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Plan, Segment, Session

MAKER = "-//Lamppost//plan//EN"
WORDS = {Purpose.EASY: "Walk", Purpose.LONG: "Long walk", Purpose.BRISK: "Brisk walk", Purpose.RACE: "Race"}


def summary_of(session: Session) -> str:
    """One line for a calendar."""
    words = WORDS[session.purpose]
    if session.run_seconds and session.purpose is not Purpose.RACE:
        words = "Long walk and jog" if session.purpose is Purpose.LONG else "Walk and jog"
    return f"{words}, {(session.seconds + 30) // 60} min"


def steps_of(segments: tuple[Segment, ...]) -> str:
    """Segments as a text, one a line, times in minutes and seconds."""
    return "\n".join(f"{each.do.value} {each.seconds // 60}:{each.seconds % 60:02}" for each in segments)


def event_of(plan: Plan, session: Session, tz: str) -> Event:
    """The event of one *session*; its length includes the stretch after it."""
    event = Event()
    event.add("uid", f"{session.on.isoformat()}.{plan.who}@plan.lamppost.invalid")
    event.add("dtstamp", midnight(plan.begin))
    event.add("dtstart", instant(session.on, session.at, tz))
    event.add("duration", timedelta(seconds=session.seconds + sum(each.seconds for each in session.after)))
    event.add("summary", summary_of(session))
    event.add("description", steps_of((*session.segments, *session.after)))
    event.add("categories", [Do.RUN.value if session.run_seconds else Do.WALK.value])
    return event


def midnight(on: date) -> datetime:
    """The first instant of a day in UTC: a stamp that does not change with the hour of writing."""
    return datetime.combine(on, time(), UTC)


def plan_to_ics(plan: Plan, tz: str) -> bytes:
    """*plan* as iCalendar bytes. *tz*: the person's zone by name; times are written in UTC, so that no zone rules have
    to stand in the file."""
    calendar = Calendar()
    calendar.add("prodid", MAKER)
    calendar.add("version", "2.0")
    for session in plan.sessions:
        calendar.add_component(event_of(plan, session, tz))
    return bytes(calendar.to_ical())
