"""A race and the shorter ones on the way to it, as people name them: "half in october, 10k first on 3 may"."""

import re
from dataclasses import dataclass
from datetime import date

from bot.conversation.survey.amounts import KM_IN_A_MILE
from bot.conversation.survey.assent import Assent, assent
from bot.conversation.survey.dates import DateSaid, dates_said
from bot.conversation.survey.lexicon import words
from bot.conversation.survey.numbers import digits
from bot.conversation.survey.text import holds, plain
from planning.terms.choices import RaceMode

HALF_KM = 21.0975
MARATHON_KM = 42.195
LONGEST_KM = 21.2
SHORTEST_KM = 1.0
NEAR_HALF = (20.9, 21.2)
"""What people round a half marathon to: 21, 21.1, 13 or 13.1 miles. Common practice, no source."""

DISTANCE = re.compile(
    r"(?P<half>\bhalf[ -]?marathons?\b|\bhalf mara\b|\bhalf(?! (?:an?|past|hour|of|[0-9]))\b|\bhm\b)"
    r"|(?P<full>\b(?:full )?marathons?\b|\bultra\w*\b)"
    r"|(?<![\w.,:/])(?P<n>[0-9]{1,3}(?:[.,][0-9]{1,4})?) ?-?(?P<unit>km|kms|k|kilomet(?:er|re)s?|miles?|miler|mi)\b"
)
CUTOFF = re.compile(
    r"(?:cut[ -]?off|time limit|limit)(?: time)?(?: (?:is|of|at))?:? ?"
    r"(?:(?P<h>[0-9]{1,2})[:.h](?P<m>[0-5][0-9])"
    r"|(?P<hours>[0-9](?:\.[0-9]{1,2})?) ?(?:h|hours?|hrs?)\b"
    r"|(?P<min>[0-9]{2,3}) ?(?:min\w*)?\b)"
)
WALKING = re.compile(
    r"\b(?:walk(?:ing)? (?:it|all|the whole|only|that)|as a walk|i(?:'ll| will) walk|by walking|walk it)\b"
)
FIRST = re.compile(r"\b(?:first|before(?: that)?|on the way|warm[ -]?up|to start)\b")


@dataclass(frozen=True, slots=True)
class RaceNamed:
    """One race. *km* or the date may be missing. *month*: where only that is known; *first*: named as one on the way;
    *wrong*: its day is in no calendar.
    """

    km: float | None = None
    on: date | None = None
    month: date | None = None
    first: bool = False
    wrong: bool = False


@dataclass(frozen=True, slots=True)
class RacesSaid:
    """All races of one answer, in order. *none*: there is no race yet; *miles*: whether miles were named."""

    races: tuple[RaceNamed, ...] = ()
    none: bool = False
    mode: RaceMode | None = None
    cutoff_min: int | None = None
    miles: bool = False


def races_said(text: str, today: date, month_first: bool) -> RacesSaid:
    """The races that *text* names; a date alone is a race whose distance was not said."""
    said = digits(plain(text))
    limit = CUTOFF.search(said)
    rest = CUTOFF.sub(lambda match: " " * len(match.group()), said)
    dates = dates_said(rest, today, month_first)
    for each in dates:
        rest = rest[: each.start] + " " * (each.end - each.start) + rest[each.end :]
    distances = list(DISTANCE.finditer(rest))[:6]
    races = _paired(distances, dates[:6], FIRST.search(rest))
    undated = not dates and holds(rest, words("answers", "no_date"))
    nothing = undated or (not dates and not distances and (no_race(rest) or assent(text) is Assent.NO))
    return RacesSaid(
        () if nothing else races,
        nothing,
        RaceMode.WALK if WALKING.search(said) else None,
        _cutoff(limit) if limit else None,
        any((each["unit"] or "").startswith("mi") for each in distances),
    )


def no_race(text: str) -> bool:
    """Whether the plain *text* says that there is no race, or no date, yet."""
    return holds(text, words("answers", "no_race"))


def _paired(
    distances: list[re.Match[str]], dates: tuple[DateSaid, ...], first: re.Match[str] | None
) -> tuple[RaceNamed, ...]:
    """Each distance with the date that is as far along in the text; too few of either leave the rest open."""
    order = sorted(distances, key=_km, reverse=True) if len(dates) < len(distances) else distances
    first_km = _km(_nearest(distances, first)) if first and distances else None
    pairs: list[RaceNamed] = []
    for place in range(max(len(order), len(dates))):
        km = _km(order[place]) if place < len(order) else None
        said = dates[place] if place < len(dates) else None
        pairs.append(_race(km, said, km is not None and km == first_km))
    return tuple(pairs)


def _nearest(distances: list[re.Match[str]], mark: re.Match[str]) -> re.Match[str]:
    return min(distances, key=lambda each: abs(each.start() - mark.start()))


def _race(km: float | None, said: DateSaid | None, first: bool) -> RaceNamed:
    if said is None:
        return RaceNamed(km, first=first)
    return RaceNamed(km, said.on, said.month, first, said.on is None and said.month is None)


def _km(found: re.Match[str]) -> float:
    if found["half"]:
        return HALF_KM
    if found["full"]:
        return MARATHON_KM
    number = float(found["n"].replace(",", "."))
    km = number * KM_IN_A_MILE if found["unit"].startswith("mi") else number
    return HALF_KM if NEAR_HALF[0] <= km <= NEAR_HALF[1] else round(km, 3)


def _cutoff(found: re.Match[str]) -> int:
    if found["h"]:
        return 60 * int(found["h"]) + int(found["m"])
    return round(60 * float(found["hours"])) if found["hours"] else int(found["min"])
