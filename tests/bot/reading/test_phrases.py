"""Short texts by code of danger, thousands of them, with what only looks like it: what is seen, what falsely so."""

import json
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
def test_danger_is_seen_and_what_looks_like_it_is_not(name: str, most_missed: float, most_false: float) -> None:
    missed, false, dangers, others = [], [], 0, 0
    for phrase in phrases(name):
        seen = read(phrase.text, AT, "Europe/London", 25).danger
        dangers += phrase.code is not None
        others += phrase.code is None
        if phrase.code is not None and not seen:
            missed.append(phrase)
        if phrase.code is None and seen:
            false.append(phrase)
    assert len(missed) <= most_missed * dangers, missed
    assert len(false) <= most_false * others, false


@pytest.mark.parametrize("name", ["wide", "wide_b", "plain"])
def test_what_is_seen_is_seen_as_what_it_is(name: str) -> None:
    told = [phrase for phrase in phrases(name) if phrase.code is not None]
    seen = [(phrase, read(phrase.text, AT, "Europe/London", 25).danger) for phrase in told]
    other = [phrase for phrase, danger in seen if danger and phrase.code not in danger]
    assert len(other) <= 0.01 * len(told), other


@pytest.mark.parametrize("code", Danger)
def test_each_code_has_at_least_three_hundred_of_them(code: Danger) -> None:
    assert sum(phrase.code is code for name in ("wide", "wide_b", "plain") for phrase in phrases(name)) >= 300
