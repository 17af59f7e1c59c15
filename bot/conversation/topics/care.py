"""Low mood, and the two signs that ask for care: warm, short, a human now, no training talk."""

from dataclasses import replace

from bot.conversation.agenda import CARE
from bot.conversation.changes import Change, KeepProfile, RaiseHold, SetQuestion
from bot.conversation.known import Hold
from bot.conversation.says import Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.coach import notice, sent
from bot.conversation.topics.mood import noted
from bot.conversation.topics.where import where
from planning.terms.choices import Alarm, Danger, Mood, Share

WORDS = {Danger.SELF_HARM: "care_self_harm", Danger.EATING: "care_eating"}


def care(scene: Scene) -> Part | None:
    """Answer somebody who is in need of a kind human."""
    codes: tuple[Danger | Alarm, ...] = tuple(code for code in scene.reading.danger if code in CARE)
    if codes:
        held = Kind.URGENT in scene.taken
        changes: tuple[Change, ...] = () if held else (RaiseHold(Hold(codes, scene.today, scene.id)), SetQuestion(None))
        changes = (*changes, *_no_weight(scene, codes))
        told = notice(scene, "notice_care", needs=Share.CARE)
        return Part(
            (*changes, *sent(scene, told)),
            (caring(scene.who, codes, coach_told=bool(told), slots=where(scene.profile)), *told),
        )
    if scene.reading.mood is Mood.LOW:
        return Part(noted(scene), (Say(scene.who, Kind.CARE, ("care_low",), Facts(codes=())),))
    return None


def _no_weight(scene: Scene, codes: tuple[Danger | Alarm, ...]) -> tuple[Change, ...]:
    """No more talk of weight after a sign that eating hurts. Common practice of eating-disorder care."""
    if Danger.EATING not in codes or not scene.profile.weight_talk:
        return ()
    return (KeepProfile(replace(scene.profile, weight_talk=False)),)


def caring(
    who: str, codes: tuple[Danger | Alarm, ...], *, coach_told: bool = False, slots: tuple[Slot, ...] = ()
) -> Say:
    """The message itself; it needs nothing but the codes. *slots*: the country, for the numbers to call."""
    gravest = Danger.SELF_HARM if Danger.SELF_HARM in codes else Danger.EATING
    told = ("urgent_coach_told",) if coach_told else ()
    return Say(who, Kind.CARE, (WORDS[gravest], "care_where", *told), Facts(codes=codes), slots=slots)
