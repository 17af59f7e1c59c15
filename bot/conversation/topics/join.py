"""Somebody who is enrolled sends a coach's code: they are asked first whether that coach may see what they share."""

from dataclasses import replace
from datetime import datetime

from bot.conversation.answers import says_no, says_yes
from bot.conversation.changes import KeepProfile, Outcome, SetMarks, SetQuestion, UseCode
from bot.conversation.events import Invited
from bot.conversation.known import Known, Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from planning.calendar import local
from planning.terms.choices import Role
from planning.terms.person import Profile

YES_NO = (Choice("join_yes", "yes"), Choice("join_no", "no"))


def asked_to_join(known: Known, profile: Profile, event: Invited, now: datetime) -> Outcome:
    """What the code of a coach opens for somebody who has a plan already: a question."""
    heard = SetMarks(replace(known.marks, heard_at=now))
    if event.role is not Role.RUNNER or event.coach is None or profile.role is not Role.RUNNER:
        return Outcome((heard,), (Say(known.who, Kind.NOT_READ, ("code_not_for_you",)),))
    if event.coach == profile.coach:
        return Outcome((heard,), (Say(known.who, Kind.SMALL, ("coach_already",), slots=_coach(event.called)),))
    today = local(now, profile.tz).date()
    question = Question(Asks.CONSENT, today, about=event.coach, said=event.mark)
    words = ("ask_join_instead" if profile.coach else "ask_join",)
    said = Say(known.who, Kind.ASK, words, Facts(asks=Asks.CONSENT), YES_NO, _coach(event.called))
    return Outcome((heard, SetQuestion(question)), (said,))


def _coach(called: str) -> tuple[Slot, ...]:
    return (Slot("coach", called),)


def joining(scene: Scene) -> Part | None:
    """The answer to whether that coach may read along."""
    question, text = scene.known.question, scene.reading.text
    if question is None or question.asks is not Asks.CONSENT or question.about is None or scene.taken:
        return None
    facts = Facts(next=None, why=())
    if says_no(text):
        return Part((SetQuestion(None),), (Say(scene.who, Kind.CHANGED, ("stays", "next_step"), facts),))
    if not says_yes(text):
        return None
    profile = replace(scene.profile, coach=question.about)
    changes = (KeepProfile(profile), UseCode(question.said, scene.now), SetQuestion(None))
    said = Say(scene.who, Kind.CHANGED, ("coach_joined", "next_step"), facts)
    called = Slot("called", profile.called or scene.who)
    told = Say(question.about, Kind.PASSED_ON, ("runner_joined",), Facts(who=scene.who), slots=(called,))
    return Part(changes, (said, told))
