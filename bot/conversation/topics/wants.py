"""What somebody asks for: today, this week, why, something smaller or larger, help, a copy of the data, to leave."""

from dataclasses import replace
from datetime import timedelta

from bot.conversation.answers import says_no, says_yes
from bot.conversation.changes import Change, Erase, Fix, Replan, SetQuestion, SetSnooze, StartBreak, TakeBack
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene, nothing_today
from bot.conversation.topics.effort import ceiling
from bot.conversation.topics.review import four_weeks
from bot.reading.facts import Want
from planning.step import step_down, step_up
from planning.terms.entry import Break, Fixed, Status
from planning.terms.reasons import Reason

TODAY_CHOICES = (
    Choice("done", "done"),
    Choice("part", opens=Asks.DONE),
    Choice("less_time", opens=Asks.TIME),
    Choice("later", "remind me in an hour"),
)


def wants(scene: Scene) -> Part | None:
    """Answer what was asked for, unless a card has answered it ("why am I so slow?")."""
    if Kind.HELP in scene.taken:
        return None
    match scene.reading.wants:
        case Want.TODAY:
            return _today(scene)
        case Want.WEEK:
            return _week(scene)
        case Want.REVIEW:
            return Part((), (four_weeks(scene.known, scene.today),))
        case Want.WHY:
            return _why(scene)
        case Want.EASIER:
            return _easier(scene)
        case Want.HARDER:
            return _harder(scene)
        case Want.HELP:
            return Part((), (Say(scene.who, Kind.HELP, ("help",)),))
        case Want.DATA:
            return Part((), (Say(scene.who, Kind.DATA, ("data",)),))
        case Want.UNDO:
            return _undo(scene)
        case Want.LEAVE:
            return _stop(scene) if scene.reading.text.strip().casefold().startswith("/stop") else _leave(scene)
        case _:
            return None


def leaving(scene: Scene) -> Part | None:
    """The answer to whether everything is to be erased."""
    question = scene.known.question
    if question is None or question.asks is not Asks.CONFIRM:
        return None
    if says_yes(scene.reading.text):
        return Part((Erase(),), (Say(scene.who, Kind.GONE, ("gone",)),))
    if says_no(scene.reading.text):
        facts = Facts(next=None, why=())
        return Part((SetQuestion(None),), (Say(scene.who, Kind.CHANGED, ("stays", "next_step"), facts),))
    return None


def _today(scene: Scene) -> Part:
    session = None if scene.stopped else scene.session_today
    if session is None:
        return nothing_today(scene)
    facts = Facts(session=session, asks=None)
    return Part((), (Say(scene.who, Kind.TODAY, ("today",), facts, choices=TODAY_CHOICES),))


def _week(scene: Scene) -> Part:
    """This week; while danger or a red flag stands, what of it is over. The four weeks up to now with it, once there is
    something in them.
    """
    monday = scene.today - timedelta(days=scene.today.weekday())
    end = scene.today if scene.stopped else monday + timedelta(days=7)
    sessions = tuple(each for each in scene.known.sessions if monday <= each.on < end)
    strength = tuple(each for each in scene.known.strength if monday <= each.on < end)
    words = ("week" if sessions else "week_free", *(("strength",) if strength else ()))
    facts = Facts(sessions=sessions, strength=strength) if strength else Facts(sessions=sessions)
    week = Say(scene.who, Kind.WEEK, words, facts)
    month = four_weeks(scene.known, scene.today)
    month = replace(month, words=tuple(word for word in month.words if word != "next_step"))
    logged = any(each.status is Status.DONE for each in scene.known.entries)
    return Part((), (week, month) if logged else (week,))


def _why(scene: Scene) -> Part:
    """The reasons of the last step, else those of any plan."""
    reasons = scene.known.why or (Reason.AS_PLANNED, Reason.GROWTH_LIMIT)
    return Part((), (Say(scene.who, Kind.WHY, ("why",), Facts(why=reasons)),))


def _easier(scene: Scene) -> Part:
    session = scene.session_next
    if session is None or scene.stopped:
        return _today(scene)
    step = step_down(session)
    facts = Facts(next=None, why=step.why)
    changes: tuple[Change, ...] = (Fix(Fixed(session.on, step.session), scene.id), Replan())
    return Part(changes, (Say(scene.who, Kind.CHANGED, ("easier", "next_step"), facts),))


def _harder(scene: Scene) -> Part:
    """The next session a step up, as far as the limits leave room."""
    session = next(scene.coming(), None)
    if session is None or scene.stopped:
        return _today(scene)
    step = step_up(session, ceiling(scene, session))
    facts = Facts(next=None, why=step.why)
    grown = step.session != session
    changes: tuple[Change, ...] = (Fix(Fixed(session.on, step.session), scene.id), Replan()) if grown else ()
    words = "harder" if grown else "harder_not_yet"
    return Part(changes, (Say(scene.who, Kind.CHANGED, (words, "next_step"), facts),))


def _undo(scene: Scene) -> Part:
    last = scene.known.last_id
    if last is None or scene.known.marks.kept_on != scene.today:
        return Part((), (Say(scene.who, Kind.UNDONE, ("undo_nothing",), Facts(entries=(), next=None)),))
    entries = tuple(each for each in scene.known.entries if each.on == scene.today and each.from_id != last)
    facts = Facts(entries=entries, next=None)
    changes: tuple[Change, ...] = (TakeBack(last), SetQuestion(None), Replan())
    return Part(changes, (Say(scene.who, Kind.UNDONE, ("undone", "next_step"), facts),))


def _stop(scene: Scene) -> Part:
    """The word by which chat systems end a bot: nothing more comes, and erasing all is offered."""
    asked = _leave(scene)
    pause = StartBreak(Break(scene.today, None), scene.id)
    choices = (Choice("leave_yes", "yes"), Choice("stop_no", "no"))
    said = Say(scene.who, Kind.BREAK, ("stopped", "ask_leave"), Facts(until=None, asks=Asks.CONFIRM), choices=choices)
    return Part((pause, SetSnooze(None), *asked.changes, Replan()), (said,))


def _leave(scene: Scene) -> Part:
    question = Question(Asks.CONFIRM, scene.today)
    choices = (Choice("leave_yes", "yes"), Choice("leave_no", "no"))
    said = Say(scene.who, Kind.ASK, ("ask_leave",), Facts(asks=Asks.CONFIRM), choices=choices)
    return Part((SetQuestion(question),), (said,))
