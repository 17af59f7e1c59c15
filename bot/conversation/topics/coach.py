"""What goes to the coach, within what the runner agreed to share."""

from dataclasses import replace

from bot.conversation.answers import is_for_coach
from bot.conversation.changes import Change, SendNotice, SetMarks, SetWaiting
from bot.conversation.says import Choice, Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.reading.facts import Want
from planning.terms.choices import Alarm, Danger, Share
from planning.terms.reasons import Reason

GRAVE = frozenset({"notice_danger", "notice_care"})
"""Messages that the coach is to say to have seen."""


def notice(
    scene: Scene,
    words: str,
    *,
    codes: tuple[Danger | Alarm, ...] = (),
    why: tuple[Reason, ...] = (),
    needs: Share = Share.LOG,
) -> tuple[Say, ...]:
    """A message to the coach at once: who needs a person; the signs only if the runner shares them. None without coach.

    *needs*: what the runner must share for the notice to go out at all.
    """
    profile = scene.profile
    if profile.coach is None or (needs is not Share.LOG and needs not in profile.shares):
        return ()
    facts = Facts(who=scene.who)
    if codes and Share.BODY in profile.shares:
        facts = Facts(who=scene.who, codes=codes)
    elif why:
        facts = Facts(who=scene.who, why=why)
    slots = (Slot("called", profile.called or scene.who),)
    choices = (Choice("seen", f"seen {scene.who}"),) if words in GRAVE else ()
    return (Say(profile.coach, Kind.NOTICE, (words,), facts, choices, slots),)


def sent(scene: Scene, says: tuple[Say, ...]) -> tuple[Change, ...]:
    """What is kept of a grave message among *says*, so that somebody else gets it if nobody sees it."""
    grave = any(word in GRAVE for say in says for word in say.words)
    coach = scene.profile.coach
    return (SendNotice(coach, scene.now, scene.id),) if grave and coach is not None else ()


def coach(scene: Scene) -> Part | None:
    """The runner wants to talk to a person."""
    if scene.reading.wants is not Want.COACH and not is_for_coach(scene.reading.text):
        return None
    if scene.profile.coach is None:
        return Part(says=(Say(scene.who, Kind.HELP, ("no_coach",)),))
    told = Say(scene.who, Kind.PASSED_ON, ("passed_on",))
    wrote = _has_words(scene)
    marks = SetMarks(replace(scene.known.marks, wrote=wrote or scene.known.marks.wrote))
    waiting = SetWaiting(scene.known.waiting_since or scene.now)
    asked = notice(scene, "notice_wrote" if wrote else "notice_asked")
    said = Slot("said", " ".join(scene.reading.text.replace('"', "'").split())[:LONGEST])
    return Part((waiting, marks), (told, *(replace(each, slots=(*each.slots, said)) for each in asked)))


def _has_words(scene: Scene) -> bool:
    """Whether more was written than the wish to talk to a person: then the coach gets it as it is."""
    spans = [each for each in scene.reading.spans if each.key == "wants"]
    kept = sum(each.end - each.start for each in spans)
    return len(scene.reading.text) - kept >= WORDS


WORDS = 16
"""So many characters beside the wish are words for the coach."""

LONGEST = 1000
