"""The day's session by the clock: on time, late, smaller after silent days; and one nudge."""

from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.changes import Change, Fix, MarkStale, Outcome, SetMarks, SetQuestion, SetSnooze
from bot.conversation.events import Due
from bot.conversation.known import Known, Question
from bot.conversation.says import Asks, Facts, Kind, Say
from bot.conversation.topics.fuel import fuel
from bot.conversation.topics.hours import missed_twice_at, slots_of
from bot.conversation.topics.misses import WHY, misses_in_a_row, smallest, too_many
from bot.conversation.topics.morning import next_morning
from bot.conversation.topics.triage import YES_NO
from bot.conversation.topics.wants import TODAY_CHOICES
from planning.calendar import local
from planning.terms.entry import Fixed, Flag, Status
from planning.terms.person import Profile
from planning.terms.plan import Session, Strength
from planning.terms.reasons import Reason


def push(known: Known, due: Due) -> Outcome:
    """The session of the day, with what there is to ask."""
    session = next((each for each in known.sessions if each.on == due.on), None)
    marks = replace(known.marks, pushed_on=due.on, put_off=due.ordinal, away=False)
    kept: tuple[Change, ...] = (SetMarks(marks), SetSnooze(None))
    if session is None:
        return Outcome(kept)
    if too_many(known) and _last_was_silent(known) and not due.ordinal:
        return _smaller(known, session, due, kept)
    return _with_question(known, session, due, kept)


def late_push(known: Known, profile: Profile, due: Due, now: datetime) -> Outcome:
    """A push that the bot was down for: of an earlier day it is dropped, of today it is said to be late. No day without
    a push counts as silent, and a whole week of them makes one message, not a burst.
    """
    session = next((each for each in known.sessions if each.on == due.on), None)
    marks = replace(known.marks, pushed_on=due.on, closed_on=due.on, nudged_on=due.on)
    if session is None or local(now, profile.tz).date() > due.on:
        return Outcome((SetMarks(replace(marks, away=True)), SetSnooze(None)))
    facts = Facts(session=session, asks=None)
    said = Say(known.who, Kind.TODAY, ("today_late",), facts, key=due.key(known.who))
    question = SetQuestion(Question(Asks.DONE, due.on, session_on=due.on))
    return Outcome((SetMarks(replace(marks, away=False)), SetSnooze(None), question), (said,))


def _last_was_silent(known: Known) -> bool:
    planned = [each for each in known.entries if each.planned_on is not None]
    return bool(planned) and planned[-1].status is Status.NO_WORD


def _smaller(known: Known, session: Session, due: Due, kept: tuple[Change, ...]) -> Outcome:
    """The push after silent days: the smallest version, and what gets in the way is asked."""
    small = smallest(session)
    why = (Reason.TWO_MISSES,) if misses_in_a_row(known) >= 2 else (Reason.THREE_OF_FIVE_MISSED,)
    facts = Facts(session=small, asks=Asks.WHY_MISSED, why=why)
    hour = missed_twice_at(known)
    said = Say(
        known.who,
        Kind.TODAY,
        (*_words(known), "shrunk_silent", *(("if_then",) if hour else ()), "ask_why_missed"),
        facts,
        choices=WHY,
        slots=slots_of(hour) if hour else (),
        also=(Kind.SHRUNK,),
        key=due.key(known.who),
    )
    smaller = (Fix(Fixed(due.on, small), f"push-{due.on}"), MarkStale())
    changes = (*kept, *smaller, SetQuestion(Question(Asks.WHY_MISSED, due.on)))
    return Outcome(changes, (said,))


def _with_question(known: Known, session: Session, due: Due, kept: tuple[Change, ...]) -> Outcome:
    """The push; after a complaint of yesterday with the morning question, else the standing one: was it done?"""
    asked = known.marks.followed_on == due.on
    flag = None if asked else next((each for each in known.flags if _asks_today(each, due.on)), None)
    words, slots = fuel(session)
    strength = strength_until_next(known, session)
    words = (*words, "strength") if strength else words
    if flag is None:
        facts = _with_strength(Facts(session=session, asks=None), strength)
        words = (*_words(known), *words)
        said = Say(known.who, Kind.TODAY, words, facts, TODAY_CHOICES, slots, key=due.key(known.who))
        return Outcome((*kept, SetQuestion(Question(Asks.DONE, due.on, session_on=due.on))), (said,))
    marks = replace(known.marks, pushed_on=due.on, followed_on=due.on, away=False)
    facts = _with_strength(Facts(session=session, asks=Asks.NEXT_MORNING, parts=(flag.part,)), strength)
    said = Say(
        known.who,
        Kind.TODAY,
        (*_words(known), *words, "ask_next_morning"),
        facts,
        slots=slots,
        choices=YES_NO,
        key=due.key(known.who),
    )
    return Outcome((*kept, SetMarks(marks), SetQuestion(next_morning(flag, due.on))), (said,))


def strength_until_next(known: Known, session: Session) -> tuple[Strength, ...]:
    """What there is to do at home from the day of *session* up to the day before the next one."""
    following = next((each.on for each in known.sessions if each.on > session.on), None)
    return tuple(
        each for each in known.strength if session.on <= each.on and (following is None or each.on < following)
    )


def _with_strength(facts: Facts, strength: tuple[Strength, ...]) -> Facts:
    return replace(facts, strength=strength) if strength else facts


def _words(known: Known) -> tuple[str, ...]:
    return ("today", "was_away") if known.marks.away else ("today",)


def _asks_today(flag: Flag, day: date) -> bool:
    return flag.cleared_on is None and flag.since == day - timedelta(days=1)


def nudge(known: Known, due: Due) -> Outcome:
    """One question in the evening of a silent day."""
    session = next((each for each in known.sessions if each.on == due.on), None)
    changes = (SetMarks(replace(known.marks, nudged_on=due.on)),)
    if session is None:
        return Outcome(changes)
    question = SetQuestion(Question(Asks.DONE, due.on, session_on=due.on))
    facts, name = Facts(session=session), due.key(known.who)
    said = Say(known.who, Kind.NUDGE, ("nudge",), facts, choices=TODAY_CHOICES, key=name)
    return Outcome((*changes, question), (said,))
