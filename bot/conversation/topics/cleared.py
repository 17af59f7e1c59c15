"""A clinician has cleared somebody: who and when is on record, then the way is open again, a step lower."""

from dataclasses import replace

from bot.conversation.answers import names_clinician, says_no, says_yes
from bot.conversation.changes import Change, ClearFlag, KeepProfile, LiftHolds, Replan, SetQuestion
from bot.conversation.known import Question
from bot.conversation.says import Asks, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.reading.facts import Want
from planning.terms.choices import Colour


def cleared(scene: Scene) -> Part | None:
    """Lift danger, red flags and the start screening on the word of a clinician. "Feel fine now" lifts nothing."""
    if Kind.URGENT in scene.taken or Kind.CARE in scene.taken:
        return None
    if scene.reading.wants is not Want.CLEARED and not _names_who(scene):
        return _not_yet(scene)
    known, profile = scene.known, scene.profile
    screened = not profile.cleared and (profile.screen.disease or profile.screen.signs)
    red = tuple(flag.part for flag in known.flags if flag.cleared_on is None and flag.colour is Colour.RED)
    if not known.holds and not red and not screened:
        return Part((), (Say(scene.who, Kind.CLEARED, ("cleared_nothing", "next_step"), Facts(codes=(), next=None)),))
    if not names_clinician(scene.reading.text):
        return _asked_who(scene)
    codes = tuple(code for hold in known.holds for code in hold.codes)
    changes: list[Change] = [LiftHolds(scene.today, scene.reading.text, scene.id)] if known.holds else []
    changes += [ClearFlag(part, scene.today, scene.id) for part in red if not known.holds]
    changes += [KeepProfile(replace(profile, cleared=True))] if screened else []
    facts = Facts(codes=codes, next=None) if codes or screened else Facts(parts=red, next=None)
    said = Say(scene.who, Kind.CLEARED, ("cleared_by", "next_step"), facts)
    return Part((*changes, SetQuestion(None), Replan()), (said,))


def _names_who(scene: Scene) -> bool:
    """Whether this answers who it was that cleared them."""
    question = scene.known.question
    return question is not None and question.asks is Asks.WHO_WHEN and names_clinician(scene.reading.text)


def _not_yet(scene: Scene) -> Part | None:
    """Bare answers to whether somebody has seen them."""
    question, text = scene.known.question, scene.reading.text
    if question is None or question.asks not in (Asks.SEEN, Asks.WHO_WHEN):
        return None
    if says_yes(text):
        return _asked_who(scene)
    if says_no(text):
        return Part((SetQuestion(None),), (Say(scene.who, Kind.ASK, ("not_seen_yet",), Facts(asks=None)),))
    return None


def _asked_who(scene: Scene) -> Part:
    """Cleared, but nobody knows by whom."""
    asked = SetQuestion(Question(Asks.WHO_WHEN, scene.today))
    return Part((asked,), (Say(scene.who, Kind.ASK, ("ask_who_when",), Facts(asks=Asks.WHO_WHEN)),))
