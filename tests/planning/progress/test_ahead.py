"""What of a plan is still to be climbed, and how much of the last weeks was done."""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.forms import profile_from_json
from planning.plan.build import build_plan
from planning.progress.ahead import Ahead, kept, still_ahead
from planning.terms.choices import Activity, Purpose, WeekKind
from planning.terms.entry import Entry, Status
from planning.terms.plan import Plan, Week
from tests.planning.sessions import a_session
from tests.support.people import ada

MONDAY = date(2026, 3, 2)
KINDS = {"b": WeekKind.BUILD, "e": WeekKind.EASIER, "h": WeekKind.HOLD, "t": WeekKind.TAPER, "r": WeekKind.RACE}
TODAY = MONDAY - timedelta(days=4)
"""A Thursday; the week after it is the first of those below."""


def plan_of(text: str) -> Plan:
    """ "b20 e15": weeks by their kind and the minutes of their longest session, which is on Wednesday."""
    weeks = []
    for number, word in enumerate(text.split(), start=1):
        monday = MONDAY + timedelta(weeks=number - 1)
        on = monday + timedelta(days=2)
        sessions = (a_session(f"w{word[1:]}", on=on), a_session("w10", on=on + timedelta(days=2)))
        weeks.append(Week(number, monday, KINDS[word[0]], sessions))
    return Plan("ada", MONDAY, may_start=True, fits=True, earliest_race=None, weeks=tuple(weeks))


@pytest.mark.parametrize(
    ("weeks", "ahead"),
    [
        ("b20 b25 b30 e22 b35 t20 t15 r10", Ahead(5, 4)),
        ("b20 h20 h20 e15 h20 b25 t15 r10", Ahead(6, 2)),
        ("b30 b30 b30 t20 r10", Ahead(3, 1)),
        ("h60 h60 b60 b65 t40 r10", Ahead(4, 2)),
        ("b60 e40 b45 b55 b61 t40 r10", Ahead(5, 2)),
        ("t40 r10", Ahead(0, 0)),
        ("b20 t15 r10 b25 t20 r10", Ahead(4, 2)),
        ("b20 b25", Ahead(2, 2)),
        ("", Ahead(0, 0)),
    ],
    ids=[
        "each longer week is a step, an easier one is none",
        "weeks that hold ask for none",
        "the same length again is none",
        "building up to what was held is one",
        "what is climbed again after a shorter week is none",
        "in the taper all is climbed",
        "a race on the way is no end",
        "without a race up to the end",
        "nothing is planned any more",
    ],
)
def test_a_step_is_a_week_that_goes_beyond_those_before_it(weeks: str, ahead: Ahead) -> None:
    """A definition of our own: common practice, no source."""
    assert still_ahead(plan_of(weeks), TODAY) == ahead


def test_the_week_of_today_is_neither_a_step_nor_a_week_left() -> None:
    plan = plan_of("b20 b25 b30 t20 r10")
    assert {still_ahead(plan, MONDAY + timedelta(days=day)) for day in range(7)} == {Ahead(2, 2)}


def test_the_race_is_no_long_session() -> None:
    race = a_session("w180", on=MONDAY + timedelta(days=6), purpose=Purpose.RACE)
    plan = plan_of("b20 b25 t20")
    first = Week(1, MONDAY, WeekKind.BUILD, (*plan.weeks[0].sessions, race))
    assert still_ahead(Plan("ada", MONDAY, True, True, None, (first, *plan.weeks[1:])), TODAY) == Ahead(2, 2)


@pytest.mark.parametrize("on", ["2026-09-20", "2026-11-01", "2027-03-07"])
def test_a_whole_plan_never_asks_for_more_steps_than_it_has_weeks(on: str) -> None:
    plan = build_plan(profile_from_json(ada(race={"date": on, "km": 21.0975})))
    left = [still_ahead(plan, week.monday) for week in plan.weeks]
    assert all(0 <= each.steps <= each.weeks for each in left)
    assert sorted(left, key=lambda each: -each.weeks) == left
    assert all(now.steps >= then.steps for now, then in pairwise(left))


def done(week: int, minutes: float | None = None, **more: object) -> Entry:
    on = MONDAY + timedelta(weeks=week, days=2)
    return Entry(on, kind=Activity.WALK, minutes=minutes, planned_on=on, **more)  # type: ignore[arg-type]


AFTER = MONDAY + timedelta(weeks=4, days=3)


def test_a_part_of_each_whole_week_was_kept() -> None:
    """30 min are planned in each week: 20 and 10."""
    log = (done(0, 30), done(1, 15), done(3), done(4, 20))
    assert kept(plan_of("b20 b20 b20 b20 b20"), log, AFTER) == pytest.approx((1.0, 0.5, 0.0, 20 / 30))


def test_a_silent_or_missed_week_was_not_kept() -> None:
    log = (done(0, status=Status.MISSED), done(1, status=Status.NO_WORD))
    assert kept(plan_of("b20 b20"), log, AFTER) == (0.0, 0.0)


def test_old_weeks_and_those_without_a_session_say_nothing() -> None:
    plan = plan_of(" ".join(["b20"] * 12))
    empty = Week(10, plan.weeks[9].monday, WeekKind.BUILD, ())
    off = Plan("ada", MONDAY, True, True, None, (*plan.weeks[:9], empty, *plan.weeks[10:]))
    assert len(kept(plan, (), plan.weeks[11].monday)) == 8
    assert len(kept(off, (), plan.weeks[11].monday)) == 7


@given(st.lists(st.floats(0, 60), max_size=5), st.integers(0, 40))
@settings(max_examples=30, deadline=None)
def test_nothing_of_this_week_changes_what_was_kept(minutes: list[float], ahead: int) -> None:
    """Nobody is judged by a day."""
    plan, log = plan_of("b20 b20 b20 b20 b20 b20"), (done(0, 30), done(1, 15))
    today = tuple(Entry(AFTER + timedelta(days=ahead % 4), kind=Activity.WALK, minutes=each) for each in minutes)
    assert kept(plan, (*log, *today), AFTER) == kept(plan, log, AFTER)
