"""Another race: the plan is laid out anew towards it, as far as that is safe."""

from dataclasses import replace
from datetime import date

from bot.conversation.answers import replaces_race, speaks_of_race
from bot.conversation.changes import KeepProfile, SetQuestion
from bot.conversation.says import Asks, Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.survey.gazetteer import country_of
from bot.conversation.survey.races import LONGEST_KM, SHORTEST_KM, RaceNamed, races_said
from bot.conversation.survey.shown import show_km
from planning.terms.choices import RaceMode
from planning.terms.person import Profile, Race


def race(scene: Scene) -> Part | None:
    """A race that is named with its distance and its date; with only one of them, the other is asked for."""
    if not speaks_of_race(scene.reading.text) or scene.taken:
        return None
    said = races_said(scene.reading.text, scene.today, country_of(scene.profile.tz) == "US")
    named = next((each for each in said.races if _is_whole(each, scene.today)), None)
    if named is None or named.km is None or named.on is None:
        return Part((), (Say(scene.who, Kind.ASK, ("ask_race",), Facts(asks=Asks.RACE)),)) if said.races else None
    wish = Race(named.on, named.km, said.mode or RaceMode.RUN_WALK, said.cutoff_min)
    shown = (Slot("distance", show_km(wish.km, scene.profile.units)), Slot("race_on", f"{wish.on.day} {wish.on:%B %Y}"))
    on_the_way = _is_on_the_way(scene.profile, wish) and not replaces_race(scene.reading.text)
    told = Say(scene.who, Kind.CHANGED, ("race_way" if on_the_way else "race_changed", "next_step"), slots=shown)
    profile = _with(scene.profile, wish, on_the_way=on_the_way)
    facts = Facts(next=None, why=())
    return Part((KeepProfile(profile), SetQuestion(None)), (replace(told, facts=facts),))


def _is_whole(named: RaceNamed, today: date) -> bool:
    return named.km is not None and named.on is not None and named.on > today and SHORTEST_KM <= named.km <= LONGEST_KM


def _is_on_the_way(profile: Profile, wish: Race) -> bool:
    """Whether it is a shorter one before the race that stands."""
    return profile.race is not None and wish.on < profile.race.on and wish.km < profile.race.km


def _with(profile: Profile, wish: Race, *, on_the_way: bool) -> Profile:
    if on_the_way:
        others = (each for each in profile.milestones if each.on != wish.on)
        return replace(profile, milestones=tuple(sorted((*others, wish), key=lambda each: each.on)))
    kept = tuple(each for each in profile.milestones if each.on < wish.on and each.km < wish.km)
    return replace(profile, race=wish, milestones=kept)
