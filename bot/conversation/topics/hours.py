"""The hour of a session: an if-then line where it was missed twice, and an hour at which sessions in fact happen."""

from dataclasses import replace
from datetime import time, timedelta
from statistics import median

from bot.conversation.agenda import bed_of
from bot.conversation.answers import says_no, says_yes
from bot.conversation.changes import KeepProfile, SetMarks, SetQuestion
from bot.conversation.known import Known, Offer, Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from planning.calendar import is_quiet
from planning.terms.entry import Entry, Status
from planning.terms.person import DayTime, Profile
from planning.terms.plan import Session
from planning.terms.reasons import Reason

LEAST, MOST = 3, 12
"""So many sessions make an hour one's own; so many are looked at. Common practice, no source."""

ANOTHER = 60
"""An hour that lies closer than these minutes is no other one."""

STEP = 30
DAY = 24 * 60
YES_NO = (Choice("hour_yes", "yes"), Choice("hour_no", "no"))


def happened(scene: Scene, session: Session | None) -> Part:
    """Keep when a session of today began, told after it: now less its minutes."""
    if session is None or session.on != scene.today:
        return Part()
    began = (scene.here - timedelta(minutes=session.minutes)).time().replace(second=0, microsecond=0)
    return Part((SetMarks(replace(scene.known.marks, happened=(*scene.known.marks.happened, began)[-MOST:])),))


def missed_twice_at(known: Known, more: tuple[Entry, ...] = ()) -> time | None:
    """The time of day of the last session, if it and the one before it at that time were missed."""
    times = {each.on: each.at for each in known.sessions}
    days: dict[object, bool] = {}
    for entry in sorted((*known.entries, *more), key=lambda each: each.on):
        if entry.planned_on in times:
            days[entry.planned_on] = days.get(entry.planned_on, False) or entry.status is Status.DONE
    if not days:
        return None
    at = times[list(days)[-1]]  # type: ignore[index]
    same = [done for day, done in days.items() if times[day] == at]  # type: ignore[index]
    return at if len(same) >= 2 and not any(same[-2:]) else None


def offer(known: Known, profile: Profile, missed: time) -> Offer | None:
    """The hour at which sessions in fact happen, if it is another one than the *missed* one and no hour of sleep."""
    begun = known.marks.happened
    if len(begun) < LEAST:
        return None
    minutes = round(median(each.hour * 60 + each.minute for each in begun) / STEP) * STEP % DAY
    at = time(minutes // 60, minutes % 60)
    away = abs(minutes - missed.hour * 60 - missed.minute)
    is_another = min(away, DAY - away) >= ANOTHER
    asleep = is_quiet(at, bed_of(profile), profile.wake or time(5))
    return Offer(missed, at) if is_another and not asleep else None


def slots_of(wish: Offer | time) -> tuple[Slot, ...]:
    """The hours, for the sentences."""
    if isinstance(wish, time):
        return (Slot("missed_at", f"{wish:%H:%M}"),)
    return (Slot("missed_at", f"{wish.before:%H:%M}"), Slot("usual_at", f"{wish.at:%H:%M}"))


def offered(scene: Scene, wish: Offer, say: Say) -> Part:
    """*say* with the question whether sessions of the missed hour are to come at the other one."""
    question = Question(Asks.TIME, scene.today, offer=wish)
    facts = replace(say.facts, asks=Asks.TIME)
    asking = replace(say, words=(*say.words, "ask_hour"), facts=facts, choices=YES_NO)
    return Part((SetQuestion(question),), (replace(asking, slots=(*say.slots, *slots_of(wish))),))


def hour(scene: Scene) -> Part | None:
    """The answer to the offer of another hour."""
    question, text = scene.known.question, scene.reading.text
    if question is None or question.offer is None or scene.taken:
        return None
    if says_no(text):
        facts = Facts(next=None, why=())
        return Part((SetQuestion(None),), (Say(scene.who, Kind.CHANGED, ("stays", "next_step"), facts),))
    if not says_yes(text):
        return None
    wish = question.offer
    days = tuple(DayTime(each.day, wish.at if each.at == wish.before else each.at) for each in scene.profile.days)
    facts = Facts(next=None, why=(Reason.AS_PLANNED,))
    said = Say(scene.who, Kind.CHANGED, ("hour_changed", "next_step"), facts, slots=slots_of(wish))
    return Part((KeepProfile(replace(scene.profile, days=days)), SetQuestion(None)), (said,))
