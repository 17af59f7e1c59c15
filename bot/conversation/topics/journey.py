"""Somewhere else for a while: the clock goes along, and comes home when the stay is over."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.agenda import WAKE, bed_of, is_settled
from bot.conversation.changes import Change, KeepProfile, Outcome, SetMarks, SetSnooze
from bot.conversation.events import TOO_LATE
from bot.conversation.known import Journey, Known, Snooze
from bot.conversation.says import Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.survey.zones import place_said
from bot.reading.facts import Want
from planning.calendar import instant, is_quiet, local, names_place
from planning.terms.person import Profile
from planning.terms.plan import Session


def place(scene: Scene) -> Part | None:
    """Somewhere else: pushes that aren't out yet go by the clock there, until the end of the stay if it was said."""
    zone = _zone(scene)
    if Kind.URGENT in scene.taken or Kind.CARE in scene.taken:
        return None
    if zone is None:
        return _back(scene)
    until = _until(scene)
    before = scene.known.marks.journey
    home = before.home if before else scene.profile.tz
    journey = Journey(home, until) if zone != home else None
    words = "place" if journey is None or until is None else "place_until"
    slots = (Slot("clock", local(scene.now, zone).strftime("%H:%M")),)
    facts = Facts(next=None, why=()) if words == "place" else Facts(next=None, why=(), until=until)
    changes, gone = _moved(scene.known, replace(scene.profile, tz=zone), journey, scene.now)
    said = Say(scene.who, Kind.CHANGED, (words, *gone, "next_step"), facts, slots=slots)
    return Part(changes, (said,))


def _until(scene: Scene) -> date | None:
    """The day of the way home goes by the clock there: a message too late is better than one at night."""
    last = scene.reading.place_until
    return None if last is None else last + timedelta(days=1)


def _zone(scene: Scene) -> str | None:
    """The one zone that the place lies in; None: no place was read, or there are several."""
    name = scene.reading.place
    if name is None:
        return None
    zones = (name,) if names_place(name) else place_said(name, scene.now).zones
    return zones[0] if len(zones) == 1 else None


def _back(scene: Scene) -> Part | None:
    """ "I'm back" ends a journey too."""
    journey = scene.known.marks.journey
    if journey is None or scene.reading.wants is not Want.RESUME:
        return None
    changes, gone = _moved(scene.known, replace(scene.profile, tz=journey.home), None, scene.now)
    facts = Facts(next=None, why=())
    return Part(changes, (Say(scene.who, Kind.CHANGED, (*gone, "next_step"), facts),) if gone else ())


def home_again(known: Known, profile: Profile, now: datetime) -> Outcome:
    """The stay is over: the clock of home again, without a word, if no session's hour goes by with it."""
    journey = known.marks.journey
    if journey is None:
        return Outcome()
    changes, gone = _moved(known, replace(profile, tz=journey.home), None, now)
    says = (Say(known.who, Kind.CHANGED, (*gone, "next_step"), Facts(next=None, why=())),) if gone else ()
    return Outcome(changes, says)


Words = tuple[str, ...]


def _moved(known: Known, profile: Profile, journey: Journey | None, now: datetime) -> tuple[tuple[Change, ...], Words]:
    """The clock of *profile* from *now* on, and the sentence that is due where a session's hour went by on the way.

    One that should just have come comes at once; any other is left out, and doesn't count as a day without a word.
    """
    marks = replace(known.marks, journey=journey)
    moved: tuple[Change, ...] = (KeepProfile(profile),)
    passed = [each.on for each in _passed(known, profile.tz, now)]
    if passed and _may_still_come(known, profile, passed[-1], now):
        moved = (*moved, SetSnooze(Snooze(passed.pop(), now, 0)))
    if passed:
        marks = replace(marks, pushed_on=passed[-1], closed_on=passed[-1], nudged_on=passed[-1])
    return (*moved, SetMarks(marks)), ("place_passed",) if passed else ()


def _passed(known: Known, zone: str, now: datetime) -> Iterator[Session]:
    """Sessions that were still to come by the clock before, and that are over by the one of *zone*."""
    assert known.profile is not None
    sent = known.marks.pushed_on
    for each in known.sessions:
        was_to_come = instant(each.on, each.at, known.profile.tz) > now and (sent is None or each.on > sent)
        if was_to_come and instant(each.on, each.at, zone) <= now and not is_settled(known, each.on):
            yield each


def _may_still_come(known: Known, profile: Profile, day: date, now: datetime) -> bool:
    """Whether the session of *day* is not too late yet, and nobody is asleep."""
    here = local(now, profile.tz)
    session = next(each for each in known.sessions if each.on == day)
    late = now - instant(day, session.at, profile.tz)
    return day == here.date() and late <= TOO_LATE and not is_quiet(here.time(), bed_of(profile), profile.wake or WAKE)
