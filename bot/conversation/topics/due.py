"""What goes out by the clock: the day's session, one nudge, the morning question, and the end of a silent day."""

from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.agenda import CARE, in_break, is_red
from bot.conversation.changes import (
    AddEntry,
    Change,
    Fix,
    LiftHolds,
    MarkStale,
    Outcome,
    SetMarks,
    SetQuestion,
    SetSnooze,
)
from bot.conversation.events import Due, DueKind
from bot.conversation.known import Known, Marks, Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.topics.journey import home_again
from bot.conversation.topics.misses import WHY, misses_in_a_row, smallest, too_many
from bot.conversation.topics.review import four_weeks
from bot.conversation.topics.triage import YES_NO
from bot.conversation.topics.wants import TODAY_CHOICES
from planning.calendar import local
from planning.terms.choices import Colour
from planning.terms.entry import Complaint, Entry, Fixed, Flag, Status
from planning.terms.person import Profile
from planning.terms.plan import Session
from planning.terms.reasons import Reason

TOO_LATE = timedelta(hours=3)
"""A push later than this is not sent as if it were on time."""

SEEN = (Choice("seen_yes", "a doctor cleared me"), Choice("seen_no", "not yet"))


def fell_due(known: Known, profile: Profile, due: Due, now: datetime) -> Outcome:
    """What one thing that fell due leads to. *now* is far behind it only when the bot was down."""
    late = now - due.at > TOO_LATE if due.at else False
    if late and due.kind in (DueKind.NUDGE, DueKind.REVIEW):
        return Outcome((SetMarks(_as_if_sent(known.marks, due)),))
    if late and due.kind is DueKind.PUSH:
        return _late_push(known, profile, due, now)
    match due.kind:
        case DueKind.PUSH:
            return _push(known, due)
        case DueKind.NUDGE:
            return _nudge(known, due)
        case DueKind.CLOSE:
            return _close(known, due)
        case DueKind.HOME:
            return home_again(known, profile)
        case DueKind.FOLLOW_UP:
            return _follow_up(known, due)
        case DueKind.REVIEW:
            said = four_weeks(known, due.on, key(due.kind, known.who, due))
            return Outcome((SetMarks(replace(known.marks, reviewed_on=due.on)),), (said,))
        case DueKind.DEPUTY | DueKind.DIGEST:
            return Outcome()


def key(kind: DueKind, who: str, due: Due) -> str:
    """The natural key of a message that goes out by the clock."""
    return f"{kind}:{who}:{due.on}:{due.ordinal}"


def _push(known: Known, due: Due) -> Outcome:
    session = next((each for each in known.sessions if each.on == due.on), None)
    marks = replace(known.marks, pushed_on=due.on, put_off=due.ordinal, away=False)
    kept: tuple[Change, ...] = (SetMarks(marks), SetSnooze(None))
    if session is None:
        return Outcome(kept)
    if too_many(known) and _last_was_silent(known) and not due.ordinal:
        return _smaller(known, session, due, kept)
    return _with_question(known, session, due, kept)


def _late_push(known: Known, profile: Profile, due: Due, now: datetime) -> Outcome:
    """A push that the bot was down for: of an earlier day it is dropped, of today it is said to be late. No day without
    a push counts as silent, and a whole week of them makes one message, not a burst.
    """
    session = next((each for each in known.sessions if each.on == due.on), None)
    marks = replace(known.marks, pushed_on=due.on, closed_on=due.on, nudged_on=due.on)
    if session is None or local(now, profile.tz).date() > due.on:
        return Outcome((SetMarks(replace(marks, away=True)), SetSnooze(None)))
    facts = Facts(session=session, asks=None)
    said = Say(known.who, Kind.TODAY, ("today_late",), facts, key=key(due.kind, known.who, due))
    question = SetQuestion(Question(Asks.DONE, due.on, session_on=due.on))
    return Outcome((SetMarks(replace(marks, away=False)), SetSnooze(None), question), (said,))


def _as_if_sent(marks: Marks, due: Due) -> Marks:
    return replace(marks, nudged_on=due.on) if due.kind is DueKind.NUDGE else replace(marks, reviewed_on=due.on)


def _last_was_silent(known: Known) -> bool:
    planned = [each for each in known.entries if each.planned_on is not None]
    return bool(planned) and planned[-1].status is Status.NO_WORD


def _smaller(known: Known, session: Session, due: Due, kept: tuple[Change, ...]) -> Outcome:
    """The push after silent days: the smallest version, and what gets in the way is asked."""
    small = smallest(session)
    why = (Reason.TWO_MISSES,) if misses_in_a_row(known) >= 2 else (Reason.THREE_OF_FIVE_MISSED,)
    facts = Facts(session=small, asks=Asks.WHY_MISSED, why=why)
    said = Say(
        known.who,
        Kind.TODAY,
        (*_words(known), "shrunk_silent", "ask_why_missed"),
        facts,
        choices=WHY,
        also=(Kind.SHRUNK,),
        key=key(due.kind, known.who, due),
    )
    smaller = (Fix(Fixed(due.on, small), f"push-{due.on}"), MarkStale())
    changes = (*kept, *smaller, SetQuestion(Question(Asks.WHY_MISSED, due.on)))
    return Outcome(changes, (said,))


def _with_question(known: Known, session: Session, due: Due, kept: tuple[Change, ...]) -> Outcome:
    """The push; after a complaint of yesterday with the morning question, else the standing one: was it done?"""
    asked = known.marks.followed_on == due.on
    flag = None if asked else next((each for each in known.flags if _asks_today(each, due.on)), None)
    if flag is None:
        facts = Facts(session=session, asks=None)
        said = Say(
            known.who, Kind.TODAY, _words(known), facts, choices=TODAY_CHOICES, key=key(due.kind, known.who, due)
        )
        return Outcome((*kept, SetQuestion(Question(Asks.DONE, due.on, session_on=due.on))), (said,))
    marks = replace(known.marks, pushed_on=due.on, followed_on=due.on, away=False)
    facts = Facts(session=session, asks=Asks.NEXT_MORNING, parts=(flag.part,))
    said = Say(
        known.who,
        Kind.TODAY,
        (*_words(known), "ask_next_morning"),
        facts,
        choices=YES_NO,
        key=key(due.kind, known.who, due),
    )
    return Outcome((*kept, SetMarks(marks), SetQuestion(_morning(flag, due.on))), (said,))


def _words(known: Known) -> tuple[str, ...]:
    return ("today", "was_away") if known.marks.away else ("today",)


def _asks_today(flag: Flag, day: date) -> bool:
    return flag.cleared_on is None and flag.since == day - timedelta(days=1)


def _morning(flag: Flag, day: date) -> Question:
    return Question(Asks.NEXT_MORNING, day, complaint=Complaint(flag.part, flag.side))


def _nudge(known: Known, due: Due) -> Outcome:
    session = next((each for each in known.sessions if each.on == due.on), None)
    changes = (SetMarks(replace(known.marks, nudged_on=due.on)),)
    if session is None:
        return Outcome(changes)
    question = SetQuestion(Question(Asks.DONE, due.on, session_on=due.on))
    facts, name = Facts(session=session), key(due.kind, known.who, due)
    said = Say(known.who, Kind.NUDGE, ("nudge",), facts, choices=TODAY_CHOICES, key=name)
    return Outcome((*changes, question), (said,))


def _close(known: Known, due: Due) -> Outcome:
    """The day is over without a word: unknown, never zero load. A day that was on hold, or whose session was moved or
    dropped, says nothing.
    """
    went_away = all(each.on != due.on for each in known.sessions)
    if went_away or known.holds or is_red(known) or in_break(known.breaks, due.on):
        return Outcome((SetMarks(replace(known.marks, closed_on=due.on)),))
    entry = Entry(on=due.on, status=Status.NO_WORD, planned_on=due.on, from_id=f"silent-{due.on}")
    marks = SetMarks(replace(known.marks, closed_on=due.on))
    return Outcome((AddEntry(entry), marks, MarkStale()))


def _follow_up(known: Known, due: Due) -> Outcome:
    marks = SetMarks(replace(known.marks, followed_on=due.on))
    name = key(due.kind, known.who, due)
    if any(CARE & set(hold.codes) for hold in known.holds):
        lift = LiftHolds(due.on, "a day has passed", f"follow-{due.on}")
        only_care = all(set(hold.codes) <= CARE for hold in known.holds)
        gentle = Say(known.who, Kind.ASK, ("ask_how_are_you",), Facts(asks=None), key=name)
        return Outcome((marks, *((lift,) if only_care else ())), (gentle,))
    if known.holds:
        said = Say(known.who, Kind.ASK, ("ask_seen",), Facts(asks=Asks.SEEN), choices=SEEN, key=name)
        return Outcome((marks, SetQuestion(Question(Asks.SEEN, due.on))), (said,))
    flags = [flag for flag in known.flags if flag.cleared_on is None]
    if not flags:
        return Outcome((marks,))
    flag = next((each for each in flags if each.colour is Colour.RED), flags[-1])
    words = "ask_red_daily" if flag.colour is Colour.RED else "ask_next_morning"
    facts = Facts(asks=Asks.NEXT_MORNING, parts=(flag.part,))
    said = Say(known.who, Kind.ASK, (words,), facts, choices=YES_NO, key=name)
    return Outcome((marks, SetQuestion(_morning(flag, due.on))), (said,))
