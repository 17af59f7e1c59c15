"""People on the wire, with two processes that die wherever they can: equal to the same weeks without a fault.

A failure names its seed: `python -m tests.simulation SEED` plays it again.
"""

from collections import Counter
from pathlib import Path

import pytest

from tests.simulation.faults import NASTY
from tests.simulation.run import play

SEEDS = 5
"""Seeds in one chunk: the nasty things are rare, so they are counted over several."""


def seeds(chunk: int, count: int) -> range:
    return range(chunk * count, (chunk + 1) * count)


@pytest.mark.parametrize("chunk", range(12))
def test_weeks_full_of_faults_end_as_those_without(chunk: int, tmp_path: Path) -> None:
    happened = sum((play(seed, 5, 7, tmp_path) for seed in seeds(chunk, SEEDS)), Counter[str]())
    assert [what for what in NASTY if not happened[what]] == [], "it never went wrong in this way"


@pytest.mark.nightly
@pytest.mark.parametrize("chunk", range(100))
def test_a_thousand_months_full_of_faults_end_as_those_without(chunk: int, tmp_path: Path) -> None:
    happened = sum((play(1000 + seed, 20, 28, tmp_path) for seed in seeds(chunk, 10)), Counter[str]())
    assert [what for what in NASTY if not happened[what]] == [], "it never went wrong in this way"
