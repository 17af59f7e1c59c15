"""The session is going badly right now: what is left, minute by minute, in steps that are still possible."""

from dataclasses import replace

from bot.conversation.answers import bare_course, says_no, says_yes, wants_count
from bot.conversation.changes import Change, SetMarks, SetQuestion
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.count import started, stopped
from planning.step import rescue as rest_of
from planning.terms.choices import Course
from planning.terms.plan import Session
from planning.terms.steps import Rescue

CHOICES = (Choice("rescue_better", "better"), Choice("rescue_same", "same"), Choice("rescue_worse", "worse"))
COUNT = Choice("rescue_count", "count with me")
NOT_NOW = frozenset({Kind.URGENT, Kind.CARE, Kind.TRIAGE})
"""Stuck by pain, danger or heat never gets the answer to walk the rest."""


def rescue(scene: Scene) -> Part | None:
    """Answer "I can't go on" on the day of a session, and what is said to the steps that were given."""
    session = scene.session_on(scene.today)
    if session is None or scene.taken & NOT_NOW or scene.stopped:
        return None
    if scene.reading.stuck:
        return _begun(scene, session)
    question = scene.known.question
    is_open = question is not None and question.asks is Asks.COURSE and question.session_on == scene.today
    if wants_count(scene.reading.text) and (is_open or scene.known.marks.rescued_on == scene.today):
        return started(scene, session, _left(scene, session))
    return _steered(scene, session, question) if question is not None and is_open else None


def _begun(scene: Scene, session: Session) -> Part:
    done = next((each.minutes for each in scene.reading.did if each.minutes is not None), None)
    part = _steps(scene, session, rest_of(session, done), ("rescue", "rescue_steps", "rescue_danger"), 0)
    marks = SetMarks(replace(scene.known.marks, rescued_on=scene.today, count=None))
    return Part((marks, *part.changes), part.says)


def _left(scene: Scene, session: Session) -> Rescue:
    """What is left of the session after the minutes of it that are kept."""
    kept = [each.minutes for each in scene.known.entries if each.planned_on == session.on and each.minutes is not None]
    return rest_of(session, sum(kept) if kept else None)


def _steered(scene: Scene, session: Session, question: Question) -> Part | None:
    """On with it, or smaller still: sit, breathe, home. Worse twice is no longer a matter of minutes."""
    text = scene.reading.text
    course = bare_course(text) or (Course.EASED if says_yes(text) else Course.WORSE if says_no(text) else None)
    if course is None:
        return None
    left = _left(scene, session)
    if course is Course.EASED and scene.known.marks.count is not None:
        return _steps(scene, session, left, ("rescue_on",), question.tries)
    if course is Course.EASED:
        return _steps(scene, session, left, ("rescue_on", "rescue_steps"), None)
    words = "rescue_worse" if question.tries == 0 and course is Course.WORSE else "rescue_home"
    part = _steps(scene, session, left, (words, "rescue_danger"), None if words == "rescue_home" else 1)
    ended = stopped(scene)
    return Part((*ended.changes, *part.changes), (*part.says, *ended.says))


def _steps(scene: Scene, session: Session, left: Rescue, words: tuple[str, ...], tries: int | None) -> Part:
    facts = Facts(left_min=left.left_min, segments=left.segments, asks=None if tries is None else Asks.COURSE)
    if tries is None:
        over: Change = SetQuestion(None)
        return Part((over,), (Say(scene.who, Kind.RESCUE, words, facts),))
    question = Question(Asks.COURSE, scene.today, session_on=session.on, tries=tries)
    choices = (*CHOICES, COUNT) if tries == 0 and left.segments and scene.known.marks.count is None else CHOICES
    said = Say(scene.who, Kind.RESCUE, (*words, "ask_rescue"), facts, choices=choices)
    return Part((SetQuestion(question),), (said,))
