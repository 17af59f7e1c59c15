"""Things done for the first time: noticed once, quietly."""

from collections.abc import Iterator
from dataclasses import replace

from bot.conversation.changes import SetMarks
from bot.conversation.known import First, FirstDone
from bot.conversation.says import Kind, Say
from bot.conversation.scene import Part, Scene
from planning.progress.review import minutes_done
from planning.terms.choices import Purpose
from planning.terms.entry import Entry, Status
from planning.terms.plan import Session

LENGTHS = ((First.HALF_HOUR, 30), (First.HOUR, 60), (First.NINETY, 90))
"""Minutes of one session. Common practice, no source."""


SOMETHING_WRONG = frozenset({Kind.URGENT, Kind.CARE, Kind.TRIAGE, Kind.RESCUE})
"""Beside these nothing is noticed."""

WORDS = {
    First.SESSION: "first_session",
    First.RUN: "first_run",
    First.HALF_HOUR: "first_half_hour",
    First.HOUR: "first_hour",
    First.NINETY: "first_ninety",
    First.RACE: "first_race",
}


def first(scene: Scene, session: Session | None, entries: tuple[Entry, ...]) -> Part:
    """The greatest thing that was done for the first time. What the person could do before they came is none."""
    if scene.taken & SOMETHING_WRONG:
        return Part()
    noticed = {each.what for each in scene.known.marks.firsts}
    found = [each for each in _found(scene, session, entries) if each not in noticed]
    if not found:
        return Part()
    firsts = (*scene.known.marks.firsts, *(FirstDone(each, scene.today) for each in found))
    said = Say(scene.who, Kind.LOGGED, (WORDS[found[-1]],))
    return Part((SetMarks(replace(scene.known.marks, firsts=firsts)),), (said,))


def _found(scene: Scene, session: Session | None, entries: tuple[Entry, ...]) -> Iterator[First]:
    """Smallest first."""
    if session is None:
        return
    if not any(each.status is Status.DONE for each in scene.known.entries):
        yield First.SESSION
    lengths = {session.on: session.minutes}
    done = [minutes_done(each, lengths) for each in entries if each.planned_on == session.on]
    if session.run_seconds and not scene.profile.jog_min and sum(done) >= session.minutes:
        yield First.RUN
    for what, minutes in LENGTHS:
        if max(scene.profile.longest_min, scene.profile.walk_min) < minutes <= sum(done):
            yield what
    if session.purpose is Purpose.RACE:
        yield First.RACE
