"""Each limit lets a lawful plan pass, and goes red when that plan is broken in one place."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date, timedelta

import pytest

from planning import LIMITS, build_plan, check
from planning.limits.ceilings import grow_run, grow_run_week, grow_session, grow_week
from planning.limits.gaps import percent_left
from planning.limits.record import Outing
from planning.limits.rule import empty_record
from planning.terms.choices import Do, Purpose, WeekKind
from planning.terms.person import Profile, Race, Screen
from planning.terms.plan import Plan, Segment, Session, Week
from tests.support.profiles import HALF_KM, MONDAY, a_person

SAM = a_person(race=Race(MONDAY + timedelta(days=300), HALF_KM))
SHORT_WALKER = a_person(walk_min=6, race=SAM.race)
HEAVY = a_person(weight_kg=95, jog_min=10, race=SAM.race)
Change = Callable[[Week], Week]


def change_week(plan: Plan, number: int, change: Change) -> Plan:
    """*plan* with its week *number* changed."""
    return replace(plan, weeks=tuple(change(each) if each.number == number else each for each in plan.weeks))


def sessions(change: Callable[[Session], Session]) -> Change:
    """Every session of a week changed."""
    return lambda week: replace(week, sessions=tuple(map(change, week.sessions)))


def walk(minutes: int) -> Callable[[Session], Session]:
    """A session of plain walking."""
    return lambda session: replace(session, segments=(Segment(Do.WALK, minutes * 60),))


def run(seconds: int) -> Callable[[Session], Session]:
    """A session of 30 minutes with one run in it."""
    walks = (1800 - seconds) // 2
    parts = (Segment(Do.WALK, walks), Segment(Do.RUN, seconds), Segment(Do.WALK, 1800 - seconds - walks))
    return lambda session: replace(session, segments=parts)


def as_long(session: Session) -> Session:
    return replace(session, purpose=Purpose.LONG)


def on_day(days: int) -> Change:
    """The first session of a week put on another day."""

    def move(week: Week) -> Week:
        first = replace(week.sessions[0], on=week.monday + timedelta(days=days))
        return replace(week, sessions=(first, *week.sessions[1:]))

    return move


def every_day(week: Week) -> Week:
    days = [week.monday + timedelta(days=each) for each in range(7)]
    return replace(week, strength=tuple(replace(build_plan(SAM).weeks[2].strength[0], on=each) for each in days))


def without(field: str) -> Change:
    return lambda week: replace(week, **{field: ()})


def of_kind(kind: WeekKind) -> Change:
    return lambda week: replace(week, kind=kind)


def strength_on(on: date) -> Change:
    return lambda week: replace(week, strength=tuple(replace(each, on=on) for each in week.strength))


def peak_sunday(plan: Plan) -> date:
    return max(plan.sessions, key=lambda each: each.seconds * (each.purpose is Purpose.LONG)).on


BROKEN: tuple[tuple[str, Profile, int, Change], ...] = (
    ("first_session", SAM, 1, sessions(walk(21))),
    ("first_runs", SAM, 1, sessions(run(30))),
    ("first_walks", SHORT_WALKER, 1, sessions(walk(20))),
    ("first_week", SAM, 1, sessions(walk(26))),
    ("first_days", SAM, 1, lambda week: replace(week, sessions=week.sessions[1:])),
    ("stretch_after", SAM, 5, sessions(lambda each: replace(each, after=()))),
    ("free_day", SAM, 3, every_day),
    ("given_days", SAM, 6, on_day(1)),
    ("whole_weeks", SAM, 6, on_day(-7)),
    ("week_growth", SAM, 9, sessions(walk(45))),
    ("session_growth", SAM, 9, sessions(walk(90))),
    ("easier_week", SAM, 8, sessions(walk(40))),
    ("easier_in_time", SAM, 8, of_kind(WeekKind.BUILD)),
    ("long_share", SAM, 20, lambda week: replace(week, sessions=week.sessions[2:])),
    ("hard_apart", SAM, 10, lambda week: sessions(as_long)(on_day(1)(week))),
    ("room_for_long", SAM, 25, lambda week: sessions(walk(61))(on_day(5)(replace(week, sessions=week.sessions[::-1])))),
    ("run_entry", SAM, 3, sessions(run(150))),
    ("strides", SAM, 2, lambda week: replace(week, sessions=(*week.sessions[:3], run(20)(week.sessions[3])))),
    ("run_growth", SAM, 8, sessions(run(900))),
    ("run_week_growth", SAM, 9, sessions(run(700))),
    ("run_days", SAM, 12, lambda week: sessions(run(300))(on_day(3)(week))),
    ("first_running", HEAVY, 1, sessions(run(500))),
    ("longest_session", SAM, 39, sessions(walk(181))),
    ("longest_before_race", SAM, 40, sessions(walk(60))),
    ("taper", SAM, 42, sessions(walk(80))),
    ("recover", SAM, 44, sessions(run(60))),
    ("strength", SAM, 7, without("strength")),
    (
        "strength_first",
        SAM,
        2,
        lambda week: replace(week, strength=tuple(replace(e, seconds=540) for e in week.strength)),
    ),
)


@pytest.mark.parametrize(("rule", "profile", "number", "change"), BROKEN, ids=[row[0] for row in BROKEN])
def test_a_plan_broken_in_one_place_is_caught(rule: str, profile: Profile, number: int, change: Change) -> None:
    plan = build_plan(profile)
    assert number in {each.number for each in plan.weeks}
    assert rule in {each.rule for each in check(change_week(plan, number, change), profile)}


def test_strength_on_the_eve_of_a_long_session_is_caught() -> None:
    plan = build_plan(SAM)
    sunday = peak_sunday(plan)
    number = next(each.number for each in plan.weeks if each.monday + timedelta(days=6) == sunday)
    broken = change_week(plan, number, strength_on(sunday - timedelta(days=1)))
    assert "strength_eve" in {each.rule for each in check(broken, SAM)}


def test_weeks_for_somebody_not_cleared_are_caught() -> None:
    barred = replace(SAM, screen=Screen(signs=True))
    assert "screening" in {each.rule for each in check(build_plan(SAM), barred)}


def test_every_limit_is_broken_once_here_and_has_a_source() -> None:
    tried = {row[0] for row in BROKEN} | {"strength_eve", "screening"}
    assert {each.name for each in LIMITS} == tried
    assert all(each.source for each in LIMITS)


@pytest.mark.parametrize(
    ("grow", "base", "most"),
    [
        (grow_session, 20 * 60, 25 * 60),
        (grow_session, 50 * 60, 55 * 60),
        (grow_session, 60 * 60, 66 * 60),
        (grow_session, 0, 5 * 60),
        (grow_week, 80 * 60, 90 * 60),
        (grow_week, 200 * 60, 220 * 60),
        (grow_run, 0, 180),
        (grow_run, 40 * 60, 44 * 60),
        (grow_run_week, 0, 600),
        (grow_run_week, 60 * 60, 78 * 60),
    ],
)
def test_growth_is_exact_at_its_limit(grow: Callable[[int], int], base: int, most: int) -> None:
    """Exactly 10 % stays within 10 %: 5.5 / 5.0 - 1 > 0.10 is true in floats (Frandsen et al. 2025, BJSM 59:1203)."""
    assert grow(base) == most


@pytest.mark.parametrize(("days", "counts"), [(1, True), (30, True), (31, False)])
def test_a_session_of_thirty_days_ago_counts_and_one_of_thirty_one_does_not(days: int, counts: bool) -> None:
    """Frandsen et al. 2025, Br J Sports Med 59:1203; the edge of the window is an interpretation."""
    record = empty_record(a_person(begin=MONDAY - timedelta(days=90)), 4)
    on = MONDAY.toordinal()
    steps = range(on - days, on, 5)
    record.add([Outing(steps[0], 3600), *(Outing(each, 600) for each in steps[1:])])
    assert (record.longest(on) == 3600) is counts


@pytest.mark.parametrize(("days", "percent"), [(6, 100), (7, 90), (13, 90), (14, 60), (27, 60), (28, 0), (400, 0)])
def test_the_longer_the_gap_the_less_still_counts(days: int, percent: int) -> None:
    """Return after a gap: common practice, no source."""
    assert percent_left(days) == percent
