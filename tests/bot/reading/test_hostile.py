"""Any text: never an exception, time in line with the length, at most 4,096 characters read."""

import json
import time
from datetime import datetime

import pytest

from bot.reading import as_json, read
from bot.reading.normalise import MOST_CHARACTERS
from bot.reading.rules import beyond, missed, plain, plans, repeats, short, tallies
from tests.bot.reading.hostile import hostile_texts

AT = datetime(2026, 2, 28, 12)  # noqa: DTZ001 - the wall time of the sender
RULES = [
    *plain.WANTS, *plain.RATINGS, *plain.EFFORTS, *plain.WEIGHTS, *plain.MOODS, *plain.HEALTH,
    *tallies.TALLIES, *short.SHORT,
    *plans.LATER, *plans.AT_HAND, *missed.MISSES, *missed.NOT_DONE, *repeats.REPEATS, *beyond.WEATHER,
]  # fmt: skip


@pytest.mark.parametrize("part", range(5))
def test_hostile_texts_never_raise(part: int) -> None:
    asked = (None, "effort", "weight", "pain", "time")[part]
    for text in hostile_texts(1000, seed=part):
        json.dumps(as_json(read(text, AT, "Europe/London", 20, asked)), allow_nan=False).encode()


def test_what_lies_beyond_the_limit_is_not_read() -> None:
    filler = "la " * (MOST_CHARACTERS // 3 + 1)
    assert read(filler + " chest pain", AT, "UTC").danger == ()


@pytest.mark.nightly
@pytest.mark.parametrize(
    "piece", ["a", "1", " ", "1.", "9 ", "and ", "walk ", "no ", "20 min ", "6 x (1 run, ", "'", "chest "]
)
def test_time_grows_no_faster_than_the_text(piece: str) -> None:
    short, long = piece * (1000 // len(piece)), piece * (4000 // len(piece))
    assert _seconds(long) <= 16 * max(_seconds(short), 0.002)


def _seconds(text: str) -> float:
    best = 10.0
    for _ in range(2):
        start = time.perf_counter()
        read(text, AT, "UTC")
        best = min(best, time.perf_counter() - start)
    return best


def test_rules_have_names_and_bounded_patterns() -> None:
    assert all(each.name for each in RULES)
    assert not [each.name for each in RULES if ".*" in each.pattern.pattern or ".+" in each.pattern.pattern]
