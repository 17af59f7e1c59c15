"""The chance of being ready, from the person's own weeks."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning.progress import readiness
from planning.progress.readiness import NOT_KNOWN, Odds

weeks = st.lists(st.floats(0, 1.2), min_size=4, max_size=8)
SEED = 7


@pytest.mark.parametrize(
    ("kept", "left", "needed", "odds"),
    [
        ([1.0, 1.0, 1.0, 1.0], 20, 10, Odds.LIKELY),
        ([0.5, 0.5, 0.5, 0.5], 20, 10, Odds.UNLIKELY),
        ([0.0, 0.0, 0.0, 0.0], 20, 10, Odds.UNLIKELY),
        ([1.0, 0.5, 1.0, 0.5], 20, 10, Odds.EVEN),
    ],
)
def test_the_chance_is_told_in_words(kept: list[float], left: int, needed: int, odds: Odds) -> None:
    """A model of our own: common practice, no source."""
    assert readiness(kept, left, needed, SEED).odds is odds


def test_before_four_weeks_nobody_knows() -> None:
    assert readiness([1.0, 1.0, 1.0], 20, 1, SEED) == NOT_KNOWN


def test_only_the_last_four_weeks_count() -> None:
    last = [1.0, 0.7, 0.2, 0.9]
    assert readiness([0.0] * 10 + last, 12, 6, SEED) == readiness(last, 12, 6, SEED)


def test_one_seed_gives_one_answer() -> None:
    assert readiness([1.0, 0.5, 0.2, 1.0], 12, 6, 3) == readiness([1.0, 0.5, 0.2, 1.0], 12, 6, 3)


def test_two_seeds_give_nearly_the_same_answer() -> None:
    one, other = (readiness([1.0, 0.5, 0.2, 1.0], 12, 4, seed) for seed in (1, 2))
    assert one.low == pytest.approx(other.low, abs=0.06)
    assert one.high == pytest.approx(other.high, abs=0.06)


def test_nothing_left_to_climb_is_ready_and_no_time_left_is_not() -> None:
    assert readiness([0.0] * 4, 10, 0, SEED).low == 1
    assert readiness([1.0] * 4, 3, 4, SEED).high == 0


@given(weeks, st.integers(0, 40), st.integers(0, 30))
@settings(max_examples=15, deadline=None)
def test_the_band_is_a_band_of_chances(kept: list[float], left: int, needed: int) -> None:
    found = readiness(kept, left, needed, SEED)
    assert 0 <= found.low <= found.high <= 1


@given(weeks, st.integers(1, 20), st.integers(1, 15))
@settings(max_examples=15, deadline=None)
def test_more_to_climb_is_never_likelier(kept: list[float], left: int, needed: int) -> None:
    less, more = (readiness(kept, left, each, SEED) for each in (needed, needed + 1))
    assert more.high <= less.high
    assert more.low <= less.low
