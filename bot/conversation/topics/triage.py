"""A body complaint: soreness or injury, by the rules of `planning.safety`; the next session follows from the flag."""

from dataclasses import replace
from datetime import timedelta

from bot.conversation.answers import bare_course, bare_number, says_no, says_yes
from bot.conversation.changes import Change, ClearFlag, Fix, RaiseFlag, Replan, SetQuestion
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.coach import notice
from planning.safety import triage_all
from planning.step import ease, soften, swap
from planning.terms.choices import Colour, Share
from planning.terms.choices import Part as BodyPart
from planning.terms.entry import Complaint, Fixed, Flag
from planning.terms.plan import Session
from planning.terms.triage import Answers, Ask, Triage, TriageContext, TriageDo, Triages

ADJUST = {TriageDo.CARRY_ON: soften, TriageDo.EASE: ease, TriageDo.SWAP: swap}
WEEK = timedelta(days=7)
YES_NO = (Choice("yes", "yes"), Choice("no", "no"))
CHOICES = {
    Asks.LEVEL: (Choice("level_2", "2"), Choice("level_4", "4"), Choice("level_6", "6"), Choice("level_8", "8")),
    Asks.COURSE: (Choice("eased", "it eased"), Choice("same", "same throughout"), Choice("worse", "it got worse")),
    Asks.SIDE: (Choice("left", "left"), Choice("right", "right"), Choice("both", "both sides")),
}
ASKED_LATER = frozenset({Ask.NEXT_MORNING, Ask.SEEN})
"""Questions that have their own day."""

PLAIN = frozenset({Asks.MOMENT, Asks.SWELLING, Asks.NUMB, Asks.BEARS, Asks.NEXT_MORNING})
"""Questions about a complaint that yes or no answers."""


def triage(scene: Scene) -> Part | None:
    """Answer complaints, and answers to what was asked of one."""
    if Kind.URGENT in scene.taken:
        return None
    if scene.reading.body:
        return _answer(scene, scene.reading.body, {})
    answered = _answered(scene)
    if answered is not None:
        return _answer(scene, *answered)
    return None


def cleared_parts(scene: Scene) -> Part | None:
    """Parts said to be well again lift their flags."""
    flagged = dict.fromkeys(flag.part for flag in scene.known.flags if _is_open(flag))
    whole = BodyPart.BODY in scene.reading.clear and not scene.reading.body
    parts = tuple(part for part in flagged if whole or part in scene.reading.clear)
    if not parts or Kind.URGENT in scene.taken:
        return None
    changes: tuple[Change, ...] = tuple(ClearFlag(part, scene.today, scene.id) for part in parts)
    was_red = any(flag.colour is Colour.RED and flag.part in parts and _is_open(flag) for flag in scene.known.flags)
    words = ("cleared_red", "next_step") if was_red else ("cleared", "next_step")
    said = Say(scene.who, Kind.CLEARED, words, Facts(parts=parts, next=None))
    return Part((*changes, SetQuestion(None), Replan()), (said,))


def _is_open(flag: Flag) -> bool:
    return flag.cleared_on is None


def _answered(scene: Scene) -> tuple[tuple[Complaint, ...], dict[str, bool]] | None:
    """The complaint that an open question was about, with the answer in it."""
    question = scene.known.question
    if question is None or question.part is None:
        return None
    complaint = Complaint(question.part, question.side, question.sense, question.level)
    text, asks = scene.reading.text, question.asks
    number = bare_number(text)
    if asks is Asks.LEVEL and number is not None and 0 <= number <= 10:
        return (replace(complaint, level=number),), {}
    course = bare_course(text)
    if asks is Asks.COURSE and course is not None:
        return (replace(complaint, course=course),), {}
    if asks in PLAIN and (says_yes(text) or says_no(text)):
        if asks is Asks.NEXT_MORNING and says_no(text):
            return None
        return (complaint,), {asks.value: says_yes(text)}
    return None


def _answer(scene: Scene, complaints: tuple[Complaint, ...], answers: dict[str, bool]) -> Part:
    own = {each.part: _context(scene, each, answers) for each in complaints}
    found = triage_all(complaints, own=own)
    flags = tuple(
        RaiseFlag(Flag(said.part, said.side, each.colour, scene.today), scene.id)
        for said, each in zip(complaints, found.each, strict=True)
    )
    session = _adjusted(scene, found.gravest)
    steps: tuple[Change, ...] = (Fix(Fixed(session.on, session), scene.id),) if session else (Replan(),)
    asked = _question(scene, complaints, found)
    said = _say(scene, found, session, asked)
    told = notice(scene, "notice_red", why=found.gravest.why, needs=Share.BODY) if _is_red(found) else ()
    return Part((*flags, *steps, SetQuestion(asked)), (said, *told))


def _is_red(found: Triages) -> bool:
    return found.gravest.colour is Colour.RED


def _context(scene: Scene, complaint: Complaint, answers: dict[str, bool]) -> TriageContext:
    flags = [flag for flag in scene.known.flags if flag.part is complaint.part]
    ambers = [each for each in flags if each.colour is Colour.AMBER and each.since > scene.today - WEEK]
    standing = next((each.colour for each in reversed(flags) if _is_open(each)), None)
    since = [each.since for each in flags if _is_open(each)]
    return TriageContext(
        answers=Answers(**answers),
        days_since=float((scene.today - min(since)).days) if since else None,
        ambers_last_week=len({each.since for each in ambers if each.since != scene.today}),
        age=scene.profile.age,
        standing=standing,
    )


def _adjusted(scene: Scene, gravest: Triage) -> Session | None:
    """The next session as the flag leaves it; None where nothing is to be done until it is looked at."""
    session = scene.session_next
    change = ADJUST.get(gravest.do)
    if session is None or change is None or scene.stopped:
        return None
    if gravest.colour is Colour.GREEN:
        return session
    return change(session)


def _question(scene: Scene, complaints: tuple[Complaint, ...], found: Triages) -> Question | None:
    gravest = found.gravest
    now = [ask for ask in gravest.asks if ask not in ASKED_LATER]
    if not now:
        return None
    said = next(each for each in complaints if each.part is gravest.part)
    asks = Asks(now[0].value)
    return Question(asks, scene.today, part=said.part, side=said.side, sense=said.sense, level=said.level)


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
    words = (f"triage_{gravest.colour}_{gravest.do}", f"see_{gravest.see}")
    if asked is None:
        return Say(scene.who, Kind.TRIAGE, words, facts)
    choices = CHOICES.get(asked.asks, YES_NO)
    return Say(scene.who, Kind.TRIAGE, (*words, f"ask_{asked.asks}"), facts, choices=choices)
