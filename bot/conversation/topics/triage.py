"""A body complaint: soreness or injury, by the rules of `planning.safety`; the next session follows from the flag."""

from dataclasses import dataclass, replace
from datetime import timedelta

from bot.conversation.answers import bare_course, bare_number, bare_side, says_no, says_yes
from bot.conversation.changes import Change, ClearFlag, Fix, MarkStale, RaiseFlag, RaiseHold, Replan, SetQuestion
from bot.conversation.known import Hold, Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.coach import notice
from bot.conversation.topics.danger import danger_of
from planning.safety import triage_all
from planning.step import ease, soften, swap
from planning.terms.choices import Colour, Danger, Share, Side
from planning.terms.choices import Part as BodyPart
from planning.terms.entry import Complaint, Fixed, Flag
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.triage import Answers, Ask, Triage, TriageContext, TriageDo, Triages

ADJUST = {TriageDo.CARRY_ON: soften, TriageDo.EASE: ease, TriageDo.SWAP: swap}
WEEK = timedelta(days=7)
LEVELS = (Choice("level_2", "2"), Choice("level_4", "4"), Choice("level_6", "6"), Choice("level_8", "8"))
YES_NO = (Choice("yes", "yes"), Choice("no", "no"))
CHOICES = {
    Asks.LEVEL: LEVELS,
    Asks.COURSE: (Choice("eased", "it eased"), Choice("same", "same throughout"), Choice("worse", "it got worse")),
    Asks.SIDE: (Choice("left", "left"), Choice("right", "right"), Choice("both", "both sides")),
}
ASKED_LATER = frozenset({Ask.NEXT_MORNING, Ask.SEEN})
"""Questions that have their own day."""

PLAIN = frozenset({Asks.MOMENT, Asks.SWELLING, Asks.NUMB, Asks.BEARS, Asks.NEXT_MORNING})
"""Questions about a complaint that yes or no answers."""


HOPPED = frozenset({BodyPart.GROIN, BodyPart.HIP, BodyPart.SHIN, BodyPart.FOOT, BodyPart.HEEL})
"""Parts where bone may be behind it: not four steps are asked for, but whether loading or a hop hurts."""

FOR_A_CLINICIAN = frozenset({Reason.BONE_SPOT, Reason.GROIN_OR_HIP})
"""One sore spot of bone, and groin or front of the hip on loading."""

XRAY = {
    BodyPart.ANKLE: "xray_ankle",
    BodyPart.FOOT: "xray_foot",
    BodyPart.ARCH: "xray_foot",
    BodyPart.KNEE: "xray_knee",
}
"""When an X-ray is worth asking for after one moment, as information: the Ottawa rules (Stiell et al. 1992 to 1996)."""

MOST_QUESTIONS = 3


@dataclass(frozen=True, slots=True)
class Asked:
    """A complaint about which questions were asked: all that is known of it by now, and how many there were."""

    complaint: Complaint
    answers: Answers
    tries: int


def levels_of(flag: Flag) -> tuple[Choice, ...]:
    """Numbers for a part that was spoken of before; each button names the part, however late it is pressed."""
    side = f"{flag.side} " if flag.side in (Side.LEFT, Side.RIGHT) else ""
    part = f"{side}{flag.part}".replace("_", " ")
    return tuple(replace(each, text=f"{part} {each.text}/10") for each in LEVELS)


def triage(scene: Scene) -> Part | None:
    """Answer complaints, and answers to what was asked of one."""
    if Kind.URGENT in scene.taken:
        return None
    if scene.reading.body:
        return _answer(scene, scene.reading.body, _same(scene))
    asked = _answered(scene)
    return None if asked is None else _answer(scene, (asked.complaint,), asked)


def _same(scene: Scene) -> Asked | None:
    """What was answered before of the one complaint that is spoken of again."""
    question, said = scene.known.question, scene.reading.body
    asked = question.complaint if question else None
    if question is None or asked is None or len(said) != 1 or said[0].part is not asked.part:
        return None
    return Asked(replace(said[0], side=said[0].side or asked.side), question.answers, question.tries)


def cleared_parts(scene: Scene) -> Part | None:
    """Parts said to be well again lift their flags."""
    flagged = dict.fromkeys(flag.part for flag in scene.known.flags if _is_open(flag))
    whole = BodyPart.BODY in scene.reading.clear and not scene.reading.body
    gone = _gone_by_morning(scene)
    parts = tuple(part for part in flagged if whole or part is gone or part in scene.reading.clear)
    if not parts or Kind.URGENT in scene.taken:
        return None
    if any(Danger.BONE in hold.codes for hold in scene.known.holds):
        return Part((), (Say(scene.who, Kind.ASK, ("not_seen_yet",), Facts(asks=None)),))
    changes: tuple[Change, ...] = tuple(ClearFlag(part, scene.today, scene.id) for part in parts)
    was_red = any(flag.colour is Colour.RED and flag.part in parts and _is_open(flag) for flag in scene.known.flags)
    words = ("cleared_red", "next_step") if was_red else ("cleared", "next_step")
    said = Say(scene.who, Kind.CLEARED, words, Facts(parts=parts, next=None))
    return Part((*changes, SetQuestion(None), Replan()), (said,))


def _gone_by_morning(scene: Scene) -> BodyPart | None:
    """The part of which "still there?" was answered by no."""
    question = scene.known.question
    if question is None or question.asks is not Asks.NEXT_MORNING or question.complaint is None:
        return None
    return question.complaint.part if says_no(scene.reading.text) else None


def _is_open(flag: Flag) -> bool:
    return flag.cleared_on is None


def _answered(scene: Scene) -> Asked | None:
    """The complaint that an open question was about, with the answer in it."""
    question, text = scene.known.question, scene.reading.text
    if question is None or question.complaint is None:
        return None
    asked = Asked(question.complaint, question.answers, question.tries)
    number, course = bare_number(text), bare_course(text)
    if question.asks is Asks.LEVEL and number is not None and 0 <= number <= 10:
        return replace(asked, complaint=replace(asked.complaint, level=number))
    if question.asks is Asks.COURSE and course is not None:
        return replace(asked, complaint=replace(asked.complaint, course=course))
    side = bare_side(text)
    if question.asks is Asks.SIDE and side is not None:
        return replace(asked, complaint=replace(asked.complaint, side=side))
    if question.asks in PLAIN and (says_yes(text) or says_no(text)):
        return _said_plainly(asked, question.asks, says_yes(text))
    return None


def _said_plainly(asked: Asked, asks: Asks, is_so: bool) -> Asked | None:
    """A yes or no put where it belongs; "no, it's gone" next morning is a part that is well again, not an answer."""
    if asks is Asks.NEXT_MORNING and not is_so:
        return None
    if asks is Asks.BEARS and asked.complaint.part in HOPPED:
        return replace(asked, answers=replace(asked.answers, on_loading=is_so))
    if asks is Asks.BEARS:
        asked = replace(asked, complaint=replace(asked.complaint, bears=is_so))
    return replace(asked, answers=replace(asked.answers, **{asks.value: is_so}))


def _answer(scene: Scene, complaints: tuple[Complaint, ...], asked: Asked | None = None) -> Part:
    if any(each.bears is False for each in complaints):
        return danger_of(scene, (Danger.BONE,), complaints)
    answers = asked.answers if asked else Answers()
    own = {each.part: _context(scene, each, answers) for each in complaints}
    found = triage_all(complaints, own=own)
    flags = tuple(
        RaiseFlag(Flag(said.part, said.side, each.colour, scene.today), scene.id)
        for said, each in zip(complaints, found.each, strict=True)
    )
    session = _adjusted(scene, found.gravest)
    steps: tuple[Change, ...] = (Fix(Fixed(session.on, session), scene.id),) if session else ()
    question = _question(scene, complaints, found, asked)
    said = _say(scene, found, session, question)
    is_news = _is_news(scene, found)
    told = notice(scene, "notice_red", why=found.gravest.why, needs=Share.BODY) if is_news else ()
    return Part((*flags, *_held(scene, found), *steps, _anew(scene, found), SetQuestion(question)), (said, *told))


def _anew(scene: Scene, found: Triages) -> Change:
    """Amber and red change what comes after, at once; soreness changes the next session alone, so the plan can wait."""
    standing = (flag.colour for flag in scene.known.flags if _is_open(flag))
    is_green = all(colour is Colour.GREEN for colour in (*standing, *(each.colour for each in found.each)))
    return MarkStale() if is_green else Replan()


def _is_news(scene: Scene, found: Triages) -> bool:
    """Whether a part is red that was not red before: the coach hears of it once."""
    red = {flag.part for flag in scene.known.flags if flag.colour is Colour.RED and _is_open(flag)}
    return any(each.colour is Colour.RED and each.part not in red for each in found.each)


def _held(scene: Scene, found: Triages) -> tuple[Change, ...]:
    """What may be bone is not lifted by "fine now", only by a clinician. Common practice, no source."""
    maybe_bone = any(not FOR_A_CLINICIAN.isdisjoint(each.why) for each in found.each)
    return (RaiseHold(Hold((Danger.BONE,), scene.today, scene.id)),) if maybe_bone else ()


def _context(scene: Scene, complaint: Complaint, answers: Answers) -> TriageContext:
    flags = [flag for flag in scene.known.flags if flag.part is complaint.part]
    ambers = [each for each in flags if each.colour is Colour.AMBER and each.since > scene.today - WEEK]
    standing = next((each.colour for each in reversed(flags) if _is_open(each)), None)
    since = [each.since for each in flags if _is_open(each)]
    return TriageContext(
        answers=answers,
        days_since=float((scene.today - min(since)).days) if since else None,
        ambers_last_week=len({each.since for each in ambers if each.since != scene.today}),
        age=scene.profile.age,
        standing=standing,
    )


def _adjusted(scene: Scene, gravest: Triage) -> Session | None:
    """The next session as the flag leaves it; None where nothing is to be done until it is looked at."""
    over = bool(scene.reading.did) or scene.reading.missed
    session = next(scene.coming(), None) if over else scene.session_next
    change = ADJUST.get(gravest.do)
    if session is None or change is None or scene.stopped:
        return None
    if gravest.colour is Colour.GREEN:
        return session
    return change(session)


def _question(scene: Scene, complaints: tuple[Complaint, ...], found: Triages, asked: Asked | None) -> Question | None:
    """The most useful open question; three at most for one complaint."""
    gravest = found.gravest
    now = [Asks(ask.value) for ask in gravest.asks if ask not in ASKED_LATER]
    tries = asked.tries + 1 if asked else 1
    if not now or tries > MOST_QUESTIONS:
        return None
    said = next(each for each in complaints if each.part is gravest.part)
    answers = asked.answers if asked else Answers()
    return Question(now[0], scene.today, complaint=said, answers=answers, tries=tries)


def _say(scene: Scene, found: Triages, session: Session | None, asked: Question | None) -> Say:
    gravest = found.gravest
    facts = Facts(
        flag=gravest.colour,
        parts=tuple(dict.fromkeys(each.part for each in found.each)),
        do=gravest.do,
        session=session,
        asks=asked.asks if asked else None,
        why=gravest.why,
    )
    xray = XRAY.get(gravest.part) if Reason.ONE_MOMENT in gravest.why else None
    words = (f"triage_{gravest.colour}_{gravest.do}", f"see_{gravest.see}", *((xray,) if xray else ()))
    if asked is None:
        return Say(scene.who, Kind.TRIAGE, words, facts)
    choices = CHOICES.get(asked.asks, YES_NO)
    hops = asked.asks is Asks.BEARS and asked.complaint is not None and asked.complaint.part in HOPPED
    question = "ask_loading" if hops else f"ask_{asked.asks}"
    return Say(scene.who, Kind.TRIAGE, (*words, question), facts, choices=choices)
