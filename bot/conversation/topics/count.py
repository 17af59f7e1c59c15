"""A live count: a message at each change while the rest of a session is walked. It can be stopped by a word."""

from dataclasses import replace
from datetime import datetime, timedelta

from bot.conversation.changes import AddEntry, Change, MarkStale, Outcome, SetMarks, SetQuestion
from bot.conversation.known import Count, Known, Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from planning.terms.choices import Activity, Do
from planning.terms.entry import Entry
from planning.terms.plan import Segment, Session, in_minutes
from planning.terms.steps import Rescue

MOST_PARTS = 11
"""A standing rest and ten minutes are counted one by one; what is left then is one part."""

TOO_LATE = timedelta(minutes=10)
"""A count that the bot was down for is let go."""


def started(scene: Scene, session: Session, left: Rescue) -> Part:
    """The count begins now."""
    count = Count(session.on, scene.now, _parts(left.segments), 0, scene.id)
    facts = Facts(left_min=left.left_min, segments=left.segments, asks=Asks.COURSE)
    said = Say(scene.who, Kind.RESCUE, ("count_begins", "rescue_danger"), facts, choices=STEER)
    question = Question(Asks.COURSE, scene.today, session_on=session.on)
    marks = replace(scene.known.marks, count=count, rescued_on=scene.today)
    return Part((SetMarks(marks), SetQuestion(question)), (said,))


STEER = (Choice("rescue_better", "better"), Choice("rescue_worse", "worse"))


def _parts(segments: tuple[Segment, ...]) -> tuple[Segment, ...]:
    first, rest = segments[:MOST_PARTS], segments[MOST_PARTS:]
    return (*first, Segment(Do.WALK, sum(each.seconds for each in rest))) if rest else first


def counted(known: Known, now: datetime) -> Outcome:
    """One part is over: the next one is called, or the count is at its end. What was missed is not called late."""
    count = known.marks.count
    if count is None:
        return Outcome()
    if now - count.ends_at(len(count.parts) - 1) > TOO_LATE:
        return Outcome((SetMarks(replace(known.marks, count=None)),))
    told = sum(count.ends_at(place) <= now for place in range(len(count.parts)))
    if told == len(count.parts):
        return _at_the_end(known, count)
    kept = SetMarks(replace(known.marks, count=replace(count, told=told)))
    return Outcome((kept,), (_call(known, count, told),))


def _call(known: Known, count: Count, told: int) -> Say:
    """The part that begins now."""
    left = count.parts[told:]
    facts = Facts(left_min=_minutes(left), segments=left, asks=None)
    walks = [place for place, each in enumerate(count.parts) if each.do is Do.WALK]
    slots = (Slot("place", str(walks.index(told) + 1)), Slot("of", str(len(walks))))
    words = "count_on" if told == MOST_PARTS else "count_minute"
    return Say(known.who, Kind.RESCUE, (words,), facts, slots=slots, key=_key(count, told))


def _at_the_end(known: Known, count: Count) -> Outcome:
    """All of it may have been walked, or a part; only they know."""
    minutes = _minutes(count.parts)
    choices = (Choice("count_all", f"did {minutes:g} min"), Choice("part", opens=Asks.DONE))
    facts = Facts(left_min=0, segments=(), asks=Asks.DONE)
    slots = (Slot("minutes", f"{minutes:g}"),)
    key = _key(count, len(count.parts))
    said = Say(known.who, Kind.RESCUE, ("count_end", "ask_count"), facts, choices, slots, key=key)
    question = SetQuestion(Question(Asks.DONE, count.on, session_on=count.on))
    return Outcome((SetMarks(replace(known.marks, count=None)), question), (said,))


def stopped(scene: Scene) -> Part:
    """The count ends before its end: the minutes up to now are kept as what they are."""
    count = scene.known.marks.count
    if count is None:
        return Part()
    walked = min((scene.now - count.began_at).total_seconds() / 60, _minutes(count.parts)) // 1
    over = SetMarks(replace(scene.known.marks, count=None))
    if not walked:
        return Part((over,))
    entry = Entry(scene.today, kind=Activity.SESSION, minutes=walked, planned_on=count.on, from_id=scene.id)
    said = Say(scene.who, Kind.LOGGED, ("count_kept",), Facts(entries=(entry,)))
    changes: tuple[Change, ...] = (over, AddEntry(entry), MarkStale())
    return Part(changes, (said,))


def _minutes(parts: tuple[Segment, ...]) -> float:
    return in_minutes(sum(each.seconds for each in parts))


def _key(count: Count, told: int) -> str:
    return f"count:{count.from_id}:{told}"
