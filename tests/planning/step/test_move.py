"""Another day: within the week, nothing hard on days in a row, nothing doubled up."""

from datetime import date, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.step import move
from planning.terms.choices import Purpose, Weekday
from planning.terms.person import DayTime
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Moved
from tests.planning.sessions import a_session

MONDAY = date(2026, 3, 2)
USUAL = {Weekday.MON: time(7), Weekday.WED: time(7), Weekday.FRI: time(7), Weekday.SUN: time(9)}
GIVEN = tuple(DayTime(day, at) for day, at in USUAL.items())
HARD = (Purpose.LONG, Purpose.BRISK)


def on(day: int, text: str = "w20", purpose: Purpose = Purpose.EASY) -> Session:
    """A session on that day of the week, 0 is Monday."""
    return a_session(text, on=MONDAY + timedelta(days=day), purpose=purpose)


MON, WED, FRI = on(0), on(2), on(4)
SUN = on(6, "w60", Purpose.LONG)
WEEK = (MON, WED, FRI, SUN)


def moved(which: Session, day: int, week: tuple[Session, ...] = WEEK, today: int = 0, at: time | None = None) -> Moved:
    return move(week, which, MONDAY + timedelta(days=day), at, GIVEN, MONDAY + timedelta(days=today))


def test_a_free_day_takes_it_at_the_time_it_had() -> None:
    to = moved(WED, 3)
    assert to.session is not None
    assert (to.session.on, to.session.at, to.session.segments) == (MONDAY + timedelta(days=3), time(7), WED.segments)


def test_a_usual_day_brings_its_usual_time() -> None:
    to = moved(WED, 6, (MON, WED, FRI))
    assert to.session is not None
    assert to.session.at == time(9)


def test_a_time_that_was_said_counts() -> None:
    to = moved(WED, 2, at=time(18, 30))
    assert to.session is not None
    assert (to.session.on, to.session.at, to.dropped) == (WED.on, time(18, 30), ())


@pytest.mark.parametrize(
    ("which", "day", "today", "why"),
    [(WED, 1, 2, Reason.DAY_IS_OVER), (SUN, 7, 6, Reason.WITHIN_THE_WEEK), (MON, -1, -2, Reason.WITHIN_THE_WEEK)],
)
def test_what_does_not_fit_into_the_rest_of_the_week_is_dropped(
    which: Session, day: int, today: int, why: Reason
) -> None:
    assert moved(which, day, today=today) == Moved(None, (which,), (why,))


@pytest.mark.parametrize(
    ("mine", "theirs", "stays"),
    [
        (Purpose.EASY, Purpose.LONG, False),
        (Purpose.EASY, Purpose.BRISK, False),
        (Purpose.BRISK, Purpose.LONG, False),
        (Purpose.EASY, Purpose.RACE, False),
        (Purpose.EASY, Purpose.EASY, True),
        (Purpose.BRISK, Purpose.EASY, True),
        (Purpose.LONG, Purpose.BRISK, True),
    ],
)
def test_of_two_on_one_day_the_more_important_stays(mine: Purpose, theirs: Purpose, stays: bool) -> None:
    mover, resident = on(1, purpose=mine), on(4, "w25", theirs)
    to = moved(mover, 4, (mover, resident))
    assert (to.session is not None) is stays
    assert to.dropped == ((resident,) if stays else (mover,))


def test_a_long_session_next_to_a_brisk_one_goes_to_the_nearest_free_usual_day() -> None:
    long, brisk = on(6, "w60", Purpose.LONG), on(2, purpose=Purpose.BRISK)
    to = moved(long, 3, (brisk, long))
    assert to.session is not None
    assert to.session.on == FRI.on
    assert Reason.MOVED_TO_FREE_DAY in to.why


def test_a_long_session_that_fits_nowhere_is_dropped() -> None:
    long, brisk = on(6, "w60", Purpose.LONG), on(4, purpose=Purpose.BRISK)
    assert moved(long, 5, (brisk, long), today=4) == Moved(None, (long,), (Reason.HARD_DAYS_APART,))


def test_a_brisk_session_next_to_the_long_one_is_walked() -> None:
    brisk = on(2, "w5 r5 w5", Purpose.BRISK)
    to = moved(brisk, 5, (brisk, SUN))
    assert to.session is not None
    assert (to.session.purpose, to.session.run_seconds, to.session.minutes) == (Purpose.EASY, 0, 15)


def test_running_on_days_in_a_row_is_walked_where_the_person_may_not() -> None:
    first, second = on(1, "w5 r5 w5"), on(4, "w5 r5 w5")
    to = moved(second, 2, (first, second))
    assert to.session is not None
    assert (to.session.run_seconds, to.why[-1]) == (0, Reason.RUN_DAYS_APART)


def test_a_walk_next_to_a_running_day_stays_as_it_was() -> None:
    running, walking = on(1, "w5 r5 w5"), on(4, "w20")
    to = moved(walking, 2, (running, walking))
    assert to.session is not None
    assert (to.session.effort, to.session.minutes, to.why) == (walking.effort, 20, (Reason.MOVED_AS_ASKED,))


def test_running_on_days_in_a_row_stays_where_the_person_may() -> None:
    first, second = on(1, "w5 r5 w5"), on(4, "w5 r5 w5")
    to = move((first, second), second, MONDAY + timedelta(days=2), None, GIVEN, MONDAY, runs_in_a_row=True)
    assert to.session is not None
    assert to.session.run_seconds == 300


def test_the_last_day_of_the_week_before_counts_as_a_neighbour() -> None:
    last_sunday, long = on(-1, "w60", Purpose.LONG), on(4, "w60", Purpose.LONG)
    to = moved(long, 0, (last_sunday, long))
    assert to.session is None or to.session.on != MONDAY


@st.composite
def lawful_weeks(draw: st.DrawFn) -> tuple[Session, ...]:
    """Two weeks of sessions, never two hard ones or two with running on days in a row."""
    days = draw(st.sets(st.integers(-7, 13), min_size=1, max_size=10))
    week: list[Session] = []
    for day in sorted(days):
        after_hard = any(each.purpose in HARD and each.on == MONDAY + timedelta(days=day - 1) for each in week)
        after_run = any(each.run_seconds and each.on == MONDAY + timedelta(days=day - 1) for each in week)
        purpose = Purpose.EASY if after_hard else draw(st.sampled_from([Purpose.EASY, *HARD]))
        week.append(on(day, "w20" if after_run else draw(st.sampled_from(["w20", "w5 r5 w5"])), purpose))
    return tuple(week)


@given(lawful_weeks(), st.data())
def test_a_move_never_makes_two_hard_or_two_running_days_in_a_row(
    week: tuple[Session, ...], data: st.DataObject
) -> None:
    which = data.draw(st.sampled_from(week))
    to = moved(which, data.draw(st.integers(-7, 13)), week, today=data.draw(st.integers(-7, 13)))
    left = [each for each in week if each != which and each not in to.dropped] + ([to.session] if to.session else [])
    left.sort(key=lambda each: each.on)
    for one, other in pairwise(left):
        assert one.on != other.on
        if (other.on - one.on).days == 1:
            assert not (one.purpose in HARD and other.purpose in HARD)
            assert not (one.run_seconds and other.run_seconds)


@given(lawful_weeks(), st.data())
def test_a_moved_session_stays_in_its_week_and_never_grows(week: tuple[Session, ...], data: st.DataObject) -> None:
    which = data.draw(st.sampled_from(week))
    today = data.draw(st.integers(-7, 13))
    to = moved(which, data.draw(st.integers(-7, 13)), week, today=today)
    assert (which in to.dropped) is (to.session is None)
    if to.session:
        assert to.session.on.isocalendar()[:2] == which.on.isocalendar()[:2]
        assert to.session.on >= MONDAY + timedelta(days=today)
        assert (to.session.seconds, to.session.run_seconds) <= (which.seconds, which.run_seconds)
