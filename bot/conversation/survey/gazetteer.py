"""Names of places and the time zones whose clocks they use.

Zones and countries are those of the tz database (`zone.tab`, `iso3166.tab`, public domain); the cities and regions that
are not named there stand in the data file beside this one.
"""

import tomllib
import unicodedata
from collections import defaultdict
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from typing import Any

TZ = "tzdata.zoneinfo"
SKIPPED = ("Antarctica/",)


@cache
def table(name: str) -> Mapping[str, Any]:
    """A table of the data file."""
    raw: Mapping[str, Any] = tomllib.loads(files(__package__).joinpath("cities.toml").read_text(encoding="utf-8"))[name]
    return raw


def name_key(text: str) -> str:
    """A name without accents and signs, in small letters: "St. John's" is "st johns"."""
    flat = unicodedata.normalize("NFKD", text.replace("ø", "o").replace("ł", "l").replace("ß", "ss"))
    kept = "".join(each for each in flat.casefold() if not unicodedata.combining(each) and each not in "'’.")
    return " ".join("".join(each if each.isalnum() else " " for each in kept).split())


@cache
def zone_countries() -> Mapping[str, str]:
    """The ISO country code of each zone."""
    return {zone: code for code, zone in _rows()}


def country_of(zone: str) -> str | None:
    """The ISO code of the country that the *zone* lies in, if the tz database names one."""
    return zone_countries().get(zone)


@cache
def cities() -> Mapping[str, tuple[str, ...]]:
    """Zones by the key of a city's name; more than one where cities share a name."""
    found: defaultdict[str, list[str]] = defaultdict(list)
    for _, zone in _rows():
        found[name_key(zone.rsplit("/", 1)[-1])].append(zone)
    for zone, names in table("cities").items():
        for name in names:
            if zone not in found[name]:
                found[name].append(zone)
    return {name: tuple(zones) for name, zones in found.items()}


@cache
def regions() -> Mapping[str, tuple[str, ...]]:
    """All zones by the key of a country's or region's name; the first is that of most people where it is known."""
    by_code: defaultdict[str, list[str]] = defaultdict(list)
    for code, zone in _rows():
        by_code[code].append(zone)
    found = {name_key(name): tuple(by_code[code]) for code, name in _countries() if code in by_code}
    found |= {name: tuple(by_code[code]) for name, code in table("wide").items()}
    for name, zone in table("countries").items():
        rest = by_code[zone_countries()[zone]] if name in found else []
        found[name] = (zone, *(each for each in rest if each != zone))
    return found | {name: tuple(zones) for name, zones in table("regions").items()}


@cache
def settled() -> frozenset[str]:
    """Regions for which the zone of most people is taken when nothing more is said."""
    single = {name for name, zones in regions().items() if len(zones) == 1}
    return frozenset(single | set(table("countries")) | set(table("regions")) - {"georgia", "victoria", "punjab"})


def _lines(name: str) -> Iterator[list[str]]:
    for line in files(TZ).joinpath(name).read_text(encoding="utf-8").splitlines():
        if line and not line.startswith("#"):
            yield line.split("\t")


@cache
def _rows() -> tuple[tuple[str, str], ...]:
    return tuple((row[0], row[2]) for row in _lines("zone.tab") if not row[2].startswith(SKIPPED))


@cache
def _countries() -> tuple[tuple[str, str], ...]:
    return tuple((row[0], row[1]) for row in _lines("iso3166.tab"))
