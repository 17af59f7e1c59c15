"""The plan after what really happened: the past stands, nothing is doubled up, every limit holds."""

import random
from dataclasses import replace
from datetime import date, timedelta
from statistics import median

import pytest
from hypothesis import HealthCheck, Phase, example, given, settings
from hypothesis import strategies as st

from planning import LIMITS, build_plan, replan
from planning.limits.rule import Rule
from planning.step import shrink
from planning.terms.choices import Colour, Part, Purpose, RaceMode, WeekKind
from planning.terms.entry import Break, Entry, Fixed, Flag, History, Status
from planning.terms.person import Profile, Race
from planning.terms.plan import Plan, Session
from tests.support.histories import Life, as_planned, done, training
from tests.support.profiles import HALF_KM, MONDAY, a_person, days_of, profiles

QUICK = (Phase.explicit, Phase.reuse, Phase.generate)
"""Without making a failing case smaller: a profile reads well as it is, and whole years take long."""
YEARS = settings(max_examples=30, deadline=None, suppress_health_check=list(HealthCheck), phases=QUICK)
SEEDS = st.integers(0, 10**6)
SAM = a_person(race=Race(MONDAY + timedelta(days=300), HALF_KM))
WEEK = timedelta(days=7)
SELDOM, WEEKLY = (1, 14, 14, 14), (1, 3, 7, 7)
"""Days between two re-plans: mostly a fortnight, and a week or less in the nightly run."""


def weeks_of(profile: Profile, count: int) -> list[date]:
    return [profile.begin + WEEK * number for number in range(1, count + 1)]


def live_a_year(profile: Profile, seed: int, steps: tuple[int, ...]) -> None:
    """`replan` ends in the check of every limit, so that it only has to be asked, and needs no careful way out.

    *steps*: days from one re-plan to the next, chosen by lot.
    """
    dice = random.Random(seed)
    life, plan, day = Life(dice, dice.choice((0.95, 0.8, 0.5, 0.2))), build_plan(profile), profile.begin
    while day < profile.begin + timedelta(days=364):
        after = day + timedelta(days=dice.choice(steps))
        life.live(plan, day, after)
        new = replan(profile, life.history, after, plan)
        assert past(new, after) == past(plan, after)
        assert replan(profile, life.history, after, new) == new
        assert "kept_small" not in new.warnings
        plan, day = new, after


def past(plan: Plan, today: date) -> list[object]:
    return [each for each in plan.sessions if each.on < today]


@YEARS
@given(profiles(screened=True), SEEDS)
def test_a_random_year_keeps_every_limit_and_never_touches_the_past(profile: Profile, seed: int) -> None:
    live_a_year(profile, seed, SELDOM)


@pytest.mark.nightly
@settings(YEARS, max_examples=300)
@given(profiles(screened=True), SEEDS)
def test_many_random_years_keep_every_limit(profile: Profile, seed: int) -> None:
    live_a_year(profile, seed, WEEKLY)


def stays_when_done(profile: Profile, every: int) -> None:
    plan = build_plan(profile)
    for today in weeks_of(profile, 52)[::every]:
        if plan.weeks and today <= plan.weeks[-1].monday:
            history = History(as_planned(plan, profile.begin, today))
            assert replan(profile, history, today, plan) == plan


ONCE_A_WEEK = a_person(days=days_of(1), begin=date(2026, 5, 30), walk_min=1, jog_min=1, week_min=150, longest_min=120,
                       race=Race(date(2026, 6, 23), 10, RaceMode.WALK, 319), height_cm=None)  # fmt: skip
"""Little is done in the weeks before the race: the walks after it follow from that."""
IN_TWELVE_DAYS = a_person(days=days_of(0, 2, 4), begin=date(2026, 12, 3), walk_min=180, jog_min=1, week_min=192,
                          longest_min=22, race=Race(date(2026, 12, 15), HALF_KM, RaceMode.WALK), age=None,
                          height_cm=None)  # fmt: skip
"""No full week comes before this race: its days follow from what is usual."""


@YEARS
@given(profiles(screened=True))
@example(ONCE_A_WEEK)
@example(IN_TWELVE_DAYS)
def test_a_plan_done_as_planned_stays_as_it_is(profile: Profile) -> None:
    stays_when_done(profile, every=5)


@pytest.mark.nightly
@settings(YEARS, max_examples=300)
@given(profiles(screened=True))
def test_many_plans_done_as_planned_stay_as_they_are(profile: Profile) -> None:
    stays_when_done(profile, every=1)


def after_weeks(count: int, missed: tuple[int, ...] = (), **more: object) -> tuple[Plan, Plan]:
    """Sam's plan, and the one after *count* weeks in which the sessions of these numbers were *missed*."""
    plan, today = build_plan(SAM), MONDAY + WEEK * count
    entries = list(as_planned(plan, MONDAY, today))
    for each in missed:
        entries[each] = Entry(entries[each].on, Status.MISSED, planned_on=entries[each].on)
    return plan, replan(SAM, History(tuple(entries), **more), today, plan)  # type: ignore[arg-type]


def test_one_missed_walk_changes_no_day_that_it_need_not() -> None:
    plan, new = after_weeks(10, missed=(-4,))
    changed = [a.on for a, b in zip(plan.sessions, new.sessions, strict=True) if a != b]
    assert len(changed) <= 8
    assert new.fits


def test_an_early_long_walk_that_misses_made_the_longest_spoils_no_plan() -> None:
    race = Race(date(2026, 8, 2), 5, RaceMode.WALK)
    person = a_person(begin=date(2026, 4, 4), days=days_of(1, 3, 4, 5, 6), race=race, walk_min=45, jog_min=20,
                      longest_min=90, week_min=240, height_cm=160, weight_kg=141)  # fmt: skip
    plan, today = build_plan(person), date(2026, 4, 18)
    week = training(plan, date(2026, 4, 13), today)
    missed = tuple(Entry(each.on, Status.MISSED, planned_on=each.on) for each in week)
    new = replan(person, History((*as_planned(plan, person.begin, date(2026, 4, 13)), *missed)), today, plan)
    assert "kept_small" not in new.warnings


def test_a_missed_session_is_never_doubled_up() -> None:
    plan, new = after_weeks(10, missed=(-1, -2, -3, -4))
    week = next(each for each in new.weeks if each.number == 11)
    assert week.minutes <= next(each for each in plan.weeks if each.number == 11).minutes
    assert len(week.sessions) <= 4


@pytest.mark.parametrize(("shorter", "longer"), [(3, 8), (8, 15), (15, 30), (30, 60), (3, 60)])
def test_a_longer_gap_never_gives_a_larger_return(shorter: int, longer: int) -> None:
    """Back after a gap: common practice, no source."""
    firsts = []
    for days in (shorter, longer):
        plan = build_plan(SAM)
        end = MONDAY + WEEK * 16
        back = end + timedelta(days=days)
        off = Break(end, back - timedelta(days=1))
        new = replan(SAM, History(as_planned(plan, MONDAY, end), breaks=(off,)), back, plan)
        firsts.append(sum(each.seconds for each in training(new, back, back + WEEK)))
    assert firsts[1] <= firsts[0]


def first_week_but(*missed: int, status: Status = Status.NO_WORD) -> Plan:
    """Sam's plan after a first week in which the sessions of these numbers were not done."""
    plan, today = build_plan(SAM), MONDAY + WEEK
    entries = list(as_planned(plan, MONDAY, today))
    for each in missed:
        entries[each] = Entry(entries[each].on, status, planned_on=entries[each].on)
    return replan(SAM, History(tuple(entries)), today, plan)


@pytest.mark.parametrize("status", [Status.MISSED, Status.NO_WORD])
@pytest.mark.parametrize("missed", [(0, 1), (2, 3), (0, 1, 2, 3)])
def test_the_first_week_may_be_repeated_whatever_was_missed(missed: tuple[int, ...], status: Status) -> None:
    """1-6 days: carry on; 7-13: repeat (common practice, no source)."""
    ahead = training(first_week_but(*missed, status=status), MONDAY + WEEK, MONDAY + WEEK * 2)
    assert [each.minutes for each in ahead] == [20, 20, 20, 20]


def test_a_break_of_five_days_in_the_first_week_leaves_the_second_as_it_can_be() -> None:
    plan, today = build_plan(SAM), MONDAY + timedelta(days=1)
    off = Break(today, today + timedelta(days=4))
    new = replan(SAM, History(as_planned(plan, MONDAY, today), breaks=(off,)), today, plan)
    assert [each.minutes for each in training(new, MONDAY + WEEK, MONDAY + WEEK * 2)] == [20, 20, 20, 20]


def test_nobody_jogs_in_week_three_without_two_weeks_of_walks() -> None:
    plan, today = build_plan(SAM), MONDAY + WEEK * 2
    silent = tuple(Entry(each.on, Status.NO_WORD, planned_on=each.on) for each in training(plan, MONDAY, today))
    new = replan(SAM, History(silent), today, plan)
    assert not any(each.run_seconds for each in training(new, today, today + WEEK))


@pytest.mark.parametrize(("days", "least", "most"), [(7, 0.8, 1.0), (21, 0.4, 0.67)])
def test_the_return_steps_back_by_the_length_of_the_gap(days: int, least: float, most: float) -> None:
    """7-13 days: about the last week; 14-27: half to two thirds (common practice, no source)."""
    plan, end = build_plan(SAM), MONDAY + WEEK * 15
    back = end + timedelta(days=days)
    off = Break(end, back - timedelta(days=1))
    new = replan(SAM, History(as_planned(plan, MONDAY, end), breaks=(off,)), back, plan)
    first = sum(each.seconds for each in training(new, back, back + WEEK))
    assert least <= first / plan.weeks[14].seconds <= most


def test_after_four_weeks_away_everything_starts_anew() -> None:
    plan, end = build_plan(SAM), MONDAY + WEEK * 15
    back = end + WEEK * 5
    new = replan(SAM, History(as_planned(plan, MONDAY, end)), back, plan)
    assert [each.minutes for each in training(new, back, back + WEEK)] == [20] * 4


@pytest.mark.parametrize("days", [12, 13, 16, 20, 25])
def test_the_first_session_after_a_gap_is_walked_however_long_the_gap(days: int) -> None:
    """Walking comes before running on the way back (common practice, no source)."""
    person = a_person(days=days_of(0), begin=date(2026, 7, 3), walk_min=19, jog_min=19, week_min=40, longest_min=90,
                      age=22, height_cm=None)  # fmt: skip
    plan, today = build_plan(person), date(2026, 8, 3)
    done_before = as_planned(plan, person.begin, today - timedelta(days=days))
    first = training(replan(person, History(done_before), today, plan), today, today + WEEK)[0]
    assert first.run_seconds == 0
    assert training(plan, today, today + WEEK)[0].run_seconds > 0


@pytest.mark.parametrize("effort", [3, 5, 7, 10])
def test_a_harder_effort_never_gives_a_longer_run(effort: int) -> None:
    plan, today = build_plan(SAM), MONDAY + WEEK * 12
    calm = replan(SAM, History(as_planned(plan, MONDAY, today)), today, plan)
    hard = History(tuple(replace(each, effort=effort) for each in as_planned(plan, MONDAY, today)))
    new = replan(SAM, hard, today, plan)
    assert longest_run(new, today) <= longest_run(calm, today)


def longest_run(plan: Plan, today: date) -> int:
    ahead = training(plan, today, today + WEEK)
    return max((part.seconds for each in ahead for part in each.segments if part.do == "run"), default=0)


def test_a_red_flag_holds_everything_until_it_is_clear() -> None:
    since = MONDAY + WEEK * 10 - timedelta(days=1)
    _, new = after_weeks(10, flags=(Flag(Part.SHIN, None, Colour.RED, since),))
    assert [each for each in new.sessions if each.on >= MONDAY + WEEK * 10] == []
    assert new.warnings == ("red_flag",)


def test_after_a_red_flag_the_way_back_is_a_step_lower() -> None:
    since, clear = MONDAY + WEEK * 9, MONDAY + WEEK * 10 - timedelta(days=1)
    plan, new = after_weeks(10, flags=(Flag(Part.SHIN, None, Colour.RED, since, clear),))
    assert longest_run(new, MONDAY + WEEK * 10) < longest_run(plan, MONDAY + WEEK * 10)


def test_an_amber_flag_drops_the_running_for_now() -> None:
    since = MONDAY + WEEK * 12 - timedelta(days=1)
    plan, new = after_weeks(12, flags=(Flag(Part.KNEE, None, Colour.AMBER, since),))
    assert longest_run(plan, MONDAY + WEEK * 12) > 0
    assert longest_run(new, MONDAY + WEEK * 12) == 0


def test_a_holiday_holds_no_session() -> None:
    first, last = MONDAY + WEEK * 12, MONDAY + WEEK * 13
    _, new = after_weeks(10, breaks=(Break(first, last),))
    assert training(new, first, last + timedelta(days=1)) == []


@pytest.mark.parametrize("week", [1, 2, 5, 12])
@pytest.mark.parametrize(("ill", "gentle"), [(1, 3), (2, 3), (5, 5)])
def test_after_a_fever_two_days_of_rest_and_days_of_gentle_walking(week: int, ill: int, gentle: int) -> None:
    """Two whole days, then as many gentle ones as the fever had, 3 or more (common practice, no source)."""
    last = MONDAY + WEEK * week + timedelta(days=ill - 1)
    off = Break(MONDAY + WEEK * week, last, ill=True, fever=True)
    _, new = after_weeks(week, breaks=(off,))
    assert training(new, off.first, last + timedelta(days=3)) == []
    ahead = training(new, last + timedelta(days=3), last + timedelta(days=3 + gentle))
    assert ahead
    for each in ahead:
        assert (each.run_seconds, each.effort, 10 <= each.minutes <= 30) == (0, (1, 2), True)


@pytest.mark.parametrize("ill", [1, 2, 5])
def test_the_week_after_a_fever_is_no_easier_one_on_top(ill: int) -> None:
    """A week lost to illness counts as the easier week (common practice, no source)."""
    off = Break(MONDAY + WEEK * 10, MONDAY + WEEK * 10 + timedelta(days=ill - 1), ill=True, fever=True)
    plan, new = after_weeks(10, breaks=(off,))
    assert plan.weeks[11].kind is WeekKind.EASIER
    assert new.weeks[11].kind is not WeekKind.EASIER
    assert new.weeks[11].seconds >= new.weeks[10].seconds


def test_a_change_by_the_coach_stands() -> None:
    plan = build_plan(SAM)
    session = training(plan, MONDAY + WEEK * 10, MONDAY + WEEK * 11)[1]
    short = replace(session, segments=session.segments[:1])
    _, new = after_weeks(10, fixed=(Fixed(session.on, short),))
    assert short in new.sessions


@pytest.mark.parametrize("week", [1, 2, 5, 10])
def test_the_stretch_alone_stays_after_two_misses(week: int) -> None:
    plan = build_plan(SAM)
    session = training(plan, MONDAY + WEEK * week, MONDAY + WEEK * (week + 1))[0]
    stretch = shrink(shrink(session, 3).session, 3).session
    assert stretch.segments == ()
    _, new = after_weeks(week, missed=(-1, -2), fixed=(Fixed(session.on, stretch),))
    assert stretch in new.sessions
    assert "fixed_trimmed" not in new.warnings


@pytest.mark.parametrize("place", range(8))
@pytest.mark.parametrize("times", [1, 2, 3])
def test_a_smaller_session_chosen_by_somebody_never_breaks_a_limit(place: int, times: int) -> None:
    session = training(build_plan(SAM), MONDAY + WEEK * 10, MONDAY + WEEK * 12)[place]
    smaller = shrink(session, times).session
    _, new = after_weeks(10, fixed=(Fixed(session.on, smaller),))
    assert smaller in new.sessions


def test_a_change_beyond_what_is_safe_is_left_out_and_said() -> None:
    plan = build_plan(SAM)
    session = training(plan, MONDAY + WEEK * 10, MONDAY + WEEK * 11)[1]
    far = replace(session, segments=(replace(session.segments[0], seconds=4 * 3600),))
    _, new = after_weeks(10, fixed=(Fixed(session.on, far),))
    assert far not in new.sessions
    assert "fixed_trimmed" in new.warnings


def test_a_new_plan_that_would_break_a_limit_holds_no_session(monkeypatch: pytest.MonkeyPatch) -> None:
    rule = Rule("no_way", "invented", lambda case: iter([(case.profile.begin, 1, 0)]))
    plan, history = build_plan(SAM), History()
    monkeypatch.setattr("planning.limits.LIMITS", (*LIMITS, rule))
    new = replan(SAM, history, MONDAY + WEEK, plan)
    assert training(new, MONDAY + WEEK, date.max) == []
    assert past(new, MONDAY + WEEK) == past(plan, MONDAY + WEEK)
    assert "kept_small" in new.warnings


def test_a_session_dropped_by_somebody_stays_dropped() -> None:
    on = training(build_plan(SAM), MONDAY + WEEK * 10, MONDAY + WEEK * 11)[1].on
    _, new = after_weeks(10, fixed=(Fixed(on, None),))
    assert on not in {each.on for each in new.sessions}


def test_more_than_planned_raises_nothing_and_is_followed_by_walking() -> None:
    plan, today = build_plan(SAM), MONDAY + WEEK * 12
    entries = list(as_planned(plan, MONDAY, today))
    last = training(plan, MONDAY, today)[-1]
    entries[-1] = done(last, minutes=last.minutes * 2)
    new = replan(SAM, History(tuple(entries)), today, plan)
    assert all(not each.run_seconds for each in training(new, today, today + timedelta(days=2)))
    assert [each.seconds for each in new.sessions] == [each.seconds for each in plan.sessions]


def test_what_was_said_of_today_leaves_today_alone() -> None:
    plan = build_plan(SAM)
    today = training(plan, MONDAY + WEEK * 3, MONDAY + WEEK * 4)[0].on
    entries = (*as_planned(plan, MONDAY, today), Entry(today, Status.MISSED, planned_on=today))
    new = replan(SAM, History(entries), today, plan)
    assert [each for each in new.sessions if each.on == today] == [each for each in plan.sessions if each.on == today]


def back_after(off: Break, week: int, share: float = 1) -> tuple[list[Entry], list[Session]]:
    """What Sam did in the *week* weeks before a break, the last of them by a *share*; and the sessions of a week after
    it is over."""
    plan, today = build_plan(SAM), off.last + timedelta(days=1) if off.last else off.first
    done_before = [
        replace(each, minutes=(each.minutes or 0) * (share if each.on >= off.first - WEEK else 1))
        for each in as_planned(plan, MONDAY, MONDAY + WEEK * week)
    ]
    new = replan(SAM, History(tuple(done_before), breaks=(off,)), today, plan)
    return done_before, training(new, today, today + timedelta(days=10))


@pytest.mark.parametrize("week", [1, 2, 3, 5, 9, 16, 30])
@pytest.mark.parametrize("share", [1, 0.9, 0.5])
@pytest.mark.parametrize(("days", "fever"), [(1, True), (3, True), (9, True), (1, False), (4, False), (10, False)])
def test_the_first_session_after_an_illness_is_a_step_back(week: int, share: float, days: int, fever: bool) -> None:
    """A step back by length, and gentle walking after a fever (common practice, no source)."""
    first = MONDAY + WEEK * week
    before, after = back_after(Break(first, first + timedelta(days=days - 1), ill=True, fever=fever), week, share)
    usual = median([each.minutes or 0 for each in before[-4:]])
    assert after[0].minutes <= min(max(each.minutes or 0 for each in before[-4:]), max(10, usual * 0.8))
    assert after[0].minutes >= 8


@pytest.mark.parametrize("week", [1, 2, 5, 9, 16, 30])
@pytest.mark.parametrize("days", [7, 10, 16, 27, 28, 50])
def test_the_first_session_after_a_week_or_more_away_is_none_larger_than_before(week: int, days: int) -> None:
    """7-13 days: repeat what was done; more: less of it (common practice, no source)."""
    first = MONDAY + WEEK * week
    before, after = back_after(Break(first, first + timedelta(days=days - 1)), week)
    assert after[0].minutes <= max(each.minutes or 0 for each in before[-4:])


@pytest.mark.parametrize(("days", "most"), [(10, 54), (16, 36), (35, 20)])
def test_who_began_with_an_hour_comes_back_with_less_of_it_the_longer_the_gap(days: int, most: int) -> None:
    """7-13 days: a step lower; 14-27: half to two thirds; then anew (common practice, no source)."""
    strong = replace(SAM, walk_min=60, week_min=240, longest_min=60)
    plan, first = build_plan(strong), MONDAY + WEEK
    back = first + timedelta(days=days)
    new = replan(
        strong, History(as_planned(plan, MONDAY, first), breaks=(Break(first, back - timedelta(days=1)),)), back, plan
    )
    assert plan.sessions[0].minutes == 60
    assert training(new, back, back + WEEK)[0].minutes <= most


def test_the_day_after_a_shorter_race_holds_no_running_even_in_the_next_week() -> None:
    sunday = date(2026, 7, 19)
    person = a_person(days=days_of(0, 1, 2, 3, 4, 5), begin=date(2026, 3, 23), walk_min=1, jog_min=1, age=None,
                      height_cm=190, weight_kg=103, milestones=(Race(sunday, 5),))  # fmt: skip
    plan, today = build_plan(person), sunday + timedelta(days=1)
    assert sunday in {each.on for each in plan.sessions}
    assert replan(person, History(as_planned(plan, person.begin, today)), today, plan) == plan


def test_of_two_shorter_races_on_days_in_a_row_one_is_left_out() -> None:
    races = (Race(date(2027, 3, 20), 5), Race(date(2027, 3, 21), 5))
    person = a_person(days=days_of(0, 1, 2, 3, 4, 5, 6), begin=date(2026, 11, 25), jog_min=20, week_min=150,
                      longest_min=90, age=None, height_cm=None, milestones=races)  # fmt: skip
    plan = build_plan(person)
    assert [each.on for each in plan.sessions if each.purpose is Purpose.RACE] == [races[0].on]
    today = date(2026, 12, 20)
    missed = tuple(Entry(each.on, Status.MISSED, planned_on=each.on) for each in training(plan, person.begin, today))
    assert "kept_small" not in replan(person, History(missed), today, plan).warnings


def test_a_race_soon_after_weeks_that_were_missed_still_gets_its_days_before() -> None:
    race = Race(date(2026, 7, 18), 15, cutoff_min=269)
    person = a_person(days=days_of(0, 1, 2, 3, 4, 5, 6), begin=date(2026, 6, 15), walk_min=14, jog_min=14, week_min=14,
                      longest_min=45, height_cm=None, race=race)  # fmt: skip
    plan, today = build_plan(person), date(2026, 6, 29)
    new = replan(person, History(), today, plan)
    assert "kept_small" not in new.warnings
    assert sum(each.seconds for each in training(new, date(2026, 7, 4), date(2026, 7, 11))) > 0


def test_two_shorter_races_in_one_week_leave_a_plan_with_one_of_them() -> None:
    races = (Race(date(2027, 3, 23), 5), Race(date(2027, 3, 27), 5))
    person = a_person(days=days_of(0, 1, 2, 3, 4, 5, 6), begin=date(2026, 7, 22), walk_min=86, jog_min=2, week_min=853,
                      longest_min=299, age=None, height_cm=175, weight_kg=59, milestones=races,
                      race=Race(date(2027, 5, 25), HALF_KM, RaceMode.WALK))  # fmt: skip
    plan = build_plan(person)
    assert [each.on for each in plan.sessions if each.purpose is Purpose.RACE] == [races[0].on, date(2027, 5, 25)]
    assert "milestone_left_out" in plan.warnings


def test_a_race_in_the_second_week_stays_as_planned_while_nothing_was_missed() -> None:
    person = a_person(days=days_of(1, 2, 3, 4, 6), begin=date(2026, 3, 24), walk_min=66, week_min=150, longest_min=45,
                      race=Race(date(2026, 4, 1), 10, RaceMode.WALK))  # fmt: skip
    plan, today = build_plan(person), date(2026, 3, 31)
    assert training(plan, person.begin, today) == []
    assert replan(person, History(), today, plan) == plan


@pytest.mark.parametrize(("shorter", "longer"), [(26, 33), (30, 33), (30, 36), (33, 36), (36, 40)])
def test_the_days_before_a_race_hold_no_more_after_a_longer_gap(shorter: int, longer: int) -> None:
    race = Race(date(2026, 10, 15), 12.5, RaceMode.WALK)
    person = a_person(days=days_of(0, 1, 2, 3, 4, 5, 6), begin=date(2026, 6, 26), walk_min=2, week_min=512,
                      longest_min=45, height_cm=None, race=race)  # fmt: skip
    plan, today, held = build_plan(person), date(2026, 10, 12), []
    for gap in (shorter, longer):
        history = History(as_planned(plan, person.begin, today - timedelta(days=gap)))
        ahead = training(replan(person, history, today, plan), today, today + WEEK)
        held.append(sum(each.seconds for each in ahead))
    assert held[1] <= held[0]
