"""Number words as digits: "twenty five" is "25", "sixteen and a half" is "16.5"."""

import re
from functools import cache

from bot.conversation.survey.lexicon import words
from bot.conversation.survey.text import pattern

HALF = re.compile(r"\b([0-9]{1,3}) (?:and (?:a|1) )half\b")
COUPLE = re.compile(r"\ba? ?couple(?: of)?\b")
HUNDRED = re.compile(r"\b(?:(a|[1-9]) )hundred(?: (?:and )?([0-9]{1,2}))?\b")


@cache
def _values() -> dict[str, int]:
    values = {word: number for number, word in enumerate(words("numbers", "units"))}
    tens = {word: 20 + 10 * place for place, word in enumerate(words("numbers", "tens"))}
    units = {word: number for word, number in values.items() if 0 < number < 10}
    joined = {f"{ten}{gap}{unit}": tens[ten] + units[unit] for ten in tens for unit in units for gap in (" ", "-", "")}
    return values | tens | joined


def _hundred(found: re.Match[str]) -> str:
    count = 1 if found[1] == "a" else int(found[1])
    return str(100 * count + int(found[2] or 0))


def digits(text: str) -> str:
    """The plain *text* with its number words as digits. Numbers that stand apart stay apart ("six thirty": "6 30")."""
    values = _values()
    found = pattern(tuple(values)).sub(lambda match: str(values[match.group()]), text)
    found = HUNDRED.sub(_hundred, COUPLE.sub("2", found))
    return HALF.sub(r"\1.5", found)
