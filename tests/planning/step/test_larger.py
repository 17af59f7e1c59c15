"""A step up: as far as the limits of growth leave room, and not in the first days after an illness."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.step import ceiling, step_up
from planning.terms.entry import Break
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Ceiling
from tests.planning.sessions import a_session, run_walks, spelled
from tests.support.profiles import a_person


@pytest.mark.parametrize(
    ("before", "most", "after"),
    [
        ("w20", Ceiling(30 * 60), "w25"),
        ("w20", Ceiling(22 * 60), "w22"),
        ("w20", Ceiling(20 * 60), "w20"),
        ("w60", Ceiling(90 * 60), "w66"),
        ("w5 r1 w2 r1 w5", Ceiling(40 * 60, 180), "w5 r1 w2 r1 w2 r1 w7"),
        ("w5 r1 w2 r1 w5", Ceiling(17 * 60, 180), "w5 r1 w2 r1 w2 r1 w5"),
        ("w5 r1 w2 r1 w5", Ceiling(16 * 60, 180), "w5 r1 w2 r1 w7"),
        ("w5 r1 w2 r1 w5", Ceiling(40 * 60, 120), "w5 r1 w2 r1 w10"),
    ],
)
def test_a_step_up_goes_as_far_as_the_ceiling(before: str, most: Ceiling, after: str) -> None:
    assert spelled(step_up(a_session(before), most).session) == after


def test_a_step_up_without_room_says_so() -> None:
    assert Reason.GROWTH_LIMIT in step_up(a_session("w20"), Ceiling(20 * 60)).why


@given(run_walks(), st.integers(0, 7200), st.integers(0, 3600))
def test_a_step_up_keeps_its_ceiling(session: Session, seconds: int, run_seconds: int) -> None:
    up = step_up(session, Ceiling(seconds, run_seconds)).session
    assert up.seconds <= max(session.seconds, seconds)
    assert up.run_seconds <= max(session.run_seconds, run_seconds)


MONDAY = date(2026, 3, 2)
SAM = a_person(begin=MONDAY, longest_min=25)


def on_day(days: int, text: str = "w40") -> Session:
    return a_session(text, on=MONDAY + timedelta(days=days))


def test_in_the_first_two_weeks_the_ceiling_is_what_was_surely_doable() -> None:
    assert ceiling(SAM, (), (), on_day(6, "w20")) == Ceiling(25 * 60, 0)


@pytest.mark.parametrize(("longest", "most"), [("w40", 45), ("w100", 110)])
def test_later_it_is_a_tenth_or_five_minutes_above_the_longest(longest: str, most: int) -> None:
    """Frandsen et al. 2025, Br J Sports Med 59:1203."""
    assert ceiling(SAM, (on_day(20, longest),), (), on_day(30)) == Ceiling(most * 60, 0)


def test_running_grows_by_three_minutes_where_there_is_some() -> None:
    before = on_day(20, "w5 r2 w2 r2 w5")
    assert ceiling(SAM, (before,), (), on_day(30)).run_seconds == 4 * 60 + 180


@pytest.mark.parametrize("fever", [True, False])
@pytest.mark.parametrize(("days", "room"), [(3, False), (20, True)])
def test_in_the_first_days_after_an_illness_there_is_no_room(fever: bool, days: int, room: bool) -> None:
    ill = Break(MONDAY + timedelta(days=28), MONDAY + timedelta(days=29), ill=True, fever=fever)
    session = on_day(29 + days)
    assert (ceiling(SAM, (on_day(20),), (ill,), session).seconds > session.seconds) is room
