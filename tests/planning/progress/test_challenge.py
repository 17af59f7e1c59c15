"""A group's challenge."""

from datetime import UTC, date, datetime, timedelta

import pytest

from planning.progress import closes_at, tally
from planning.progress.challenge import Counted, Goal, GoalPart, done_of
from planning.terms.choices import Activity
from planning.terms.entry import Entry, Status

MONDAY = date(2026, 3, 23)
SUNDAY = MONDAY + timedelta(days=6)
FOUR_SESSIONS = Goal((GoalPart(4, Counted.SESSIONS),), MONDAY, SUNDAY)


def did(day: int, kind: Activity = Activity.SESSION, minutes: float | None = 20, km: float | None = None) -> Entry:
    return Entry(MONDAY + timedelta(days=day), kind=kind, minutes=minutes, km=km)


def test_a_challenge_closes_at_20_00_of_its_last_day_on_the_coach_s_clock() -> None:
    """The clocks of London change on that day (IANA tz database)."""
    assert closes_at(FOUR_SESSIONS, "Europe/London") == datetime(2026, 3, 29, 19, tzinfo=UTC)


@pytest.mark.parametrize(
    ("of", "done"),
    [
        (Counted.SESSIONS, 3),
        (Counted.WALKS, 1),
        (Counted.RUNS, 1),
        (Counted.STRENGTH, 1),
        (Counted.STRETCHES, 1),
        (Counted.MINUTES, 65),
        (Counted.KM, 3),
    ],
)
def test_what_a_challenge_can_count(of: Counted, done: float) -> None:
    log = [
        did(0),
        did(1, Activity.WALK, 25, 3),
        did(2, Activity.RUN_WALK),
        did(2, Activity.STRENGTH, 8),
        did(3, Activity.STRETCH, 5),
    ]
    assert done_of(Goal((GoalPart(1, of),), MONDAY, SUNDAY), log) == (done,)


def test_two_outings_of_one_day_are_one_session() -> None:
    assert done_of(FOUR_SESSIONS, [did(0, Activity.WALK), did(0, Activity.RUN)]) == (1,)


@pytest.mark.parametrize(("day", "counts"), [(-1, 0), (0, 1), (6, 1), (7, 0)])
def test_only_the_days_of_the_challenge_count(day: int, counts: int) -> None:
    assert done_of(FOUR_SESSIONS, [did(day)]) == (counts,)


def test_missed_sessions_do_not_count() -> None:
    assert done_of(FOUR_SESSIONS, [Entry(MONDAY, Status.MISSED)]) == (0,)


def test_each_has_numbers_of_their_own_and_of_the_others_only_a_count_is_told() -> None:
    logs = {"sam": [did(0)], "kim": [did(day) for day in range(4)], "pat": [did(day) for day in range(5)]}
    found = tally(FOUR_SESSIONS, logs, "sam")
    assert (found.done, found.of, found.is_done, found.people_done) == ((1,), (4,), False, 2)


def test_a_shared_goal_is_reached_together() -> None:
    goal = Goal((GoalPart(4, Counted.SESSIONS),), MONDAY, SUNDAY, shared=True)
    found = tally(goal, {"sam": [did(0)], "kim": [did(0), did(1), did(2)], "pat": []}, "sam")
    assert (found.done, found.together, found.is_done, found.people_done) == ((1,), (4,), True, 2)


def test_all_parts_of_a_goal_have_to_be_reached() -> None:
    goal = Goal((GoalPart(1, Counted.WALKS), GoalPart(1, Counted.STRETCHES)), MONDAY, SUNDAY)
    assert not tally(goal, {"sam": [did(0, Activity.WALK)]}, "sam").is_done


def test_whoever_has_no_log_in_it_has_done_nothing() -> None:
    assert tally(FOUR_SESSIONS, {}, "sam").done == (0.0,)
