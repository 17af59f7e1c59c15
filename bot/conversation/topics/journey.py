"""Somewhere else for a while: the clock goes along, and comes home when the stay is over."""

from dataclasses import replace
from datetime import date, timedelta

from bot.conversation.changes import Change, KeepProfile, Outcome, SetMarks
from bot.conversation.known import Journey, Known
from bot.conversation.says import Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.survey.zones import place_said
from bot.reading.facts import Want
from planning.calendar import local, names_place
from planning.terms.person import Profile


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
    said = Say(scene.who, Kind.CHANGED, (words, "next_step"), facts, slots=slots)
    return Part(_kept(scene.known, scene.profile, zone, journey), (said,))


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
    return Part(_kept(scene.known, scene.profile, journey.home, None))


def home_again(known: Known, profile: Profile) -> Outcome:
    """The stay is over: the clock of home again, without a word."""
    journey = known.marks.journey
    return Outcome(_kept(known, profile, journey.home, None)) if journey else Outcome()


def _kept(known: Known, profile: Profile, zone: str, journey: Journey | None) -> tuple[Change, ...]:
    return (KeepProfile(replace(profile, tz=zone)), SetMarks(replace(known.marks, journey=journey)))
