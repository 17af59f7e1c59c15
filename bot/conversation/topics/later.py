"""Remind me later; the session on another day or at another time."""

from datetime import date, datetime, time, timedelta

from bot.conversation.agenda import bed_of
from bot.conversation.answers import says_tomorrow, says_yes
from bot.conversation.changes import Change, Fix, Replan, SetQuestion, SetSnooze
from bot.conversation.known import Question, Snooze
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene, nothing_today
from bot.reading.facts import MoveTo, PartOfDay
from planning.calendar import instant
from planning.step import move
from planning.terms.entry import Fixed
from planning.terms.plan import Session
from planning.terms.steps import Moved

PARTS = {
    PartOfDay.MORNING: time(7),
    PartOfDay.LUNCH: time(12, 30),
    PartOfDay.AFTERNOON: time(15),
    PartOfDay.EVENING: time(18, 30),
}
TOMORROW = (Choice("tomorrow", "move it to tomorrow"), Choice("let_go", "skip it today"))


def later(scene: Scene) -> Part | None:
    """Put the push off until then, up to bedtime; past it, offer tomorrow."""
    reading = scene.reading
    if (reading.later_min is None and reading.later_at is None) or scene.stopped:
        return None
    session = scene.session_today
    if session is None:
        return nothing_today(scene)
    at = _wished(scene)
    if at >= _bedtime(scene):
        facts = Facts(session=session, dropped=(), at=None, asks=Asks.DAYS_MOVE)
        question = Question(Asks.DAYS_MOVE, scene.today, session_on=session.on)
        said = Say(scene.who, Kind.LATER, ("later_past_bed",), facts, choices=TOMORROW)
        return Part((SetQuestion(question),), (said,))
    facts = Facts(session=session, dropped=(), at=at)
    return Part((_snooze(scene, session, at), SetQuestion(None)), (Say(scene.who, Kind.LATER, ("later",), facts),))


def _wished(scene: Scene) -> datetime:
    reading = scene.reading
    if reading.later_min is not None:
        return scene.now.replace(microsecond=0) + timedelta(minutes=reading.later_min)
    assert reading.later_at is not None
    return instant(scene.today, reading.later_at, scene.profile.tz)


def _bedtime(scene: Scene) -> datetime:
    """The next bedtime: one after midnight is that of the night that follows the day."""
    bed = bed_of(scene.profile)
    day = scene.today + timedelta(days=1) if bed < time(12) <= scene.here.time() else scene.today
    return instant(day, bed, scene.profile.tz)


def _snooze(scene: Scene, session: Session, at: datetime) -> SetSnooze:
    before, marks = scene.known.snooze, scene.known.marks
    waiting = before.ordinal if before and before.on == session.on else 0
    sent = marks.put_off if marks.pushed_on == session.on else 0
    return SetSnooze(Snooze(session.on, at, max(waiting, sent) + 1))


def moved(scene: Scene) -> Part | None:
    """The session itself on another day or time."""
    wish = scene.reading.move_to or _agreed(scene)
    session = scene.session_next
    if wish is None or session is None or scene.stopped or scene.reading.did:
        return None
    at = wish.at or (PARTS[wish.part] if wish.part else None)
    days = scene.profile.days
    found = move(scene.known.sessions, session, wish.on, at, days, scene.today)
    instant_at = instant(found.session.on, found.session.at, scene.profile.tz) if found.session else None
    facts = Facts(session=found.session, dropped=found.dropped, at=instant_at, why=found.why)
    said = Say(scene.who, Kind.MOVED, (_words(wish.on, session, found), "this_session"), facts)
    return Part((*_changes(scene, session, found, instant_at), SetQuestion(None)), (said,))


def _agreed(scene: Scene) -> MoveTo | None:
    """The answer to the offer of tomorrow."""
    question, text = scene.known.question, scene.reading.text
    if question is None or question.asks is not Asks.DAYS_MOVE or not (says_yes(text) or says_tomorrow(text)):
        return None
    return MoveTo(scene.today + timedelta(days=1))


def _words(wished: date, session: Session, found: Moved) -> str:
    if found.session is None:
        return "moved_dropped"
    if found.session.on != wished:
        return "moved_elsewhere"
    lost = [each for each in found.dropped if each != session]
    return "moved_onto" if lost else "moved"


def _changes(scene: Scene, session: Session, found: Moved, at: datetime | None) -> tuple[Change, ...]:
    gone = {session.on, *(each.on for each in found.dropped)}
    if found.session is not None:
        gone.discard(found.session.on)
    changes: list[Change] = [Fix(Fixed(day, None), scene.id) for day in sorted(gone)]
    if found.session is not None:
        changes.append(Fix(Fixed(found.session.on, found.session), scene.id))
        if found.session.on == scene.today and at is not None and _was_pushed(scene):
            changes.append(_snooze(scene, found.session, at))
    return (*changes, Replan())


def _was_pushed(scene: Scene) -> bool:
    pushed = scene.known.marks.pushed_on
    return pushed is not None and pushed >= scene.today
