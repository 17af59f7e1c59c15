"""Things done and missed: kept, thanked for without fuss, the next step named. Nobody owes the rest."""

from dataclasses import replace
from datetime import date

from bot.conversation.changes import AddEntry, Change, ClearFlag, MarkStale, ReplaceEntries, SetQuestion, SetSnooze
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.beyond import beyond
from bot.conversation.topics.effort import is_asked, judged
from bot.conversation.topics.firsts import first
from bot.conversation.topics.hours import happened
from bot.conversation.topics.misses import after_miss, gives_reason
from bot.conversation.topics.triage import MOST_QUESTIONS, levels_of
from planning.terms.choices import Activity, Colour, Purpose
from planning.terms.entry import Complaint, Entry, Flag, Status
from planning.terms.plan import Session

OUTINGS = frozenset({Activity.WALK, Activity.RUN, Activity.RUN_WALK, Activity.SESSION})
ASK_NOTHING_MORE = frozenset({Kind.URGENT, Kind.CARE, Kind.TRIAGE, Kind.RESCUE})
NO_REPORT = frozenset({Kind.UNDONE, Kind.CHANGED})
"""What was said is a correction, or a race to come."""

QUIET_SESSIONS = 3
"""An amber flag lasts until "clear", or until so many sessions without it."""

EFFORTS = (
    Choice("effort_easy", "effort 2"),
    Choice("effort_moderate", "effort 3"),
    Choice("effort_hard", "effort 5"),
    Choice("effort_very_hard", "effort 7"),
)


def log(scene: Scene) -> Part | None:
    """Keep what was done or missed, or how hard it was."""
    reading = scene.reading
    if scene.taken & NO_REPORT:
        return None
    if any(each.doubtful for each in reading.did):
        return Part(
            (SetQuestion(Question(Asks.DONE, scene.today)),),
            (Say(scene.who, Kind.ASK, ("ask_amount",), Facts(asks=Asks.DONE)),),
        )
    if reading.did:
        return _done(scene)
    if reading.missed and not gives_reason(scene):
        return _missed(scene)
    if reading.effort is not None:
        return _rated(scene)
    return None


def _done(scene: Scene) -> Part:
    entries = tuple(_entry(scene, place) for place in range(len(scene.reading.did)))
    session = _session_of(scene, entries)
    changes = _kept(scene, entries)
    facts = Facts(entries=entries, session=session, next=None, why=())
    words = (_thanks(session, entries), *_after_race(session), "next_step")
    said = Say(scene.who, Kind.LOGGED, words, facts)
    asked, said = _asking(scene, said, session, entries)
    ratings = tuple(each for each in entries if each.planned_on)
    notes = (judged(scene, ratings), first(scene, session, entries), beyond(scene, session, entries))
    follow = (change for note in (*notes, happened(scene, session)) for change in note.changes)
    told = (say for note in notes for say in note.says)
    return Part((*changes, *asked, *_outlived(scene, entries), MarkStale(), *follow), (said, *told))


def _after_race(session: Session | None) -> tuple[str, ...]:
    """A finish is a finish; rest comes, and then the next aim, whenever they want one."""
    return ("race_next",) if session is not None and session.purpose is Purpose.RACE else ()


def _asking(
    scene: Scene, said: Say, session: Session | None, entries: tuple[Entry, ...]
) -> tuple[tuple[Change, ...], Say]:
    """The question that goes with it: how the part with the amber flag took the session, else how hard it was."""
    if scene.taken & ASK_NOTHING_MORE:
        return (), said
    flag = next((each for each in scene.known.flags if _is_watched(each, session)), None)
    if flag is not None:
        question = Question(Asks.LEVEL, scene.today, complaint=Complaint(flag.part, flag.side), tries=MOST_QUESTIONS)
        facts = replace(said.facts, asks=Asks.LEVEL, parts=(flag.part,))
        words = (*said.words, "ask_during")
        return (SetQuestion(question),), replace(said, words=words, facts=facts, choices=levels_of(flag))
    if entries[0].effort is not None or not is_asked(scene, session):
        return (), said
    facts = replace(said.facts, asks=Asks.EFFORT)
    asking = replace(said, words=(*said.words, "ask_effort"), facts=facts, choices=EFFORTS)
    return (SetQuestion(Question(Asks.EFFORT, scene.today)),), asking


def _is_watched(flag: Flag, session: Session | None) -> bool:
    """Whether an amber flag stood before the session."""
    is_amber = flag.colour is Colour.AMBER and flag.cleared_on is None
    return session is not None and is_amber and flag.since < session.on


def _outlived(scene: Scene, entries: tuple[Entry, ...]) -> tuple[Change, ...]:
    """Green and amber flags that three sessions passed without a word about them."""
    said = {each.part for each in scene.reading.body}
    done = {each.planned_on for each in (*scene.known.entries, *entries) if each.status is Status.DONE}
    return tuple(
        ClearFlag(flag.part, scene.today, scene.id)
        for flag in scene.known.flags
        if flag.cleared_on is None
        and flag.colour is not Colour.RED
        and flag.part not in said
        and len([day for day in done if day is not None and day > flag.since]) >= QUIET_SESSIONS
    )


def _entry(scene: Scene, place: int) -> Entry:
    did = scene.reading.did[place]
    day = did.on or scene.today
    planned = _planned_day(scene, did.kind, did.on)
    return Entry(
        on=planned if did.on is None and did.kind is Activity.SESSION and planned else day,
        kind=did.kind,
        minutes=did.minutes,
        km=did.km,
        share=did.share,
        effort=scene.reading.effort,
        planned_on=planned,
        from_id=scene.id,
    )


def _planned_day(scene: Scene, kind: Activity, said: date | None) -> date | None:
    """The session that something done belongs to; None for an extra outing, and for what is no outing."""
    if kind not in OUTINGS:
        return None
    if said is not None:
        return said if scene.session_on(said) else None
    session = scene.session_unanswered if kind is Activity.SESSION else scene.session_on(scene.today)
    return session.on if session else None


def _session_of(scene: Scene, entries: tuple[Entry, ...]) -> Session | None:
    day = next((each.planned_on for each in entries if each.planned_on), None)
    return scene.session_on(day) if day else None


def _kept(scene: Scene, entries: tuple[Entry, ...]) -> tuple[Change, ...]:
    """Entries as rows. A second report of a session is one entry with the first if one of the two has no amount."""
    day = next((each.planned_on for each in entries if each.planned_on), None)
    before = tuple(each for each in scene.known.entries if day is not None and each.planned_on == day)
    added = tuple(AddEntry(each, place) for place, each in enumerate(entries))
    if not before or day is None:
        return added
    outings = tuple(each for each in entries if each.planned_on == day)
    said = all(_has_amount(each) for each in before) and all(_has_amount(each) for each in outings)
    if said and all(each.status is Status.DONE for each in before):
        return added
    stands = outings if any(map(_has_amount, outings)) or not any(map(_has_amount, before)) else before
    rest = (each for each in added if each.entry.planned_on != day)
    later = tuple(replace(each, place=len(stands) + each.place) for each in rest)
    return (ReplaceEntries(day, _rated_as(stands, scene.reading.effort), scene.id), *later)


def _rated_as(entries: tuple[Entry, ...], effort: float | None) -> tuple[Entry, ...]:
    return entries if effort is None else tuple(replace(each, effort=effort) for each in entries)


def _has_amount(entry: Entry) -> bool:
    return entry.minutes is not None or entry.km is not None


def _thanks(session: Session | None, entries: tuple[Entry, ...]) -> str:
    minutes = sum(each.minutes or 0 for each in entries if each.planned_on)
    part = any(each.share is not None and each.share < 1 for each in entries)
    if session and (part or (minutes and minutes < session.minutes)):
        return "logged_part"
    return "logged" if session else "logged_extra"


def _missed(scene: Scene) -> Part:
    day = scene.reading.missed_day or (scene.session_unanswered.on if scene.session_unanswered else scene.today)
    session = scene.session_on(day)
    entry = Entry(on=day, status=Status.MISSED, planned_on=session.on if session else None, from_id=scene.id)
    known = any(each.planned_on == day for each in scene.known.entries)
    change = ReplaceEntries(day, (entry,), scene.id) if known else AddEntry(entry)
    facts = Facts(entries=(entry,), session=session, next=None, why=())
    said = Say(scene.who, Kind.LOGGED, ("missed", "next_step"), facts)
    more = after_miss(scene, (entry,)) if session else Part()
    return Part((change, SetSnooze(None), MarkStale(), *more.changes), (said, *more.says))


def _rated(scene: Scene) -> Part | None:
    """A rating that came after its session."""
    done = [each for each in scene.known.entries if each.status is Status.DONE and each.planned_on]
    if not done or done[-1].planned_on is None or (scene.today - done[-1].on).days > 2:
        return None
    day = done[-1].planned_on
    entries = tuple(replace(each, effort=scene.reading.effort) for each in done if each.planned_on == day)
    facts = Facts(entries=entries, session=scene.session_on(day), next=None, why=())
    said = Say(scene.who, Kind.LOGGED, ("rated", "next_step"), facts)
    more = judged(scene, entries)
    return Part(
        (ReplaceEntries(day, entries, scene.id), SetQuestion(None), MarkStale(), *more.changes), (said, *more.says)
    )
