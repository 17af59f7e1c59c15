"""A step up: as far as the limits of the plan leave room, and never in an easier week."""

from dataclasses import replace
from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning import build_plan, check
from planning.plan.happened import look_back
from planning.step import harder, step_up
from planning.terms.choices import Activity, Weekday, WeekKind
from planning.terms.entry import Entry, Fixed, History
from planning.terms.person import DayTime, Profile, Race
from planning.terms.plan import Plan, Session
from planning.terms.reasons import Reason
from planning.terms.steps import Ceiling
from tests.planning.sessions import a_session, run_walks, spelled

DAYS = (Weekday.MON, Weekday.WED, Weekday.FRI, Weekday.SUN)
SAM = Profile(
    "sam",
    "Europe/London",
    tuple(DayTime(day, time(7)) for day in DAYS),
    date(2026, 3, 2),
    walk_min=20,
    age=44,
    height_cm=168,
    weight_kg=80,
    race=Race(date(2027, 5, 2), 21.0975),
)
PLAN = build_plan(SAM)


def done_before(session: Session) -> History:
    """All sessions before *session* done as planned."""
    before = [each for each in PLAN.sessions if each.on < session.on]
    return History(tuple(Entry(each.on, kind=Activity.SESSION, share=1.0, planned_on=each.on) for each in before))


def first_of(kind: WeekKind) -> Session:
    return next(week for week in PLAN.weeks if week.kind is kind and week.number > 4).sessions[0]


@pytest.mark.parametrize(
    ("before", "ceiling", "after"),
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
def test_a_step_up_goes_as_far_as_the_ceiling(before: str, ceiling: Ceiling, after: str) -> None:
    assert spelled(step_up(a_session(before), ceiling).session) == after


def test_a_step_up_without_room_says_so() -> None:
    assert Reason.GROWTH_LIMIT in step_up(a_session("w20"), Ceiling(20 * 60)).why


@given(run_walks(), st.integers(0, 7200), st.integers(0, 3600))
def test_a_step_up_keeps_its_ceiling(session: Session, seconds: int, run_seconds: int) -> None:
    up = step_up(session, Ceiling(seconds, run_seconds)).session
    assert up.seconds <= max(session.seconds, seconds)
    assert up.run_seconds <= max(session.run_seconds, run_seconds)


def test_where_weeks_hold_what_is_there_a_step_up_is_open() -> None:
    session = first_of(WeekKind.HOLD)
    step = harder(PLAN, SAM, done_before(session), session, session.on)
    assert step.session.seconds > session.seconds


@pytest.mark.parametrize("kind", [WeekKind.EASIER, WeekKind.TAPER])
def test_weeks_that_are_meant_to_be_easier_stay_so(kind: WeekKind) -> None:
    session = first_of(kind)
    step = harder(PLAN, SAM, done_before(session), session, session.on)
    assert (step.session, step.why) == (session, (Reason.ASKED_HARDER, Reason.GROWTH_LIMIT))


def with_session(session: Session) -> Plan:
    weeks = [
        replace(week, sessions=tuple(session if each.on == session.on else each for each in week.sessions))
        for week in PLAN.weeks
    ]
    return replace(PLAN, weeks=tuple(weeks))


@pytest.mark.parametrize("index", range(0, len(PLAN.sessions), 11))
def test_a_step_up_breaks_no_limit(index: int) -> None:
    session = PLAN.sessions[index]
    history = done_before(session)
    up = harder(PLAN, SAM, history, session, session.on).session
    past = look_back(PLAN, replace(history, fixed=(Fixed(up.on, up),)), session.on).past(SAM)
    assert check(with_session(up), SAM, past) == ()
