"""Four weeks in numbers."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.progress import review
from planning.progress.review import WeekNumbers, week_numbers
from planning.terms.choices import Activity
from planning.terms.entry import Entry, Status
from tests.planning.sessions import a_session

MONDAY = date(2026, 3, 2)
SUNDAY = MONDAY + timedelta(days=27)


def walk(day: int, minutes: float | None = 20, **more: object) -> Entry:
    """A walk so many days after the first Monday."""
    return Entry(MONDAY + timedelta(days=day), kind=Activity.WALK, minutes=minutes, **more)  # type: ignore[arg-type]


def test_each_week_tells_minutes_sessions_and_the_longest() -> None:
    log = (walk(0), walk(2, 25), walk(9, 30), walk(27, 45))
    assert [(each.minutes, each.sessions, each.longest_min) for each in review(log, (), SUNDAY).weeks] == [
        (45, 2, 25),
        (30, 1, 30),
        (0, 0, 0),
        (45, 1, 45),
    ]


def test_weeks_run_from_monday_to_sunday() -> None:
    weeks = review((walk(6), walk(7)), (), SUNDAY).weeks
    assert [each.sessions for each in weeks[:2]] == [1, 1]
    assert [each.monday for each in weeks] == [MONDAY + timedelta(weeks=number) for number in range(4)]


def test_parts_of_one_outing_are_one_session() -> None:
    log = (walk(0, 12), Entry(MONDAY, kind=Activity.RUN, minutes=8))
    assert review(log, (), SUNDAY).weeks[0] == WeekNumbers(MONDAY, 20, 1, 20, 0)


def test_stretch_and_strength_are_counted_apart() -> None:
    log = (walk(0), *(Entry(MONDAY, kind=kind, minutes=8) for kind in (Activity.STRETCH, Activity.STRENGTH)))
    week = review(log, (), SUNDAY).weeks[0]
    assert (week.minutes, week.sessions, week.strength) == (20, 1, 1)


@pytest.mark.parametrize("status", [Status.MISSED, Status.NO_WORD])
def test_missed_and_silent_days_count_for_nothing(status: Status) -> None:
    assert review((walk(0, 20, status=status),), (), SUNDAY).sessions == 0


@pytest.mark.parametrize(("share", "minutes"), [(1.0, 30), (0.5, 15), (None, 30)])
def test_a_share_counts_by_the_planned_length(share: float | None, minutes: float) -> None:
    done = Entry(MONDAY, kind=Activity.SESSION, share=share, planned_on=MONDAY)
    assert review((done,), (a_session("w30", on=MONDAY),), SUNDAY).minutes == minutes


def test_the_change_is_against_the_four_weeks_before() -> None:
    log = (walk(-20, 20), walk(-1, 30), walk(0, 40), walk(9, 35), walk(16, 20))
    change = review(log, (), SUNDAY).change
    assert change is not None
    assert (change.minutes, change.sessions, change.longest_min) == (45, 1, 10)


def test_in_the_middle_of_a_week_the_same_days_are_compared() -> None:
    wednesday = SUNDAY - timedelta(days=4)
    log = (walk(-5), walk(-4, 50), walk(23))
    change = review(log, (), wednesday).change
    assert change is not None
    assert (change.minutes, change.sessions) == (0, 0)


def test_without_a_log_before_there_is_no_change() -> None:
    assert review((walk(0),), (), SUNDAY).change is None


@given(st.lists(st.tuples(st.integers(-40, 40), st.integers(1, 120)), max_size=30))
def test_the_weeks_hold_all_minutes_of_their_days_and_no_others(days: list[tuple[int, int]]) -> None:
    log = tuple(walk(day, minutes) for day, minutes in days)
    assert review(log, (), SUNDAY).minutes == sum(minutes for day, minutes in days if 0 <= day < 28)
    week = week_numbers(log, {}, MONDAY)
    assert week.longest_min <= week.minutes
