"""The time zone of a place that somebody names, or the places whose clocks show what they say."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from rapidfuzz import fuzz, process

from bot.conversation.survey.clock import PATTERN, Clock, clock_of
from bot.conversation.survey.gazetteer import cities, name_key, regions, settled, table, zone_countries
from bot.conversation.survey.numbers import digits
from bot.conversation.survey.text import bare, plain, visible
from planning.calendar import local, names_place

LONGEST_NAME = 4
"""Words of the longest name looked for."""
ALIKE = 87
"""Likeness in percent from which a misspelt name is taken, if all that are so alike share one clock."""
SHORTEST = 5
"""Letters of the shortest misspelt name."""
CLOCK_MINUTES = 10
"""How far a person's clock may be out."""
INITIALS = frozenset({"uk", "us", "usa", "nyc", "dc", "uae", "nz", "kl", "la", "cdmx", "u", "k", "s", "l", "a"})
OFFSET = re.compile(r"\b(?:gmt|utc) ?[+-] ?[0-9]|^[+-][0-9]{1,2}(?::?[0-9]{2})?$")
ZONE = re.compile(r"[A-Za-z]+(?:/[A-Za-z_+-]+){1,2}")


class PlaceKind(StrEnum):
    """What came of a place. `ONE`: its zone; `NEAR`: its zone by guess; `SEVERAL`: places of that name in several
    zones; `CLOCK`: zones whose clocks show the time that was said; `LETTERS`: an abbreviation or offset; `NONE`: no
    place.
    """

    ONE = "one"
    NEAR = "near"
    SEVERAL = "several"
    CLOCK = "clock"
    LETTERS = "letters"
    NONE = "none"


@dataclass(frozen=True, slots=True)
class PlaceSaid:
    """A place as understood: its name for people, and the zones that it can be in."""

    kind: PlaceKind
    name: str = ""
    zones: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class _Hit:
    key: str
    zones: tuple[str, ...]
    city: bool


def place_said(text: str, now: datetime) -> PlaceSaid:
    """The place that *text* names. *now*: the instant (aware) at which a time of day in it was said."""
    shown = visible(text)
    direct = next((each for each in ZONE.findall(shown) if names_place(_proper(each))), None)
    if direct:
        return PlaceSaid(PlaceKind.ONE, city_name(_proper(direct)), (_proper(direct),))
    hits = _hits(shown)
    if hits:
        return _meant(hits)
    if OFFSET.search(plain(text)) or any(word in table("letters")["names"] for word in _words(shown)):
        return PlaceSaid(PlaceKind.LETTERS)
    clock = _clock(digits(bare(text)))
    zones = zones_at(clock, now) if clock else ()
    return PlaceSaid(PlaceKind.CLOCK, "", zones) if zones else _misspelt(shown)


def city_name(zone: str) -> str:
    """The city that gave the *zone* its name."""
    return zone.rsplit("/", 1)[-1].replace("_", " ")


def shown_name(key: str) -> str:
    """The key of a name in capitals as people write it."""
    return " ".join(word.upper() if word in INITIALS else word.capitalize() for word in key.split())


def zones_at(clock: Clock, now: datetime) -> tuple[str, ...]:
    """Well-known zones whose clocks show that time *now*; of a bare hour either half of the day will do."""
    halves = (0, 12) if clock.half is None and not clock.exact and 0 < clock.hour <= 12 else (0,)
    first = clock.at("morning" if len(halves) == 2 else None)
    wanted = [(first.hour * 60 + first.minute + 60 * half) % 1440 for half in halves]
    return tuple(zone for zone in table("offered")["zones"] if any(_apart(zone, now, each) for each in wanted))


def _clock(said: str) -> Clock | None:
    """The time of day in *said*; a bare number is one only where nothing else is said."""
    found = PATTERN.search(said)
    return clock_of(found) if found and (found["f9"] is None or said == found.group()) else None


def _apart(zone: str, now: datetime, minutes: int) -> bool:
    there = local(now, zone)
    gap = abs(there.hour * 60 + there.minute - minutes)
    return min(gap, 1440 - gap) <= CLOCK_MINUTES


def _proper(zone: str) -> str:
    """A zone name in the capitals that the tz database gives it."""
    known = next((each for each in zone_countries() if each.lower() == zone.lower()), None)
    return known or re.sub(r"[A-Za-z]+", lambda word: word.group().capitalize(), zone)


def _words(shown: str) -> list[str]:
    return name_key(shown).split()


def _hits(shown: str) -> list[_Hit]:
    """Known names in the answer, the longest at each place; capital letters "OR" after a name are a state."""
    words, hits, place = _words(shown), [], 0
    while place < len(words):
        for length in range(min(LONGEST_NAME, len(words) - place), 0, -1):
            key = " ".join(words[place : place + length])
            hit = _known(key)
            if hit:
                hits.append(hit)
                place += length - 1
                break
        place += 1
    hits += [hit for code in shown.split()[1:] if (hit := _coded(code.strip(".,;()")))]
    return _without_words(hits)


def _without_words(hits: list[_Hit]) -> list[_Hit]:
    """The *hits* without common words ("nice, Leeds here") that don't go with the rest ("Austin, Texas" does)."""
    common = table("common")["names"]
    sure = [hit for hit in hits if hit.key not in common]
    fitting = [hit for hit in hits if hit in sure or all(set(hit.zones) & set(other.zones) for other in sure)]
    return fitting if sure else hits


def _known(key: str) -> _Hit | None:
    zones: Mapping[str, tuple[str, ...]] = cities()
    if key in zones and key in regions():
        return _Hit(key, tuple(dict.fromkeys((*zones[key], *regions()[key]))), True)
    if key in zones:
        return _Hit(key, zones[key], True)
    return _Hit(key, regions()[key], False) if key in regions() else None


def _coded(code: str) -> _Hit | None:
    name = table("codes").get(code)
    return _Hit(name, regions()[name], False) if name else None


def _meant(hits: list[_Hit]) -> PlaceSaid:
    """The one zone that all *hits* share; a region alone stands for the zone of most people there."""
    ordered = sorted(hits, key=lambda hit: not hit.city)
    shared = [zone for zone in ordered[0].zones if all(zone in hit.zones for hit in ordered)]
    first = ordered[0]
    name = shown_name(first.key)
    if len(shared) == 1:
        return PlaceSaid(PlaceKind.ONE if first.city else PlaceKind.NEAR, name, (shared[0],))
    if shared and not first.city and any(hit.key in settled() for hit in ordered):
        return PlaceSaid(PlaceKind.NEAR, name, (shared[0],))
    return PlaceSaid(PlaceKind.SEVERAL, name, tuple(shared or (hit.zones[0] for hit in ordered)))


def _misspelt(shown: str) -> PlaceSaid:
    """The place that the answer, or one word of it, is nearly the name of; only if all such names share one zone."""
    known = {name: zones for name, zones in cities().items() if len(name) >= SHORTEST}
    for word in (name_key(shown), *_words(shown)):
        if len(word) >= SHORTEST:
            near = process.extract(word[:40], known.keys(), scorer=fuzz.ratio, score_cutoff=ALIKE, limit=5)
            zones = {known[name] for name, _, _ in near}
            if len(zones) == 1:
                found = zones.pop()
                kind = PlaceKind.NEAR if len(found) == 1 else PlaceKind.SEVERAL
                return PlaceSaid(kind, shown_name(near[0][0]), found)
    return PlaceSaid(PlaceKind.NONE)
