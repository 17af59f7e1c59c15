"""Days off, illness, a pause, and the way back. Nobody owes anything for them."""

from datetime import timedelta

from bot.conversation.changes import Change, EndBreaks, Replan, SetQuestion, SetSnooze, StartBreak
from bot.conversation.says import Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.reading.facts import Want
from planning.terms.entry import Break

FEVER_WAIT = timedelta(days=2)
"""Whole days without any session after a fever was said to be gone; the plan keeps them free. Common practice."""


def pause(scene: Scene) -> Part | None:
    """Start or end a break."""
    reading = scene.reading
    if Kind.URGENT in scene.taken or Kind.CARE in scene.taken:
        return None
    if reading.well or reading.wants is Want.RESUME:
        return _back(scene)
    if reading.off is not None:
        first = reading.off.first or scene.today
        return _begin(scene, Break(first, reading.off.last, reading.ill, reading.fever), "break")
    if reading.ill:
        return _begin(scene, Break(scene.today, None, ill=True, fever=reading.fever), "break_ill")
    if reading.wants is Want.PAUSE:
        return _begin(scene, Break(scene.today, None), "break_open")
    return None


def _begin(scene: Scene, days_off: Break, words: str) -> Part:
    if days_off.last is not None and days_off.last < days_off.first:
        return Part((), (Say(scene.who, Kind.ASK, ("break_backwards",), Facts(asks=None)),))
    facts = Facts(until=days_off.last, next=None)
    changes: tuple[Change, ...] = (StartBreak(days_off, scene.id), SetSnooze(None), SetQuestion(None), Replan())
    return Part(changes, (Say(scene.who, Kind.BREAK, (words, "next_step"), facts),))


def _back(scene: Scene) -> Part | None:
    standing = [each for each in scene.known.breaks if each.last is None or each.last >= scene.today]
    if not standing:
        return (
            None
            if scene.reading.well
            else Part((), (Say(scene.who, Kind.CHANGED, ("back_already", "next_step"), Facts(next=None, why=())),))
        )
    fever = any(each.fever for each in standing)
    last = scene.today if fever else scene.today - timedelta(days=1)
    words = "back_fever" if fever else "back"
    facts = Facts(until=last + FEVER_WAIT if fever else last, next=None)
    return Part((EndBreaks(last, scene.id), Replan()), (Say(scene.who, Kind.BREAK, (words, "next_step"), facts),))
