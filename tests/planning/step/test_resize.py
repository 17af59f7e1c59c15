"""Less time: the same session shorter, or harder for those who may."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.step import resize
from planning.step.resize import raised
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Allowance
from tests.planning.sessions import a_session, sessions, spelled

minutes = st.integers(0, 4 * 200).map(lambda quarters: quarters / 4)


@pytest.mark.parametrize(
    ("before", "have_min", "after"),
    [
        ("w20", 20, "w20"),
        ("w20", 45, "w20"),
        ("w20", float("inf"), "w20"),
        ("w20", -5, ""),
        ("w20", 12, "w12"),
        ("w20", 7.5, "w7.5"),
        ("w20", 5, "w5"),
        ("w20", 4.9, ""),
        ("w20", 0, ""),
        ("w2 s1 w2 s1 w2 s1 w2", 6, "w2 s1 w2"),
        ("w2 s1 w2 s1 w2 s1 w2", 7, "w2 s1 w2 s1 w1"),
        ("w2 s1 w2 s1 w2 s1 w2", 8, "w2 s1 w2 s1 w2"),
        ("w5 r1 w2 r1 w2 r1 w2 r1 w2 r1 w8", 15, "w4 r1 w2 r1 w7"),
        ("w5 r10 w5", 10, "w2 r5 w3"),
        ("w5 r10 w5", 6, "w1 r3 w2"),
        ("c30", 15, "c15"),
    ],
)
def test_less_time_is_the_same_session_shorter(before: str, have_min: float, after: str) -> None:
    assert spelled(resize(a_session(before), have_min).session) == after


def test_below_five_minutes_the_stretch_is_left() -> None:
    step = resize(a_session(), 3)
    assert step.session.after == a_session().after
    assert Reason.STRETCH_ALONE in step.why


def test_it_keeps_its_day_hour_purpose_and_ease() -> None:
    before = a_session("w60", purpose=Purpose.LONG)
    after = resize(before, 30).session
    assert (after.on, after.at, after.purpose, after.effort) == (before.on, before.at, before.purpose, before.effort)


@pytest.mark.parametrize(("was", "have"), [(60, 30), (30, 15)])
def test_half_the_time_is_one_hard_to_one_walked_in_place_of_one_to_two(was: int, have: int) -> None:
    """Common practice, no source: 60 to 30 and 30 to 15 minutes keep the place of the session."""
    before = a_session("w3 " + "r1 w2 " * (was // 3 - 1))
    after = resize(before, have, Allowance.PARITY).session
    turns = spelled(after).split()[1:]
    assert turns == ["r1", "w1"] * (len(turns) // 2)
    assert len(turns) * 1.0 >= 0.75 * have
    assert (after.minutes, after.purpose) == (have, Purpose.BRISK)


@pytest.mark.parametrize(
    ("effort", "was", "now", "allowance", "after"),
    [
        (3, 60, 30, Allowance.NONE, 3),
        (3, 60, 30, Allowance.BY_TWO, 5),
        (2, 60, 30, Allowance.BY_TWO, 4),
        (4, 60, 30, Allowance.BY_TWO, 5),
        (3, 60, 30, Allowance.PARITY, 6),
        (4, 60, 30, Allowance.PARITY, 7),
        (4, 60, 30, Allowance.PARITY_TO_SIX, 6),
        (3, 60, 50, Allowance.PARITY, 3),
        (2, 60, 50, Allowance.BY_TWO, 2),
        (6, 60, 30, Allowance.BY_TWO, 6),
    ],
)
def test_effort_rises_by_load_parity_up_to_the_cap(
    effort: int, was: int, now: int, allowance: Allowance, after: int
) -> None:
    """Minutes x CR-10 effort stays: Foster et al. 2001, J Strength Cond Res 15:109; the caps are common practice."""
    assert raised(effort, was * 60, now * 60, allowance) == after


def test_both_ends_of_the_wished_effort_rise() -> None:
    assert resize(a_session("w60"), 30, Allowance.BY_TWO).session.effort == (4, 5)


def test_a_long_session_is_never_made_harder() -> None:
    assert resize(a_session("w60", purpose=Purpose.LONG), 30, Allowance.PARITY).session.effort == (2, 3)


@given(sessions(), minutes, st.sampled_from(Allowance))
def test_it_is_never_longer_than_before_nor_than_the_time_there_is(
    session: Session, have: float, allowance: Allowance
) -> None:
    after = resize(session, have, allowance).session
    assert after.seconds <= min(session.seconds, max(have * 60, 0))


@given(sessions(), minutes, st.sampled_from(Allowance))
def test_no_run_and_no_running_grows(session: Session, have: float, allowance: Allowance) -> None:
    after = resize(session, have, allowance).session
    longest = [max((each.seconds for each in one.segments if each.do is Do.RUN), default=0) for one in (session, after)]
    assert after.run_seconds <= session.run_seconds
    assert longest[1] <= longest[0]


@given(sessions(), minutes)
def test_at_the_same_ease_the_share_of_running_never_grows(session: Session, have: float) -> None:
    after = resize(session, have).session
    assert after.run_seconds * session.seconds <= session.run_seconds * after.seconds
    assert after.effort == session.effort or not after.segments


@given(sessions(), minutes, st.sampled_from(Allowance))
def test_what_is_left_starts_and_ends_walking(session: Session, have: float, allowance: Allowance) -> None:
    left = resize(session, have, allowance).session.segments
    assert not left or left[0].do is left[-1].do is Do.WALK


@given(sessions(), minutes, minutes)
def test_less_time_never_gives_more(session: Session, one: float, other: float) -> None:
    less, more = (resize(session, each).session for each in sorted((one, other)))
    assert less.seconds <= more.seconds
    assert less.run_seconds <= more.run_seconds


@given(sessions(), minutes, st.sampled_from(Allowance))
def test_the_load_never_rises_above_what_it_was(session: Session, have: float, allowance: Allowance) -> None:
    after = resize(session, have, allowance).session
    assert after.seconds * after.effort[1] <= session.seconds * session.effort[1]
