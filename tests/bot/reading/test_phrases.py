"""Short texts by code of danger, thousands of them, with what only looks like it: what is seen, what falsely so."""

import json
from collections import Counter
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

import pytest

from bot.reading import read
from planning.terms.choices import Danger

FOLDER = Path(__file__).parent / "phrases"
AT = datetime(2026, 3, 4, 18, 0)  # noqa: DTZ001 - the wall time of the sender


class Phrase(NamedTuple):
    """A text with the code of the danger that it tells of, None if it tells of none."""

    text: str
    code: Danger | None


def phrases(name: str) -> Iterator[Phrase]:
    for line in (FOLDER / f"{name}.jsonl").read_text(encoding="utf-8").splitlines():
        told = json.loads(line)
        if "text" in told:
            yield Phrase(told["text"], Danger(told["code"]) if told["code"] else None)


@pytest.mark.parametrize(
    ("name", "most_missed", "most_false"),
    [("wide", 0.04, 0.02), ("wide_b", 0.03, 0.04), ("plain", 0.01, 0.02), ("innocent", 0.0, 0.01)],
)
def test_danger_is_seen_as_what_it_is_and_what_looks_like_it_is_not(
    name: str, most_missed: float, most_false: float
) -> None:
    told, others = [], []
    for phrase in phrases(name):
        (others if phrase.code is None else told).append((phrase, read(phrase.text, AT, "Europe/London", 25).danger))
    missed = [phrase for phrase, seen in told if not seen]
    other = [phrase for phrase, seen in told if seen and phrase.code not in seen]
    false = [phrase for phrase, seen in others if seen]
    assert len(missed) <= most_missed * len(told), missed
    assert len(other) <= 0.01 * len(told), other
    assert len(false) <= most_false * len(others), false


def test_each_code_has_at_least_three_hundred_of_them() -> None:
    found = Counter(phrase.code for name in ("wide", "wide_b", "plain") for phrase in phrases(name))
    assert {code: count for code, count in found.items() if code is not None and count < 300} == {}
    assert set(Danger) <= found.keys()
