"""How sure somebody is of the next session, 0 to 10: below 7 it is made smaller, at most twice, then the floor."""

from dataclasses import replace
from datetime import datetime

from bot.conversation.changes import Fix, KeepProfile, MarkStale, Outcome, SetQuestion
from bot.conversation.known import Question, Rule
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from planning.calendar import local
from planning.safety import screen
from planning.step import Today, next_step, shrink
from planning.terms.choices import Role
from planning.terms.entry import Fixed
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Step

SURE = 7
"""Confidence ruler of brief action planning: below it the step is made smaller. Common practice, no source."""

AGAIN = 2
CHOICES = (Choice("sure_9", "9"), Choice("sure_7", "7"), Choice("sure_5", "5"), Choice("sure_3", "3"))


def first_sure(outcome: Outcome, now: datetime) -> Outcome:
    """The end of a survey, with the first check-in: how sure are they of the first session?"""
    enrolled = next((each.profile for each in outcome.changes if isinstance(each, KeepProfile)), None)
    if enrolled is None or enrolled.role is Role.COACH or not screen(enrolled.screen, enrolled.cleared).may_start:
        return outcome
    said, *rest = outcome.says
    question = SetQuestion(Question(Asks.SURE, local(now, enrolled.tz).date()))
    facts = replace(said.facts, asks=Asks.SURE)
    asking = replace(said, facts=facts, words=(*said.words, "ask_sure_first"), choices=CHOICES)
    return Outcome((*outcome.changes, question), (asking, *rest))


def _floor(session: Session) -> Step:
    """The smallest outing: ten minutes, or what is left by now."""
    smallest = next_step(session, Today(session.on, sure=0, asked_sure=AGAIN)).session
    return Step(smallest, (Reason.SMALLEST_VERSION,))


def sure(scene: Scene) -> Part | None:
    """Answer how sure somebody is."""
    level = scene.reading.sure
    session = scene.session_next
    if level is None or session is None or scene.stopped:
        return None
    if level >= SURE or Rule.SURE in scene.known.marks.left_out:
        facts = Facts(next=None, why=(Reason.AS_PLANNED,))
        return Part((SetQuestion(None),), (Say(scene.who, Kind.CHANGED, ("sure_enough", "next_step"), facts),))
    question = scene.known.question
    tries = question.tries + 1 if question and question.asks is Asks.SURE else 1
    step = shrink(session, tries) if tries <= AGAIN else _floor(session)
    again = Question(Asks.SURE, scene.today, session_on=session.on, tries=tries) if tries <= AGAIN else None
    facts = Facts(session=step.session, why=step.why, asks=Asks.SURE if again else None)
    words = ("shrunk_sure", "this_session", "ask_sure") if again else ("shrunk_floor", "this_session")
    said = Say(scene.who, Kind.SHRUNK, words, facts, choices=CHOICES if again else ())
    return Part((Fix(Fixed(session.on, step.session), scene.id), MarkStale(), SetQuestion(again)), (said,))
