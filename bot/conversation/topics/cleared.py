"""A clinician has cleared somebody: who and when is on record, then the way is open again, a step lower."""

from bot.conversation.answers import names_clinician, says_no, says_yes
from bot.conversation.changes import SetQuestion
from bot.conversation.clearance import Clearance, lifted, on_hold
from bot.conversation.known import Question
from bot.conversation.says import Asks, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.reading.facts import Want


def cleared(scene: Scene) -> Part | None:
    """Lift danger, red flags and the start screening on the word of a clinician. "Feel fine now" lifts nothing."""
    if Kind.URGENT in scene.taken or Kind.CARE in scene.taken:
        return None
    if scene.reading.wants is not Want.CLEARED and not _names_who(scene):
        return _not_yet(scene)
    if not on_hold(scene.known):
        return Part((), (Say(scene.who, Kind.CLEARED, ("cleared_nothing", "next_step"), Facts(codes=(), next=None)),))
    if not names_clinician(scene.reading.text):
        return _asked_who(scene)
    found = lifted(scene.known, Clearance(scene.reading.text, scene.today, scene.who, scene.id))
    codes = found.codes or found.screened
    facts = Facts(codes=found.codes, next=None) if codes else Facts(parts=found.parts, next=None)
    said = Say(scene.who, Kind.CLEARED, ("cleared_by", "next_step"), facts)
    return Part((*found.changes, SetQuestion(None)), (said,))


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
