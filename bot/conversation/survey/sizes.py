"""Age, height and weight as people say them, in any unit."""

import re
from dataclasses import dataclass

from bot.conversation.survey.numbers import digits
from bot.conversation.survey.text import plain

CM_IN_AN_INCH = 2.54
KG_IN_A_POUND = 0.45359237
POUNDS_IN_A_STONE = 14
HEIGHTS_CM = (120.0, 230.0)
WEIGHTS_KG = (30.0, 350.0)
"""What is believed; beyond it the question is asked again. Common practice, no source."""
SURE_KG = 180.0
"""A bare number over this may well be pounds."""
AGES = (10, 100)
"""A number below is taken for a slip of the finger, one up to 17 for an age."""

N = r"[0-9]{1,3}(?:[.,][0-9]{1,2})?"
INCH = r"(?:in(?:ch(?:es)?)?\b|''|\")"
METRE = r"(?:m\b|met(?:er|re)s?\b)"
POUND = r"(?:lbs?\b|pounds?\b|#)"
IMPERIAL_HEIGHT = re.compile(
    r"(?<![0-9.,])(?P<ft>[4-7]) ?(?:ft\b\.?|feet\b|foot\b|')"
    rf" ?(?:and )?(?P<in>[0-9]{{1,2}}(?:\.[0-9])?(?! ?(?:st\b|stone|kg|lb)))? ?{INCH}?"
    rf"|(?<![0-9.,])(?P<inches>[4-8][0-9]) ?{INCH}"
    r"|(?<![0-9.,])(?P<ft2>[4-6])[ -](?P<in2>1[01]|[0-9])(?![0-9.,]| ?(?:st\b|stone|kg|lb|cm|m\b|pounds))"
)
METRIC_HEIGHT = re.compile(
    r"(?<![0-9.,])(?P<cm>[0-9]{2,3}(?:[.,][0-9])?) ?(?:cms?\b|centimet(?:er|re)s?\b)"
    rf"|(?<![0-9.,])(?P<m>[12]) ?(?:[.,]|m ?|met(?:er|re)s? ?)(?P<rest>[0-9]{{1,2}})(?: ?(?:{METRE}|cm\b))?(?![0-9])"
)
WEIGHT = re.compile(
    rf"(?<![0-9.,])(?P<st>{N}) ?(?:stones?\b|st(?![a-z])\.?)"
    rf" ?(?:and )?(?:(?P<half>a half|half)|(?P<stlb>[0-9]{{1,2}})(?! ?(?:kg|cm|ft|')))? ?{POUND}?"
    rf"|(?<![0-9.,])(?P<kg>{N}) ?(?:kgs?\b|kilos?\b|kilogram(?:me)?s?\b)"
    rf"|(?<![0-9.,])(?P<lb>{N}) ?{POUND}"
)
BARE = re.compile(rf"(?<![0-9.,])({N})(?![0-9.,]?[0-9])")
YEAR = re.compile(r"\b(19[0-9]{2}|20[0-9]{2})\b")
AGE = re.compile(
    r"(?<![0-9.,/-])([0-9]{1,3})"
    r"(?![0-9]|[.,/:][0-9]|s\b|'|\"|\+| ?(?:st|stone|kgs?|kilos?|lbs?|pounds|cm|m|ft|feet|foot|min\w*|km?|miles?)\b)"
)

OTHERS = re.compile(r"\b(?:son|daughter|kids?|child(?:ren)?|brother|sister|wife|husband|he|she|they)\b")


@dataclass(frozen=True, slots=True)
class SizeSaid:
    """Height in cm and weight in kg. *unit_open*: a weight without a unit that may be pounds; *odd*: beyond belief."""

    height_cm: float | None = None
    weight_kg: float | None = None
    unit_open: bool = False
    odd: bool = False


def size_said(text: str, wants_height: bool, wants_weight: bool, pounds_likely: bool) -> SizeSaid:
    """The height and the weight in *text*. A bare number is centimetres or, where only the weight is wanted or both
    stand side by side, kilograms: unless *pounds_likely* or the height is in feet, then the unit has to be said.
    """
    said = digits(plain(text))
    weight = WEIGHT.search(said)
    rest = _without(said, weight)
    feet = IMPERIAL_HEIGHT.search(rest) if wants_height else None
    metric = METRIC_HEIGHT.search(rest) if wants_height and feet is None else None
    rest = _without(rest, feet or metric)
    height = _feet(feet) if feet else _metric(metric) if metric else None
    numbers = [float(each.replace(",", ".")) for each in BARE.findall(rest)]
    if wants_height and height is None and numbers:
        height = numbers.pop(0)
    if weight or not wants_weight or not numbers:
        return _checked(height, _weight(weight) if weight else None)
    unit_open = pounds_likely or feet is not None or numbers[0] > SURE_KG
    return _checked(height, None if unit_open else numbers[0], unit_open)


def age_said(text: str, year: int) -> int | None:
    """The age in years in *text*, or by the year of birth (the older one of the two that it can be; none if that
    leaves open whether somebody is 18). None: no age in it, one beyond belief, or that of somebody else.
    """
    said = digits(plain(text))
    if OTHERS.search(said):
        return None
    born = YEAR.search(said)
    if born:
        age = year - int(born[1])
        return age if age != 18 and AGES[0] <= age <= AGES[1] else None
    found = AGE.search(said)
    age = int(found[1]) if found else 0
    return age if AGES[0] <= age <= AGES[1] else None


def _without(text: str, found: re.Match[str] | None) -> str:
    return f"{text[: found.start()]} , {text[found.end() :]}" if found else text


def _feet(found: re.Match[str]) -> float:
    if found["inches"]:
        return int(found["inches"]) * CM_IN_AN_INCH
    feet, inches = found["ft"] or found["ft2"], found["in"] or found["in2"]
    return (12 * int(feet) + float(inches or 0)) * CM_IN_AN_INCH


def _metric(found: re.Match[str]) -> float:
    if found["cm"]:
        return float(found["cm"].replace(",", "."))
    rest = found["rest"]
    return 100 * int(found["m"]) + int(rest) * (10 if len(rest) == 1 else 1)


def _weight(found: re.Match[str]) -> float:
    if found["kg"]:
        return float(found["kg"].replace(",", "."))
    if found["lb"]:
        return float(found["lb"].replace(",", ".")) * KG_IN_A_POUND
    pounds = POUNDS_IN_A_STONE / 2 if found["half"] else int(found["stlb"] or 0)
    return (float(found["st"].replace(",", ".")) * POUNDS_IN_A_STONE + pounds) * KG_IN_A_POUND


def _checked(height: float | None, weight: float | None, unit_open: bool = False) -> SizeSaid:
    odd = any(
        value is not None and not low <= value <= high
        for value, (low, high) in ((height, HEIGHTS_CM), (weight, WEIGHTS_KG))
    )
    if odd:
        return SizeSaid(odd=True)
    return SizeSaid(
        None if height is None else round(height, 2), None if weight is None else round(weight, 2), unit_open
    )
