"""Stuck, not sure, sore: what is left of a session."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.step import ease, rescue, shrink, soften, step_down, stretch_only, swap
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Session
from tests.planning.sessions import a_session, sessions, spelled


@pytest.mark.parametrize(
    ("done_min", "left_min"), [(0, 20), (12, 8), (12.5, 7.5), (20, 0), (25, 0), (float("inf"), 0), (-3, 20), (None, 10)]
)
def test_a_rescue_offers_what_is_left(done_min: float | None, left_min: float) -> None:
    assert rescue(a_session("w20"), done_min).left_min == left_min


def test_a_rescue_starts_with_standing_and_goes_on_minute_by_minute() -> None:
    segments = rescue(a_session("w20"), 15.5).segments
    assert [(each.do, each.seconds) for each in segments] == [
        (Do.REST, 60),
        (Do.WALK, 60),
        (Do.WALK, 60),
        (Do.WALK, 60),
        (Do.WALK, 30),
    ]


@given(sessions(), st.one_of(st.none(), st.floats(0, 300)))
def test_a_rescue_is_never_more_than_what_was_left_and_holds_no_running(session: Session, done: float | None) -> None:
    left = rescue(session, done)
    assert left.left_seconds <= max(0, session.seconds - round((done or 0) * 60))
    assert sum(each.seconds for each in left.segments) == left.left_seconds
    assert all(each.do is not Do.RUN and 0 < each.seconds <= 60 for each in left.segments)


@pytest.mark.parametrize(
    ("before", "smaller"),
    [
        ("w60", ["w45", "w30", "w10", "w10"]),
        ("w30", ["w20", "w15", "w10", "w10"]),
        ("w20", ["w15", "w10", "", ""]),
        ("w10", ["w7", "w5", "", ""]),
        ("w6", ["", "", "", ""]),
    ],
)
def test_twice_a_part_is_taken_away_then_ten_minutes_or_the_stretch_are_left(before: str, smaller: list[str]) -> None:
    assert [spelled(shrink(a_session(before), times).session) for times in (1, 2, 3, 4)] == smaller


@given(sessions())
def test_each_shrinking_is_smaller_and_the_floor_is_ten_minutes_of_walking(session: Session) -> None:
    sizes = [shrink(session, times).session for times in (1, 2, 3)]
    lengths = [session.seconds, *(each.seconds for each in sizes)]
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[1] < lengths[0]
    assert (sizes[2].run_seconds, sizes[2].seconds <= 600) == (0, True)
    assert sizes[2].effort[1] <= 2


@given(sessions())
def test_an_eased_session_is_shorter_walked_and_moderate_at_most(session: Session) -> None:
    eased = ease(session)
    assert eased.seconds < session.seconds
    assert eased.run_seconds == 0
    assert eased.effort[1] <= min(3, session.effort[1])


@given(sessions())
def test_a_swapped_session_is_one_segment_without_impact_no_longer_than_the_eased_one(session: Session) -> None:
    swapped = swap(session)
    assert swapped.seconds <= ease(session).seconds
    assert {each.do for each in swapped.segments} <= {Do.CROSS}
    assert len(swapped.segments) <= 1


def test_a_swap_has_an_effort_of_two_to_three_at_most() -> None:
    assert [swap(a_session("w20", effort=each)).effort for each in ((2, 3), (1, 2))] == [(2, 3), (1, 2)]


def test_a_brisk_session_without_its_runs_is_an_easy_one() -> None:
    assert ease(a_session("w5 r5 w5", purpose=Purpose.BRISK)).purpose is Purpose.EASY


def test_softening_keeps_the_minutes() -> None:
    softened = soften(a_session("w40", effort=(4, 5)))
    assert (softened.minutes, softened.effort) == (40, (3, 3))


def test_the_stretch_alone_has_no_minutes() -> None:
    left = stretch_only(a_session())
    assert (left.minutes, left.after) == (0, a_session().after)


@given(sessions())
def test_a_step_down_is_shorter_and_easier(session: Session) -> None:
    down = step_down(session).session
    assert down.seconds < session.seconds
    assert down.effort[1] <= session.effort[1]
    assert down.run_seconds <= session.run_seconds
