"""Coming back: the longer the gap, the lower the restart (no trial evidence; common practice, no source)."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.step import Fever, come_back, may_start_again
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from tests.planning.sessions import WEDNESDAY, a_session, sessions, spelled


@pytest.mark.parametrize(
    ("days", "minutes", "why"),
    [
        (0, 60, Reason.SHORT_GAP),
        (6, 60, Reason.SHORT_GAP),
        (7, 50, Reason.GAP_OF_A_WEEK),
        (13, 50, Reason.GAP_OF_A_WEEK),
        (14, 35, Reason.GAP_OF_TWO_WEEKS),
        (27, 35, Reason.GAP_OF_TWO_WEEKS),
        (28, 20, Reason.GAP_OF_FOUR_WEEKS),
        (200, 20, Reason.GAP_OF_FOUR_WEEKS),
    ],
)
def test_the_first_session_back_by_length_of_the_gap(days: int, minutes: int, why: Reason) -> None:
    back = come_back(a_session("w60"), days)
    assert (back.session.minutes, back.why) == (minutes, (why,))


def test_after_four_weeks_there_is_no_running_at_first() -> None:
    assert come_back(a_session("w10 r1 w2 r1 w10"), 28).session.run_seconds == 0


def test_two_weeks_off_leave_half_to_two_thirds() -> None:
    assert 30 <= come_back(a_session("w60"), 14).session.minutes <= 40


@given(sessions(), st.integers(0, 60), st.integers(0, 60))
def test_a_longer_gap_never_gives_a_larger_step(session: Session, one: int, other: int) -> None:
    short, long = (come_back(session, each).session for each in sorted((one, other)))
    assert (long.seconds <= short.seconds, long.run_seconds <= short.run_seconds) == (True, True)
    assert long.effort[1] <= short.effort[1]


@given(sessions(), st.integers(0, 60), st.integers(10, 120))
def test_the_first_session_back_stays_within_a_tenth_of_the_longest(session: Session, gap: int, longest: int) -> None:
    """Frandsen et al. 2025, Br J Sports Med 59:1203: up to +10 % of the longest of 30 days is the reference."""
    back = come_back(session, gap, longest_min=longest).session
    assert back.seconds * 10 <= longest * 60 * 11


@pytest.mark.parametrize(("days", "may"), [(0, False), (1, False), (2, False), (3, True)])
def test_two_whole_days_pass_after_the_fever_is_said_to_be_gone(days: int, may: bool) -> None:
    fever = Fever(days=2, gone_on=WEDNESDAY - timedelta(days=days))
    assert may_start_again(fever, WEDNESDAY) is may
    assert (Reason.FEVER_WAIT in come_back(a_session(), 3, fever=fever).why) is not may


@pytest.mark.parametrize(
    ("fever_days", "days_gone", "gentle"), [(1, 3, True), (1, 5, True), (1, 6, False), (5, 7, True), (5, 8, False)]
)
def test_as_many_gentle_days_follow_as_the_fever_had_three_at_least(
    fever_days: int, days_gone: int, gentle: bool
) -> None:
    fever = Fever(fever_days, WEDNESDAY - timedelta(days=days_gone))
    back = come_back(a_session("w5 r1 w2 r1 w5"), 3, fever=fever)
    assert (Reason.AFTER_FEVER in back.why) is gentle
    assert (spelled(back.session), back.session.effort[1]) == (("w14", 2) if gentle else ("w5 r1 w2 r1 w5", 3))


@pytest.mark.parametrize(
    ("days_gone", "why"), [(7, Reason.FEVER_WAIT), (8, Reason.AFTER_FEVER), (21, Reason.AFTER_FEVER)]
)
def test_covid_asks_for_a_week_without_symptoms_and_two_of_least_effort(days_gone: int, why: Reason) -> None:
    """Salman et al. 2021, BMJ 372:m4721."""
    fever = Fever(2, WEDNESDAY - timedelta(days=days_gone), covid=True)
    assert why in come_back(a_session(), 3, fever=fever).why
