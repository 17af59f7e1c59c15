"""What people add of their day changes no fact beside it, and hides no danger: every pair, in either order."""

import tomllib
from collections.abc import Iterator
from datetime import datetime

import pytest

from bot.reading import read
from tests.bot.reading.scoring import FOLDER, facts

AT = datetime(2026, 3, 4, 18, 20)  # noqa: DTZ001 - the wall time of the sender
TOLD = tomllib.loads((FOLDER / "circumstances.toml").read_text(encoding="utf-8"))
PLAIN = [each for each in TOLD["circumstances"] if each not in TOLD["telling"]]


def _pairs(one: str, other: str) -> Iterator[str]:
    yield from (f"{one}, {other}", f"{one}. {other}", f"{other}, {one}", f"{other}. {one}")


@pytest.mark.parametrize("sign", TOLD["danger"])
def test_nothing_of_the_day_hides_a_danger(sign: str) -> None:
    codes = set(read(sign, AT, "Europe/London", 25).danger)
    assert codes
    for beside in (*TOLD["circumstances"], *TOLD["beside"]):
        if [sign, beside] in TOLD["explained"]:
            continue
        for text in (*_pairs(sign, beside), f"{sign} but {beside}", f"{beside} but {sign}"):
            assert codes <= set(read(text, AT, "Europe/London", 25).danger), text


@pytest.mark.parametrize("sign", [f"no {sign}" for sign in ("chest pain", "dizziness", "palpitations")])
def test_nothing_of_the_day_makes_a_danger(sign: str) -> None:
    for beside in (*TOLD["circumstances"], *TOLD["beside"]):
        for text in _pairs(sign, beside):
            assert read(text, AT, "Europe/London", 25).danger == (), text


@pytest.mark.parametrize("fact", TOLD["facts"])
def test_a_fact_reads_the_same_beside_what_is_told_of_the_day(fact: str) -> None:
    alone = facts(fact, AT)
    assert alone
    texts = [text for beside in PLAIN for text in _pairs(fact, beside)]
    other = [text for text in texts if facts(text, AT) != alone]
    assert len(other) <= 0.03 * len(texts), other
