"""The session is going badly right now: what is left, minute by minute, in steps that are still possible."""

from bot.conversation.answers import bare_course, says_no, says_yes
from bot.conversation.changes import SetQuestion
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from planning.step import rescue as rest_of
from planning.terms.choices import Course
from planning.terms.plan import Session
from planning.terms.steps import Rescue

CHOICES = (Choice("rescue_better", "better"), Choice("rescue_same", "same"), Choice("rescue_worse", "worse"))
NOT_NOW = frozenset({Kind.URGENT, Kind.CARE, Kind.TRIAGE})
"""Stuck by pain, danger or heat never gets the answer to walk the rest."""


def rescue(scene: Scene) -> Part | None:
    """Answer "I can't go on" on the day of a session, and what is said to the steps that were given."""
    session = scene.session_on(scene.today)
    if session is None or scene.taken & NOT_NOW or scene.stopped:
        return None
    if scene.reading.stuck:
        done = next((each.minutes for each in scene.reading.did if each.minutes is not None), None)
        return _steps(scene, session, rest_of(session, done), ("rescue", "rescue_steps", "rescue_danger"), 0)
    question = scene.known.question
    if question is None or question.asks is not Asks.COURSE or question.session_on != scene.today:
        return None
    return _steered(scene, session, question)


def _steered(scene: Scene, session: Session, question: Question) -> Part | None:
    """On with it, or smaller still: sit, breathe, home. Worse twice is no longer a matter of minutes."""
    text = scene.reading.text
    course = bare_course(text) or (Course.EASED if says_yes(text) else Course.WORSE if says_no(text) else None)
    if course is None:
        return None
    left = rest_of(session, None)
    if course is Course.EASED:
        return _steps(scene, session, left, ("rescue_on", "rescue_steps"), None)
    words = "rescue_worse" if question.tries == 0 and course is Course.WORSE else "rescue_home"
    return _steps(scene, session, left, (words, "rescue_danger"), None if words == "rescue_home" else 1)


def _steps(scene: Scene, session: Session, left: Rescue, words: tuple[str, ...], tries: int | None) -> Part:
    facts = Facts(left_min=left.left_min, segments=left.segments, asks=None if tries is None else Asks.COURSE)
    if tries is None:
        return Part((SetQuestion(None),), (Say(scene.who, Kind.RESCUE, words, facts),))
    question = Question(Asks.COURSE, scene.today, session_on=session.on, tries=tries)
    said = Say(scene.who, Kind.RESCUE, (*words, "ask_rescue"), facts, choices=CHOICES)
    return Part((SetQuestion(question),), (said,))
