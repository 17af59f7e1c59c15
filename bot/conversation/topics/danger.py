"""A danger sign: stop, who to call or see, the coach told at once; no session until a clinician has cleared it."""

from bot.conversation.agenda import CARE
from bot.conversation.changes import Change, RaiseFlag, RaiseHold, SetQuestion
from bot.conversation.known import Hold
from bot.conversation.says import Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.coach import notice, sent
from bot.conversation.topics.where import where
from planning.safety.danger import first_aid, tier
from planning.terms.choices import Alarm, Colour, Danger
from planning.terms.entry import Complaint, Flag
from planning.terms.triage import Tier

TIERS = {Tier.NOW: "urgent_now", Tier.TODAY: "urgent_today", Tier.SOON: "urgent_soon"}
SOONEST = tuple(TIERS)


def signs_in(scene: Scene) -> tuple[Danger | Alarm, ...]:
    """The danger signs of a message, the two that ask for care left out; one that is over counts until it was seen."""
    reading = scene.reading
    past = (each.code for each in reading.past_danger)
    said: tuple[Danger | Alarm, ...] = (*reading.danger, *reading.alarm, *past)
    return tuple(dict.fromkeys(code for code in said if code not in CARE))


def danger(scene: Scene) -> Part | None:
    """Answer danger: help first, no training talk."""
    codes = signs_in(scene)
    if not codes:
        return None
    return danger_of(scene, codes, scene.reading.body)


def danger_of(scene: Scene, codes: tuple[Danger | Alarm, ...], complaints: tuple[Complaint, ...]) -> Part:
    """The answer to these signs; the parts complained of with them are red."""
    flags = tuple(RaiseFlag(Flag(each.part, each.side, Colour.RED, scene.today), scene.id) for each in complaints)
    held = (*codes, *(code for code in scene.reading.danger if code in CARE))
    changes: tuple[Change, ...] = (RaiseHold(Hold(held, scene.today, scene.id)), *flags, SetQuestion(None))
    told = notice(scene, "notice_danger", codes=codes)
    return Part(
        (*changes, *sent(scene, told)),
        (urgent(scene.who, codes, coach_told=bool(told), slots=where(scene.profile)), *told),
    )


def urgent(
    who: str, codes: tuple[Danger | Alarm, ...], *, coach_told: bool = False, slots: tuple[Slot, ...] = ()
) -> Say:
    """The message itself; it needs nothing but the codes, so that it goes out whatever else is broken.

    *slots*: the country, for the number to call.
    """
    gravest = min(codes, key=lambda code: SOONEST.index(tier(code, codes)))
    soonest, aid = tier(gravest, codes), first_aid(gravest)
    told = ("urgent_coach_told",) if coach_told else ()
    words = (TIERS[soonest], f"aid_{aid}", *told, "urgent_cleared_by")
    return Say(who, Kind.URGENT, words, Facts(codes=codes, session=None), slots=slots)
