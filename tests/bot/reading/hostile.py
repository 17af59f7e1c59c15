"""Texts that nobody means well with: generated from a seed, for the tests and the fuzz benchmark."""

import random
from collections.abc import Iterator

WORDS = [
    "did",
    "walked",
    "ran",
    "knee",
    "left",
    "chest",
    "pain",
    "no",
    "not",
    "half",
    "hour",
    "20",
    "15/25",
    "6",
    "x",
    "(",
    "run",
    "walk",
    ")",
    "yesterday",
    "monday",
    "until",
    "from",
    "to",
    "the",
    "14th",
    "remind",
    "me",
    "at",
    "7",
    "move",
    "instead",
    "can't",
    "won't",
    "i'm",
    "my",
    "dad",
    "fainted",
    "weight",
    "12st",
    "4",
    "kg",
    "miles",
    "5k",
    "effort",
    "/10",
    "sure",
    "1:05:00",
    "half",
    "past",
    "quarter",
    "and",
    "a",
    "of",
    "in",
    "for",
    ":",
    ",",
    ".",
    "!",
    "?",
    "-",
    "+",
    "'",
    '"',
    "today",
    "tomorrow",
    "tonight",
    "week",
    "off",
    "away",
    "every",
    "sat",
    "sun",
    "min",
    "sec",
    "33C",
    "60%",
]
ODD = [
    "\x00", "\u200b", "\u202e", "\ud800", "\udfff", "\ufeff", "\u0301" * 5, "½", "²", "٣", "５", "👍🏽", "👨‍👩‍👧", "ﬁ",
     "İ", "\x1b[31m", "\r\n", "\t", "'; drop table", "<b>", "&amp;", "9" * 40, "1.1.1.1", "::::", "((((", "1e309",
     "NaN", "-0", "'" * 9, "a" * 60, "1:2:3:4", "00:00", "99:99", "31st feb", "0th", "99th", "25:61", "0/0", "5/0",
     "x" * 5, "𝟗", "\U0010ffff",
]  # fmt: skip


def hostile_texts(count: int, seed: int) -> Iterator[str]:
    """*count* texts: shuffled words of the trade, odd pieces, random characters, long runs."""
    chance = random.Random(seed)
    for number in range(count):
        yield _text(chance, number)


def _text(chance: random.Random, number: int) -> str:
    kind = number % 5
    if kind == 0:
        return " ".join(chance.choice(WORDS) for _ in range(chance.randrange(1, 30)))
    if kind == 1:
        return "".join(chance.choice([*WORDS, *ODD]) for _ in range(chance.randrange(1, 15)))
    if kind == 2:
        return "".join(chr(chance.randrange(0x11000)) for _ in range(chance.randrange(1, 60)))
    if kind == 3:
        return chance.choice([*WORDS, *ODD]) * chance.randrange(1, 40)
    return " ".join(chance.choice([*WORDS, *ODD]) for _ in range(chance.randrange(1, 25)))
