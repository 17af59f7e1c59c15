"""Every plan keeps every limit, read by somebody who sees only its JSON."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, Phase, example, given, settings

from bot.forms import plan_to_json
from planning import LIMITS, build_plan, check
from planning.limits.rule import Case, Rule
from planning.terms.choices import Do, Purpose, RaceMode, WeekKind
from planning.terms.person import Profile, Race, Screen
from tests.support.literal import broken_limits
from tests.support.profiles import HALF_KM, MONDAY, a_person, days_of, profiles

Places = Iterator[tuple[date, float, float]]
QUICK = (Phase.explicit, Phase.reuse, Phase.generate)
"""Without making a failing case smaller: a profile reads well as it is, and whole years take long."""
SOON = settings(max_examples=500, deadline=None, suppress_health_check=list(HealthCheck), phases=QUICK)
NIGHTLY = settings(max_examples=5_000, deadline=None, suppress_health_check=list(HealthCheck), phases=QUICK)


def keeps_all(profile: Profile) -> None:
    plan = build_plan(profile)
    assert check(plan, profile) == ()
    assert broken_limits(plan_to_json(plan), profile) == []


@SOON
@given(profiles())
def test_every_plan_keeps_every_limit(profile: Profile) -> None:
    keeps_all(profile)


@pytest.mark.nightly
@NIGHTLY
@given(profiles())
def test_every_plan_of_many_keeps_every_limit(profile: Profile) -> None:
    keeps_all(profile)


SATURDAYS = a_person(days=days_of(1, 3, 5), height_cm=170, weight_kg=118,
                     race=Race(date(2027, 3, 7), HALF_KM, RaceMode.WALK, 240))  # fmt: skip
"""Long walks on Saturdays, and a race on a Sunday whose limit is too short for walking."""


@settings(SOON, max_examples=100)
@given(profiles(screened=True))
@example(SATURDAYS)
def test_the_eve_of_the_race_holds_a_short_walk_at_most(profile: Profile) -> None:
    """20 minutes (common practice, no source)."""
    eve = profile.race.on - timedelta(days=1) if profile.race else None
    for each in build_plan(profile).sessions:
        assert each.on != eve or (each.purpose is Purpose.RACE or (each.minutes <= 20 and not each.run_seconds))


@pytest.mark.parametrize("days", [9, 14, 20, 27])
def test_a_race_too_near_for_a_build_up_asks_for_no_walk_too_short_for_shoes(days: int) -> None:
    """10 minutes (common practice, no source)."""
    plan = build_plan(a_person(days=days_of(1, 3, 5), race=Race(MONDAY + timedelta(days=days), 5)))
    assert min(each.minutes for each in plan.sessions) >= 10


def test_a_limit_that_no_walking_meets_asks_for_no_months_of_the_longest_walks() -> None:
    longest = [each for each in build_plan(SATURDAYS).sessions if each.purpose is Purpose.LONG and each.minutes >= 180]
    assert longest[0].on >= date(2026, 12, 1)


@settings(SOON, max_examples=60)
@given(profiles(screened=True))
def test_the_earliest_race_is_the_first_that_fits_and_four_weeks(profile: Profile) -> None:
    race = profile.race or Race(profile.begin, HALF_KM)
    earliest = build_plan(replace(profile, race=race, milestones=())).earliest_race
    if earliest is None:
        return
    first = earliest - timedelta(days=28)
    fits = [build_plan(replace(profile, race=replace(race, on=first + timedelta(days=each)), milestones=())).fits
            for each in (-1, 0, 1, 6, 28, 100)]  # fmt: skip
    assert fits == [False, True, True, True, True, True]


@pytest.mark.parametrize(
    ("days", "who"),
    [
        ((0, 2, 5, 6), {"begin": date(2026, 3, 24), "age": 62, "height_cm": 156, "weight_kg": 69, "longest_min": 60,
                        "week_min": 100, "race": Race(date(2026, 10, 30), HALF_KM)}),
        ((0, 3, 5, 6), {"begin": date(2026, 3, 7), "walk_min": 2, "jog_min": 2, "longest_min": 10, "week_min": 150,
                        "age": None, "height_cm": 185, "weight_kg": 88}),
    ],
)  # fmt: skip
def test_short_jogs_on_a_sunday_are_followed_by_no_run_on_monday(days: tuple[int, ...], who: dict[str, object]) -> None:
    keeps_all(a_person(days=days_of(*days), **who))


def always_broken(case: Case) -> Places:
    yield case.profile.begin, 1, 0


def broken_by_running(case: Case) -> Places:
    yield from ((each.on, 1, 0) for each in case.plan.sessions if each.run_seconds)


@pytest.mark.parametrize(("find", "planned"), [(broken_by_running, True), (always_broken, False)])
def test_a_plan_that_would_break_a_limit_is_replaced_by_a_smaller_one(
    monkeypatch: pytest.MonkeyPatch, find: Callable[[Case], Places], planned: bool
) -> None:
    monkeypatch.setattr("planning.limits.LIMITS", (*LIMITS, Rule("no_way", "invented", find)))
    plan = build_plan(a_person())
    assert bool(plan.weeks) is planned
    assert not any(each.run_seconds for each in plan.sessions)
    assert plan.warnings[-1] == "kept_small"


def test_a_first_week_is_four_walks_of_twenty_minutes() -> None:
    """Common practice, no source."""
    week = build_plan(a_person()).weeks[0]
    assert [(each.minutes, [part.do for part in each.segments]) for each in week.sessions] == [(20, [Do.WALK])] * 4
    assert all([part.minutes for part in each.after] == [5] for each in week.sessions)


def test_who_cannot_walk_twenty_minutes_walks_two_and_stands_one() -> None:
    """Common practice, no source."""
    first = build_plan(a_person(walk_min=8)).sessions[0]
    assert [(each.do, each.minutes) for each in first.segments[:4]] == [(Do.WALK, 2), (Do.REST, 1)] * 2
    assert first.minutes == 20


def test_nobody_below_a_bmi_of_thirty_waits_longer_than_ten_weeks_to_run() -> None:
    plan = build_plan(a_person(weight_kg=75))
    assert min(each.number for each in plan.weeks if each.run_seconds) <= 10


def test_the_first_running_week_above_a_bmi_of_thirty_stays_under_three_kilometres() -> None:
    """Nielsen et al. 2014, Int J Sports Phys Ther 9:338: 3 x 6 min at 7 km/h are 2.1 km and pass, 3 x 12 min fail."""
    plan = build_plan(a_person(weight_kg=95, jog_min=20))
    first = next(each for each in plan.weeks if each.run_seconds)
    assert first.run_seconds / 3600 * 7 < 3


@pytest.mark.parametrize(
    ("km", "mode", "fits"), [(HALF_KM, "walk", True), (HALF_KM, "run_walk", True), (5, "walk", True)]
)
def test_being_slow_alone_never_spoils_a_plan(km: float, mode: str, fits: bool) -> None:
    race = Race(MONDAY + timedelta(days=400), km, RaceMode(mode))
    assert build_plan(a_person(weight_kg=160, age=70, race=race)).fits is fits


@pytest.mark.parametrize(("cutoff", "fits"), [(None, True), (150, False), (480, True)])
def test_the_time_limit_of_the_organiser_decides(cutoff: int | None, fits: bool) -> None:
    plan = build_plan(a_person(race=Race(MONDAY + timedelta(days=400), HALF_KM, cutoff_min=cutoff)))
    assert plan.fits is fits
    assert ("cutoff" in plan.warnings) is not fits


def test_one_day_a_week_is_enough_for_ten_kilometres_only() -> None:
    far = MONDAY + timedelta(days=700)
    assert build_plan(a_person(days=days_of(5), race=Race(far, 10))).fits
    half = build_plan(a_person(days=days_of(5), race=Race(far, HALF_KM)))
    assert (half.fits, half.earliest_race, "one_day" in half.warnings) == (False, None, True)


def test_a_race_far_off_is_held_for_not_idled_to() -> None:
    plan = build_plan(a_person(race=Race(MONDAY + timedelta(days=500), HALF_KM)))
    held = [each for each in plan.weeks if each.kind is WeekKind.HOLD]
    assert len(held) > 10
    assert min(each.minutes for each in held) > 100


def test_a_race_too_near_gets_a_careful_plan() -> None:
    plan = build_plan(a_person(race=Race(MONDAY + timedelta(days=40), HALF_KM)))
    assert not plan.fits
    assert "too_near" in plan.warnings
    assert plan.sessions[-4].purpose is Purpose.RACE


def test_without_a_race_the_plan_leads_two_weeks_past_the_earliest() -> None:
    plan = build_plan(a_person())
    assert plan.fits
    assert plan.earliest_race is not None
    assert 14 <= (plan.weeks[-1].monday + timedelta(days=6) - plan.earliest_race).days < 21


@pytest.mark.parametrize(
    ("screen", "cleared", "may"),
    [
        (Screen(signs=True), False, False),
        (Screen(active=True, signs=True), False, False),
        (Screen(disease=True), False, False),
        (Screen(active=True, disease=True), False, True),
        (Screen(signs=True), True, True),
        (Screen(), False, True),
    ],
)
def test_nobody_starts_before_the_table_lets_them(screen: Screen, cleared: bool, may: bool) -> None:
    """Riebe et al. 2015, MSSE 47:2473."""
    plan = build_plan(a_person(screen=screen, cleared=cleared))
    assert (plan.may_start, bool(plan.weeks)) == (may, may)
    assert ("see_doctor" in plan.warnings) is not may
    assert plan.fits


def test_known_disease_while_active_walks_until_cleared() -> None:
    plan = build_plan(a_person(screen=Screen(active=True, disease=True)))
    assert not any(each.run_seconds for each in plan.sessions)
    assert "run_after_clearance" in plan.warnings


def test_pregnant_nothing_grows_without_a_midwife() -> None:
    plan = build_plan(a_person(screen=Screen(pregnant=True)))
    assert max(each.minutes for each in plan.weeks) == plan.weeks[0].minutes
    assert not any(each.run_seconds for each in plan.sessions)


def test_a_shorter_race_on_the_way_takes_the_place_of_the_long_session() -> None:
    step = Race(MONDAY + timedelta(days=7 * 18 + 5), 10)
    plan = build_plan(a_person(race=Race(MONDAY + timedelta(days=230), HALF_KM), milestones=(step,)))
    week = next(each for each in plan.weeks if each.monday <= step.on < each.monday + timedelta(days=7))
    purposes = [each.purpose for each in week.sessions]
    assert purposes.count(Purpose.RACE) == 1
    assert Purpose.LONG not in purposes
    assert "milestone_left_out" not in plan.warnings


@pytest.mark.parametrize("days", [(0, 2, 4, 6), (1, 3, 5)])
@pytest.mark.parametrize(("weeks", "step"), [(60, 24), (75, 30), (75, 48), (90, 37), (90, 62)])
def test_a_shorter_race_amid_weeks_that_hold_is_built_up_to(days: tuple[int, ...], weeks: int, step: int) -> None:
    """Common practice, no source: weeks of holding end in time for the long session that the shorter race asks for."""
    race = Race(MONDAY + timedelta(days=7 * weeks + 6), HALF_KM)
    ten = Race(MONDAY + timedelta(days=7 * step + 5), 10)
    profile = a_person(days=days_of(*days), race=race, milestones=(ten,))
    plan = build_plan(profile)
    assert WeekKind.HOLD in {each.kind for each in plan.weeks if each.monday < ten.on}
    assert ten.on in {each.on for each in plan.sessions if each.purpose is Purpose.RACE}
    assert (plan.fits, "milestone_left_out" in plan.warnings) == (True, False)
    keeps_all(profile)


def test_a_shorter_race_that_comes_too_soon_is_left_out() -> None:
    plan = build_plan(a_person(milestones=(Race(MONDAY + timedelta(days=19), 10),)))
    assert "milestone_left_out" in plan.warnings
    assert all(each.purpose is not Purpose.RACE for each in plan.sessions)


@pytest.mark.parametrize("jog_min", [5, 12, 20, 30])
def test_weeks_that_hold_lose_no_running(jog_min: int) -> None:
    """Easier weeks run less; the week after them runs as before."""
    race = Race(MONDAY + timedelta(days=500), HALF_KM)
    plan = build_plan(a_person(jog_min=jog_min, week_min=150, longest_min=60, walk_min=60, race=race))
    held = [each.run_seconds for each in plan.weeks if each.kind is WeekKind.HOLD and each.number > 8]
    assert len(held) > 10
    assert min(held) >= held[0] > 0


def test_who_jogs_half_an_hour_runs_more_before_the_race_than_at_first() -> None:
    race = Race(MONDAY + timedelta(days=299), HALF_KM)
    plan = build_plan(a_person(weight_kg=62, jog_min=30, week_min=150, longest_min=60, walk_min=60, race=race))
    longest = max((each for each in plan.sessions if each.purpose is Purpose.LONG), key=lambda each: each.seconds)
    assert longest.run_seconds > 30 * 60
    assert all(each.run_seconds for each in plan.weeks if each.kind in (WeekKind.BUILD, WeekKind.HOLD, WeekKind.EASIER))


def test_who_has_walked_on_without_standing_rests_gets_none_again() -> None:
    plan = build_plan(a_person(walk_min=6, race=Race(MONDAY + timedelta(days=370), HALF_KM)))
    rested = [any(part.do is Do.REST for each in week.sessions for part in each.segments) for week in plan.weeks]
    assert rested[0]
    assert rested == sorted(rested, reverse=True)
