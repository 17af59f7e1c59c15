"""Plans in rows come back as they were, also after a new plan took the place of an old one."""

from dataclasses import replace
from datetime import date, timedelta

from hypothesis import HealthCheck, given, settings
from sqlalchemy import func, select

from bot.store import plans
from bot.store.changes import person_row
from bot.store.tables import SessionRow, WeekRow
from bot.store.unit import Store
from planning import build_plan, replan
from planning.terms.choices import Do, Purpose
from planning.terms.entry import Entry, History, Status
from planning.terms.person import Profile
from planning.terms.plan import Plan, Segment
from tests.support.profiles import HALF_KM, MONDAY, Race, a_person, days_of, profiles

SLOW = settings(
    max_examples=8, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow]
)


def keep(store: Store, plan: Plan) -> Plan | None:
    """Keep a plan in place of the one that is there; what is found then."""
    with store.begin() as tx:
        person_row(tx, plan.who)
        plans.keep_plan(tx, plan, plans.find_plan(tx, plan.who))
    with store.begin() as tx:
        return plans.find_plan(tx, plan.who)


@SLOW
@given(profile=profiles())
def test_a_plan_comes_back_as_it_was_kept(store: Store, profile: Profile) -> None:
    plan = build_plan(profile)
    assert keep(store, plan) == plan


@SLOW
@given(profile=profiles())
def test_nothing_is_left_of_the_plan_before(store: Store, profile: Profile) -> None:
    keep(store, build_plan(replace(profile, days=days_of(*range(6)))))
    plan = build_plan(profile)
    assert keep(store, plan) == plan
    with store.begin() as tx:
        assert tx.scalar(select(func.count()).select_from(WeekRow)) == len(plan.weeks)
        assert tx.scalar(select(func.count()).select_from(SessionRow)) == len(plan.sessions)


def sam() -> Profile:
    return a_person(race=Race(date(2026, 11, 1), HALF_KM))


def test_a_plan_made_anew_comes_back_as_it_was_kept(store: Store) -> None:
    before = build_plan(sam())
    missed = tuple(Entry(each.on, Status.MISSED, planned_on=each.on) for each in before.sessions[:12])
    after = replan(sam(), History(entries=missed), MONDAY + timedelta(days=24), before)
    keep(store, before)
    assert keep(store, after) == after


def test_a_plan_with_race_and_strength_keeps_both(store: Store) -> None:
    found = keep(store, build_plan(sam()))
    assert found is not None
    assert found.race_day is not None
    assert any(week.strength for week in found.weeks)
    assert [each.purpose for each in found.sessions].count(Purpose.RACE) == 1


def test_two_people_have_plans_of_their_own(store: Store) -> None:
    ada, bea = build_plan(replace(sam(), who="ada")), build_plan(a_person(who="bea", days=days_of(1, 3)))
    keep(store, ada)
    keep(store, bea)
    with store.begin() as tx:
        assert (plans.find_plan(tx, "ada"), plans.find_plan(tx, "bea")) == (ada, bea)


def test_somebody_without_a_plan_has_none(store: Store) -> None:
    with store.begin() as tx:
        assert plans.find_plan(tx, "ada") is None


def test_a_session_of_one_day_becomes_another_or_none(store: Store) -> None:
    plan = keep(store, build_plan(sam()))
    assert plan is not None
    other = replace(plan.sessions[1], segments=(Segment(Do.WALK, 600),))
    with store.begin() as tx:
        plans.keep_session(tx, "sam", other.on, other)
        plans.keep_session(tx, "sam", plan.sessions[0].on, None)
    with store.begin() as tx:
        found = plans.find_plan(tx, "sam")
    assert found is not None
    assert found.sessions == (other, *plan.sessions[2:])
