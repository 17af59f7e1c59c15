"""Who may work harder for lost minutes: those with weeks of logged sessions behind them, and nothing against it."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from planning.step import allowance
from planning.terms.choices import Activity, Colour, Part, Purpose
from planning.terms.entry import Break, Entry, Flag, History, Status
from planning.terms.person import Profile, Screen
from planning.terms.steps import Allowance
from tests.planning.sessions import WEDNESDAY, a_person, a_session

MONDAY = WEDNESDAY - timedelta(days=WEDNESDAY.weekday())


def weeks_of(count: int, a_week: int = 3, kind: Activity = Activity.SESSION) -> History:
    """So many full weeks before this one with so many sessions in each."""
    days = [MONDAY - timedelta(days=7 * week - 2 * number) for week in range(count, 0, -1) for number in range(a_week)]
    return History(tuple(Entry(day, kind=kind, minutes=20) for day in days))


def decide(profile: Profile, history: History, **more: bool) -> Allowance:
    return allowance(profile, history, a_session(), (), WEDNESDAY, **more)


@pytest.mark.parametrize(
    ("weeks", "expected"),
    [(0, Allowance.NONE), (5, Allowance.NONE), (6, Allowance.BY_TWO), (11, Allowance.BY_TWO), (12, Allowance.PARITY)],
)
def test_six_steady_weeks_open_two_points_and_twelve_load_parity(weeks: int, expected: Allowance) -> None:
    assert decide(a_person(), weeks_of(weeks)) is expected


@pytest.mark.parametrize(
    ("bmi", "age", "expected"),
    [
        (34.9, 59, Allowance.PARITY),
        (35.0, 59, Allowance.PARITY_TO_SIX),
        (28.0, 60, Allowance.PARITY_TO_SIX),
        (None, 40, Allowance.PARITY_TO_SIX),
        (28.0, None, Allowance.PARITY_TO_SIX),
    ],
)
def test_weight_and_age_lower_the_cap_and_unknown_counts_as_careful(
    bmi: float | None, age: int | None, expected: Allowance
) -> None:
    assert decide(a_person(bmi=bmi, age=age), weeks_of(12)) is expected


def test_two_sessions_a_week_are_not_enough() -> None:
    assert decide(a_person(), weeks_of(12, a_week=2)) is Allowance.NONE


def test_stretching_alone_makes_no_steady_week() -> None:
    assert decide(a_person(), weeks_of(12, kind=Activity.STRETCH)) is Allowance.NONE


def test_a_week_without_sessions_starts_the_count_again() -> None:
    history = weeks_of(12)
    broken = tuple(
        each for each in history.entries if not MONDAY - timedelta(days=14) <= each.on < MONDAY - timedelta(7)
    )
    assert decide(a_person(), History(broken)) is Allowance.NONE


def test_silent_days_are_no_sessions() -> None:
    silent = tuple(replace(each, status=Status.NO_WORD) for each in weeks_of(12).entries)
    assert decide(a_person(), History(silent)) is Allowance.NONE


@pytest.mark.parametrize(
    "history",
    [
        replace(weeks_of(12), flags=(Flag(Part.KNEE, None, Colour.AMBER, MONDAY),)),
        replace(weeks_of(12), breaks=(Break(MONDAY, None, ill=True),)),
        replace(weeks_of(12), breaks=(Break(WEDNESDAY - timedelta(20), WEDNESDAY - timedelta(14), ill=True),)),
    ],
    ids=["open flag", "ill", "ill 14 days ago"],
)
def test_nothing_rises_on_a_flag_or_after_illness(history: History) -> None:
    assert decide(a_person(), history) is Allowance.NONE


def test_a_cleared_flag_and_an_old_illness_bar_nothing() -> None:
    old = WEDNESDAY - timedelta(days=15)
    history = replace(
        weeks_of(12),
        flags=(Flag(Part.KNEE, None, Colour.AMBER, old, cleared_on=old),),
        breaks=(Break(old, old, ill=True),),
    )
    assert decide(a_person(), history) is Allowance.PARITY


@pytest.mark.parametrize("screen", [Screen(disease=True), Screen(signs=True), Screen(pregnant=True)])
def test_nothing_rises_with_known_disease_signs_or_a_pregnancy(screen: Screen) -> None:
    assert decide(a_person(screen=screen), weeks_of(12)) is Allowance.NONE


def test_nothing_rises_in_heat() -> None:
    assert decide(a_person(), weeks_of(12), hot=True) is Allowance.NONE


@pytest.mark.parametrize(("days", "expected"), [(-1, Allowance.NONE), (1, Allowance.NONE), (2, Allowance.PARITY)])
def test_nothing_rises_within_a_day_of_a_long_session(days: int, expected: Allowance) -> None:
    long = a_session("w60", on=date(2026, 3, 4) + timedelta(days=days), purpose=Purpose.LONG)
    assert allowance(a_person(), weeks_of(12), a_session(), (long,), WEDNESDAY) is expected
