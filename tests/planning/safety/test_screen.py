"""The published pre-participation table, every combination of it."""

from itertools import product

import pytest

from planning.safety import screen
from planning.terms.person import Screen
from planning.terms.triage import Advice

NOT_NEEDED, BEFORE_ANY, BEFORE_VIGOROUS, STOP = Advice

TABLE = {
    # active, disease, signs: (advice, may start, vigorous open)
    (False, False, False): (NOT_NEEDED, True, True),
    (False, True, False): (BEFORE_ANY, False, False),
    (False, False, True): (BEFORE_ANY, False, False),
    (False, True, True): (BEFORE_ANY, False, False),
    (True, False, False): (NOT_NEEDED, True, True),
    (True, True, False): (NOT_NEEDED, True, False),
    (True, False, True): (STOP, False, False),
    (True, True, True): (STOP, False, False),
}
"""Riebe et al. 2015, Medicine & Science in Sports & Exercise 47:2473 (last cell from memory)."""


@pytest.mark.parametrize(("answers", "expected"), TABLE.items())
def test_every_cell_of_the_published_table(
    answers: tuple[bool, bool, bool], expected: tuple[Advice, bool, bool]
) -> None:
    seen = screen(Screen(*answers), cleared=False)
    assert (seen.advice, seen.may_start, seen.vigorous) == expected


@pytest.mark.parametrize("answers", TABLE)
def test_the_wished_intensity_matters_in_the_fifth_row_alone(answers: tuple[bool, bool, bool]) -> None:
    """Riebe et al. 2015: active, known disease, no signs: clearance before vigorous effort."""
    calm, hard = (screen(Screen(*answers), False, wish) for wish in (False, True))
    if answers == (True, True, False):
        assert (calm.advice, hard.advice, hard.may_start, hard.vigorous) == (NOT_NEEDED, BEFORE_VIGOROUS, True, False)
    else:
        assert calm == hard


@pytest.mark.parametrize(("answers", "wish"), list(product(TABLE, (False, True))))
def test_after_clearance_everybody_may_start(answers: tuple[bool, bool, bool], wish: bool) -> None:
    seen = screen(Screen(*answers), True, wish)
    assert (seen.may_start, seen.advice, seen.vigorous) == (True, NOT_NEEDED, True)


def test_pregnancy_bars_no_walk_and_asks_for_the_midwife_cleared_or_not() -> None:
    """Common practice, no source: no rise of load without midwife or doctor."""
    assert [screen(Screen(pregnant=True), cleared).midwife for cleared in (False, True)] == [True, True]
    assert screen(Screen(pregnant=True), False).may_start
