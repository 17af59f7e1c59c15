"""The order in which topics answer: danger first. One reply gets one message, told by the gravest thing said."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from bot.conversation.agenda import CARE
from bot.conversation.changes import Change, KeepDraft, Outcome, SetMarks, comes_from, marks_after
from bot.conversation.coach.another import speaks_of_another
from bot.conversation.coach.turn import coach_due, coach_turn
from bot.conversation.events import Due, Event, Heard, Invited, Opened, Outdated, Shared
from bot.conversation.hearing import hear
from bot.conversation.known import Hold, Known
from bot.conversation.says import GRAVITY, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.survey import invited, survey, with_sign
from bot.conversation.topics import (
    change,
    cleared,
    hard_day,
    hours,
    journey,
    later,
    log,
    misses,
    pause,
    questions,
    resize,
    small,
    sure,
    triage,
    wants,
    weight,
)
from bot.conversation.topics.care import care, caring
from bot.conversation.topics.coach import coach
from bot.conversation.topics.danger import danger, signs_in, urgent
from bot.conversation.topics.due import fell_due
from bot.conversation.topics.heart import heart_tablets
from bot.conversation.topics.join import asked_to_join, joining
from bot.conversation.topics.race import race
from bot.conversation.topics.rescue import rescue
from bot.conversation.topics.sure import first_sure
from bot.reading import read
from planning.terms.choices import Alarm, Danger, Role
from planning.terms.person import Profile

Topic = Callable[[Scene], Part | None]

TOPICS: tuple[Topic, ...] = (
    danger,
    care,
    hard_day.loss,
    cleared.cleared,
    triage.triage,
    triage.cleared_parts,
    rescue,
    change.correct,
    race,
    log.log,
    wants.leaving,
    joining,
    hours.hour,
    sure.sure,
    resize.less_time,
    resize.weather,
    hard_day.bad_night,
    hard_day.no_time,
    change.habit,
    journey.place,
    later.moved,
    later.later,
    pause.pause,
    weight.weight,
    heart_tablets,
    questions.questions,
    wants.wants,
    coach,
    misses.why_missed,
    small.good_news,
    small.unread,
)
"""Who gets to answer, and in which order."""

GRAVE: tuple[Topic, ...] = (danger, care, log.log)
"""What still answers when danger or a need of care was said: help, and what was done is kept. No training talk."""


def converse(known: Known, event: Event, now: datetime) -> Outcome:
    """What *event* leads to, for a person of whom that much is *known*, at the UTC instant *now*."""
    profile = known.profile
    match event:
        case Due():
            if profile is None:
                return Outcome()
            fall = coach_due if profile.role is Role.COACH else fell_due
            return fall(known, profile, event, now)
        case Invited():
            return invited(known, event, now) if profile is None else asked_to_join(known, profile, event, now)
        case Shared():
            return _file(known, now)
        case Heard() | Opened() | Outdated():
            return _stranger(known, event, now) if profile is None else _answer(known, profile, event, now)


def _file(known: Known, now: datetime) -> Outcome:
    """A file came: none is read so far, and that is said."""
    said = Say(known.who, Kind.NOT_READ, ("not_read_file",))
    kept = () if known.profile is None else (SetMarks(replace(known.marks, heard_at=now)),)
    return Outcome(kept, (said,))


def _stranger(known: Known, event: Heard | Opened | Outdated, now: datetime) -> Outcome:
    """Somebody who isn't enrolled: help if there is danger, else the survey. Nothing of danger is kept."""
    if isinstance(event, Outdated):
        event = Heard(event.id, read("", now, "UTC"))
    if isinstance(event, Heard):
        said = _help_for(known.who, event)
        if said is not None:
            draft = (KeepDraft(with_sign(known.draft)),) if known.draft else ()
            return Outcome(draft, (said,))
        if not event.private:
            return Outcome()
    outcome = first_sure(survey(known, event, now), now)
    if known.draft is not None:
        return outcome
    return replace(outcome, says=tuple(replace(say, also=(*say.also, Kind.STRANGER)) for say in outcome.says))


def help_alone(known: Known, event: Event, now: datetime) -> Outcome | None:
    """Danger or need answered by nothing but its own topic, for when the rest raised; None if there is none in it."""
    if known.profile is None or known.profile.role is Role.COACH or not isinstance(event, Heard):
        return None
    scene = Scene(known, known.profile, event, now)
    parts = (topic(scene) for topic in (danger, care))
    return next((Outcome(part.changes, part.says) for part in parts if part and part.changes), None)


def speaks_of_danger(text: str, now: datetime) -> bool:
    """Whether *text* asks for help before all that waits."""
    return hold_of(text, now, "") is not None


def hold_of(text: str, now: datetime, name: str) -> Hold | None:
    """What the words alone put on hold, for when nothing of the person can be looked at; *name*: of the message."""
    reading = hear(text, now.replace(tzinfo=None), "UTC")
    codes: tuple[Danger | Alarm, ...] = (*reading.danger, *reading.alarm)
    return Hold(codes, now.date(), name) if codes else None


def whatever_fails(who: str, text: str, now: datetime, otherwise: str = "error") -> Say:
    """The answer when answering raised: help if the text speaks of danger, else the sentence *otherwise*."""
    said = _help_for(who, Heard("", hear(text, now.replace(tzinfo=None), "UTC")))
    return said or Say(who, Kind.ERROR, (otherwise,))


def _help_for(who: str, heard: Heard) -> Say | None:
    reading = heard.reading
    codes: tuple[Danger | Alarm, ...] = (*reading.danger, *reading.alarm)
    grave = tuple(code for code in codes if code not in CARE)
    facts = Facts(reading=reading)
    if grave:
        said = urgent(who, grave)
    elif codes:
        said = caring(who, codes)
    else:
        return None
    return replace(said, facts=said.facts.joined(facts))


def _answer(known: Known, profile: Profile, event: Heard | Opened | Outdated, now: datetime) -> Outcome:
    if isinstance(event, Outdated):
        heard_now = SetMarks(replace(known.marks, heard_at=now))
        return Outcome((heard_now,), (Say(known.who, Kind.SMALL, ("old_button",)),))
    heard = event if isinstance(event, Heard) else Heard(event.id, read("", now, profile.tz))
    scene = Scene(known, profile, heard, now)
    if profile.role is Role.COACH:
        return _coach(scene)
    parts = (small.opened(scene, event.asks),) if isinstance(event, Opened) else _walk(scene)
    changes = tuple(change for part in parts for change in part.changes)
    says = tuple(say for part in parts for say in part.says)
    own = (*_edited(scene, says), *(say for say in says if say.to == known.who))
    others = tuple(say for say in says if say.to != known.who)
    return Outcome((*changes, _heard(scene, changes, own)), (*merged(own, scene), *others))


def _edited(scene: Scene, says: tuple[Say, ...]) -> tuple[Say, ...]:
    """What is said of a message whose wording was changed: the entries as they are now."""
    if not scene.heard.edited:
        return ()
    told = tuple(entry for say in says if isinstance(say.facts.entries, tuple) for entry in say.facts.entries)
    return (Say(scene.who, Kind.UNDONE, ("edited",), Facts(entries=told, next=None)),)


COUNTS_ON = frozenset({Kind.RESCUE, Kind.SMALL, Kind.NOT_READ, Kind.WHY, Kind.HELP})
"""Answers during which a live count goes on; whatever else was said ends it."""


def _heard(scene: Scene, changes: tuple[Change, ...], says: tuple[Say, ...]) -> SetMarks:
    """The marks as the topics left them, with the instant of this word."""
    marks = marks_after(scene.known.marks, changes)
    kinds = {say.kind for say in says}
    count = marks.count if kinds & COUNTS_ON else None
    kept = any(comes_from(change) == scene.id for change in changes)
    return SetMarks(replace(marks, count=count, heard_at=scene.now, kept_on=scene.today if kept else marks.kept_on))


def _coach(scene: Scene) -> Outcome:
    """A coach's own danger is answered like anybody's; else what they ask for."""
    outcome = coach_turn(scene)
    said = _help_for(scene.who, scene.heard)
    unread = any(say.kind is Kind.NOT_READ for say in outcome.says)
    return replace(outcome, says=(said,)) if said is not None and (unread or not outcome.says) else outcome


def _walk(scene: Scene) -> tuple[Part, ...]:
    """Each topic in turn; every one sees what the graver ones have taken up."""
    grave = bool(signs_in(scene)) or any(code in CARE for code in scene.reading.danger)
    topics = _topics(scene, grave=grave)
    parts: list[Part] = []
    for topic in topics:
        part = topic(scene)
        if part is not None:
            parts.append(part)
            scene = replace(scene, taken=scene.taken | {say.kind for say in part.says if say.to == scene.who})
    return tuple(parts)


def _topics(scene: Scene, *, grave: bool) -> tuple[Topic, ...]:
    """Who may answer. What a coach would say of somebody else does nothing when anybody else says it."""
    private = scene.heard.private
    if speaks_of_another(scene.reading.text, scene.here):
        return (danger, care, small.unread) if private and not grave else (danger, care)
    return GRAVE if grave or not private else TOPICS


def merged(says: tuple[Say, ...], scene: Scene) -> tuple[Say, ...]:
    """One message out of all that is to be told to the person; the gravest kind gives it its name."""
    if not says:
        return ()
    first, *rest = sorted(says, key=lambda say: GRAVITY[say.kind])
    facts = first.facts
    for each in rest:
        facts = facts.joined(each.facts if not _is_grave(first) else Facts(entries=each.facts.entries))
    if facts.reading is None:
        facts = replace(facts, reading=scene.reading)
    asking = next((say for say in (first, *rest) if say.choices), first)
    one = replace(
        first,
        words=_in_order(*(say for say in (first, *rest) if _is_grave(say) or not _is_grave(first))),
        facts=facts,
        choices=() if _is_grave(first) else asking.choices,
        slots=tuple(slot for say in (first, *rest) for slot in say.slots),
        also=tuple(dict.fromkeys(say.kind for say in rest if say.kind is not first.kind)),
    )
    return (one,)


def _is_grave(say: Say) -> bool:
    """Whether nothing but help may stand in the message."""
    codes = say.facts.codes
    return say.kind is Kind.URGENT or (say.kind is Kind.CARE and isinstance(codes, tuple) and _needs_help(codes))


def _needs_help(codes: tuple[object, ...]) -> bool:
    return any(code in (Danger.SELF_HARM, Danger.EATING) for code in codes)


LAST = ("this_session", "next_step")
"""Paragraphs that stand after all others but a question, and only once."""


def _in_order(*says: Say) -> tuple[str, ...]:
    """The paragraphs of all says: what is said, what is next, then one question, that of the gravest say."""
    words = [word for say in says for word in say.words]
    told = dict.fromkeys(word for word in words if word not in LAST and not word.startswith("ask_"))
    ends = [word for word in LAST if word in words][:1]
    asks = [word for word in words if word.startswith("ask_")][:1]
    return (*told, *ends, *asks)
