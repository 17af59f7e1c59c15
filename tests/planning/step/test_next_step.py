"""All that is known today put together: worse news never gives a larger step."""

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.safety import triage
from planning.step import Fever, Today, next_step
from planning.terms.choices import Course, Part, Sense
from planning.terms.entry import Complaint
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from tests.planning.sessions import WEDNESDAY, a_session, sessions

NOTHING_NEW = Today(WEDNESDAY)
levels = st.integers(0, 40).map(lambda quarters: quarters / 4)


def size(session: Session) -> tuple[int, int, int]:
    return session.seconds, session.run_seconds, session.effort[1]


def is_no_larger(one: Session, other: Session) -> bool:
    return all(a <= b for a, b in zip(size(one), size(other), strict=True))


@given(sessions())
def test_without_news_the_session_stands_as_planned(session: Session) -> None:
    step = next_step(session, NOTHING_NEW)
    assert (step.session, step.why) == (session, (Reason.AS_PLANNED,))


todays = st.builds(
    Today,
    on=st.just(WEDNESDAY),
    triages=st.lists(
        st.builds(Complaint, st.sampled_from(Part), sense=st.sampled_from(Sense), level=levels).map(triage), max_size=2
    ).map(tuple),
    gap_days=st.integers(0, 60),
    fever=st.one_of(st.none(), st.builds(Fever, st.integers(1, 9), st.just(WEDNESDAY - timedelta(days=4)))),
    efforts=st.lists(st.tuples(levels, st.integers(2, 5)), max_size=3).map(tuple),
    slept_h=st.one_of(st.none(), st.floats(0, 10)),
    sure=st.one_of(st.none(), levels),
    misses=st.integers(0, 4),
    missed_of_five=st.integers(0, 5),
    low=st.booleans(),
    beyond_plan=st.booleans(),
)


@given(sessions(), todays)
def test_no_news_make_a_session_larger_than_planned(session: Session, today: Today) -> None:
    assert is_no_larger(next_step(session, today).session, session)


@given(sessions(), todays, levels, levels, st.sampled_from(Part), st.sampled_from([Sense.SORE, Sense.PAIN, None]))
def test_more_pain_never_gives_a_larger_step(
    session: Session, today: Today, one: float, other: float, part: Part, sense: Sense | None
) -> None:
    low, high = sorted((one, other))
    steps = [
        next_step(session, replace(today, triages=(triage(Complaint(part, sense=sense, level=each)),))).session
        for each in (low, high)
    ]
    assert is_no_larger(steps[1], steps[0])


@given(sessions(), todays, st.integers(0, 60), st.integers(0, 60))
def test_a_longer_gap_never_gives_a_larger_step(session: Session, today: Today, one: int, other: int) -> None:
    short, long = (next_step(session, replace(today, gap_days=each)).session for each in sorted((one, other)))
    assert is_no_larger(long, short)


@given(sessions(), todays, levels, levels)
def test_a_harder_effort_never_gives_a_larger_step(session: Session, today: Today, one: float, other: float) -> None:
    steps = [next_step(session, replace(today, efforts=((5, 3), (each, 3)))).session for each in sorted((one, other))]
    assert is_no_larger(steps[1], steps[0])


@given(sessions(), todays, st.floats(0, 12), st.floats(0, 12))
def test_less_sleep_never_gives_a_larger_step(session: Session, today: Today, one: float, other: float) -> None:
    less, more = (next_step(session, replace(today, slept_h=each)).session for each in sorted((one, other)))
    assert is_no_larger(less, more)


@given(sessions(), todays, levels, levels)
def test_being_less_sure_never_gives_a_larger_step(session: Session, today: Today, one: float, other: float) -> None:
    less, more = (next_step(session, replace(today, sure=each)).session for each in sorted((one, other)))
    assert is_no_larger(less, more)


@pytest.mark.parametrize(
    ("today", "minutes", "why"),
    [
        (Today(WEDNESDAY, sure=7), 40, Reason.AS_PLANNED),
        (Today(WEDNESDAY, sure=6), 30, Reason.NOT_SURE),
        (Today(WEDNESDAY, sure=6, asked_sure=1), 20, Reason.NOT_SURE),
        (Today(WEDNESDAY, sure=6, asked_sure=2), 10, Reason.NOT_SURE),
        (Today(WEDNESDAY, misses=1), 40, Reason.AS_PLANNED),
        (Today(WEDNESDAY, misses=2), 10, Reason.TWO_MISSES),
        (Today(WEDNESDAY, missed_of_five=2), 40, Reason.AS_PLANNED),
        (Today(WEDNESDAY, missed_of_five=3), 10, Reason.THREE_OF_FIVE_MISSED),
        (Today(WEDNESDAY, efforts=((5, 3),)), 40, Reason.AS_PLANNED),
        (Today(WEDNESDAY, efforts=((5, 3), (5, 3))), 30, Reason.TOO_HARD_TWICE),
        (Today(WEDNESDAY, efforts=((5, 3), (4, 3))), 40, Reason.AS_PLANNED),
        (Today(WEDNESDAY, slept_h=6), 40, Reason.AS_PLANNED),
        (Today(WEDNESDAY, slept_h=5), 40, Reason.BAD_NIGHT),
        (Today(WEDNESDAY, slept_h=4), 30, Reason.BAD_NIGHT),
        (Today(WEDNESDAY, low=True), 40, Reason.LOW_DAY),
        (Today(WEDNESDAY, gap_days=6), 40, Reason.AS_PLANNED),
        (Today(WEDNESDAY, gap_days=7), 35, Reason.GAP_OF_A_WEEK),
    ],
)
def test_what_each_piece_of_news_leaves_of_forty_minutes(today: Today, minutes: int, why: Reason) -> None:
    """Common practice, no source; the confidence ruler below 7 is from motivational interviewing."""
    step = next_step(a_session("w40"), today)
    assert (step.session.minutes, why in step.why) == (minutes, True)


def test_a_red_flag_leaves_the_stretch() -> None:
    flag = triage(Complaint(Part.KNEE, sense=Sense.PAIN, course=Course.WORSE))
    assert next_step(a_session("w40"), Today(WEDNESDAY, (flag,))).session.minutes == 0


def test_far_more_than_planned_leaves_no_running_for_two_days() -> None:
    step = next_step(a_session("w5 r5 w5"), Today(WEDNESDAY, beyond_plan=True))
    assert (step.session.run_seconds, step.session.minutes) == (0, 15)
