"""The days and weeks of a plan against the calendar rules of RFC 5545 (by dateutil) and ISO 8601."""

from datetime import date, datetime, time, timedelta

import pytest
from dateutil.rrule import FR, MO, SA, SU, TH, TU, WE, rrule, rrulestr
from hypothesis import given
from hypothesis import strategies as st

from planning import build_plan
from planning.terms.plan import Plan
from tests.support.profiles import a_person, days_of

WEEKDAYS = (MO, TU, WE, TH, FR, SA, SU)


def plan_of(begin: date, *weekdays: int) -> Plan:
    return build_plan(a_person(begin=begin, days=days_of(*weekdays)))


def test_the_first_two_weeks_on_three_days() -> None:
    """RFC 5545, FREQ=WEEKLY;BYDAY=MO,WE,SA;COUNT=6 from 2 March 2026: 2, 4, 7, 9, 11 and 14 March."""
    sessions = plan_of(date(2026, 3, 2), 0, 2, 5).sessions[:6]
    rule = rrulestr("FREQ=WEEKLY;BYDAY=MO,WE,SA;COUNT=6", dtstart=datetime.combine(date(2026, 3, 2), time(7)))
    assert [datetime.combine(each.on, each.at) for each in sessions] == list(rule)
    assert [each.on.day for each in sessions] == [2, 4, 7, 9, 11, 14]


@given(st.dates(date(2026, 1, 1), date(2030, 1, 1)), st.lists(st.integers(0, 6), min_size=1, max_size=4, unique=True))
def test_every_full_week_holds_the_days_that_dateutil_counts(begin: date, weekdays: list[int]) -> None:
    plan = plan_of(begin, *sorted(weekdays))
    week = plan.weeks[-4] if plan.weeks[-4].number else plan.weeks[-3]
    until = datetime.combine(week.monday + timedelta(days=6), datetime.min.time())
    start = datetime.combine(week.monday, datetime.min.time())
    days = rrule(3, byweekday=[WEEKDAYS[each] for each in weekdays], dtstart=start, until=until)
    assert {each.on for each in week.sessions} == {each.date() for each in days}


@pytest.mark.parametrize(
    ("on", "week"),
    [
        (date(2025, 12, 29), (2026, 1, 1)),
        (date(2026, 12, 31), (2026, 53, 4)),
        (date(2027, 1, 3), (2026, 53, 7)),
        (date(2027, 1, 4), (2027, 1, 1)),
        (date(2021, 1, 3), (2020, 53, 7)),
    ],
)
def test_weeks_of_a_plan_are_those_of_iso_8601(on: date, week: tuple[int, int, int]) -> None:
    """ISO 8601: weeks run from Monday, week 1 holds 4 January, 2020 and 2026 have 53 weeks."""
    assert tuple(on.isocalendar()) == week
    plan = plan_of(on - timedelta(days=40), 0, 2, 4, 6)
    mine = next(each for each in plan.weeks if each.monday <= on < each.monday + timedelta(days=7))
    assert tuple(mine.monday.isocalendar()) == (*week[:2], 1)
    assert all(tuple(each.on.isocalendar())[:2] == week[:2] for each in mine.sessions)
