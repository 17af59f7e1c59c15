"""Minutes of walking or jogging, as people say what they can do for sure: of two numbers the lower one counts."""

import re
from dataclasses import dataclass

from bot.conversation.survey.lexicon import words
from bot.conversation.survey.numbers import digits
from bot.conversation.survey.text import EDGES, leads, plain

KM_IN_A_MILE = 1.609344
WALK_KMH = 5.4
"""The brisk end of comfortable walking, 1.5 m/s: a distance then counts as few minutes. Value from memory."""
JOG_KMH = 8.0
"""The brisk end of beginners' jogs, for the same reason. Common practice, no source."""

NUMBER = r"([0-9]{1,5}(?:[.,][0-9]{1,2})?)"
HOURS = r"(?:(?:hours?|hrs?)\b|h(?![a-z]))"
MINUTES = r"(?:minutes?|mins?|m|')(?![a-z])"
AMOUNT = re.compile(
    rf"(?<![0-9.,:])(?P<below>(?:less than|under|below|not even|fewer than|<) ?)?"
    rf"(?:(?:(?P<low>[0-9]{{1,4}}) ?(?:-|to|or)|between (?P<from>[0-9]{{1,4}}) and) ?(?=[0-9]))?"
    rf"(?:(?P<h>{NUMBER}) ?{HOURS}(?: ?(?:and )?(?P<hm>[0-9]{{1,2}})(?: ?{MINUTES})?)?"
    rf"|(?P<s>{NUMBER}) ?(?:seconds?|secs?|s)\b"
    rf"|(?P<mi>{NUMBER}) ?(?:miles?|mi)\b"
    rf"|(?P<km>{NUMBER}) ?(?:km|kms|k|kilomet(?:er|re)s?|kilometers?)\b"
    rf"|(?P<metres>[0-9]{{3,5}}) ?(?:m|met(?:er|re)s?)\b"
    rf"|(?P<min>{NUMBER})(?![0-9.,]*[0-9]| ?(?:steps?|%|:|st\b|kg|lbs?))(?: ?{MINUTES})?)"
)
REPEATS = re.compile(
    r"\b(?P<before>[1-9]|1[0-4]) ?(?:x|\*|times|walks? of|sessions? of) ?(?=[0-9])"
    r"|\b(?:(?P<after>[1-7]) ?(?:x|times)|(?P<once>once)|(?P<twice>twice))(?: a| per| each|/)? ?(?:week|wk)\b"
    r"|\b(?P<daily>(?:every|a|per|each) ?day|daily)\b"
    r"|\b(?P<days>[1-7]) days(?: a| per| each) week\b"
)
FRACTIONS = (
    (re.compile(r"\b(?:an?|1) hour and a half\b|\b1\.5 hours?\b"), "90 min"),
    (re.compile(r"\b(?:a |an )?half(?: an?)? hour\b"), "30 min"),
    (re.compile(r"\b(?:3|three) quarters? of an hour\b"), "45 min"),
    (re.compile(r"\b(?:a )?quarter(?: of an)? hour\b"), "15 min"),
    (re.compile(r"\ban hour\b"), "1 hour"),
    (re.compile(r"\ba (min(?:ute)?|mile|km|kilomet(?:er|re))\b"), r"1 \1"),
    (re.compile(r"\bhalf a (mile|km|kilomet(?:er|re)|min(?:ute)?)\b"), r"0.5 \1"),
    (re.compile(r"\ba few\b"), "3"),
)
LONGEST = re.compile(r"\b(?:longest|at most|most|in one go|in 1 go|max|best)\b")
UNDER = 0.5
"""Share of a bound that is taken for "under 20 minutes": the careful side. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class Amounts:
    """Minutes in the order in which they were said. *longest_first*: the first of two is the longest outing.

    *times_a_week*: how often in a week, 1 if that was not said; *miles*: whether miles were named.
    """

    minutes: tuple[float, ...]
    longest_first: bool = False
    times_a_week: int = 1
    miles: bool = False


def amounts_said(text: str, kmh: float) -> Amounts | None:
    """The minutes in *text*; distances at *kmh*. "20-25" is 20, "under 10" is 5, "none" is 0; None: nothing of it."""
    said = digits(plain(text))
    for form, amount in FRACTIONS:
        said = form.sub(amount, said)
    times = REPEATS.search(said)
    counted = REPEATS.sub(" ", said)
    found = list(AMOUNT.finditer(counted))[:4]
    if not found or (found[0].group() == "0" and len(found) == 1):
        return Amounts((0,)) if leads(said.strip(EDGES), words("answers", "nothing")) else None
    minutes = tuple(_minutes(match, kmh) for match in found)
    miles = any(match["mi"] for match in found)
    return Amounts(minutes, _longest_first(counted, found), _times(times), miles)


def _longest_first(text: str, found: list[re.Match[str]]) -> bool:
    """Whether "longest" stands before the first of two amounts."""
    mark = LONGEST.search(text)
    return mark is not None and len(found) > 1 and mark.end() <= found[0].end()


def _number(text: str) -> float:
    return float(text.replace(",", "."))


def _minutes(found: re.Match[str], kmh: float) -> float:
    if found["h"]:
        minutes = 60 * _number(found["h"]) + int(found["hm"] or 0)
    elif found["s"]:
        minutes = _number(found["s"]) / 60
    elif found["min"]:
        minutes = _number(found["min"])
    else:
        km = _number(found["mi"]) * KM_IN_A_MILE if found["mi"] else 0
        km = _number(found["km"]) if found["km"] else km
        km = int(found["metres"]) / 1000 if found["metres"] else km
        minutes = float(int(60 * km / kmh))
    low = found["low"] or found["from"]
    if low:
        return _lower(int(low), found, minutes)
    return float(round(minutes * UNDER)) if found["below"] else round(minutes, 2)


def _lower(low: int, found: re.Match[str], upper: float) -> float:
    """The lower end of a range, in the unit of its upper end."""
    top = next(_number(found[name]) for name in ("h", "s", "mi", "km", "metres", "min") if found[name])
    return round(upper * min(1.0, low / top), 2) if top else 0


def _times(found: re.Match[str] | None) -> int:
    if found is None or found["once"]:
        return 1
    if found["twice"]:
        return 2
    return 7 if found["daily"] else int(found["before"] or found["after"] or found["days"])
