"""The ladder, race day, strength: parts that a plan is made of."""

from datetime import date, timedelta
from itertools import pairwise

import pytest

from planning import build_plan
from planning.limits.record import Outing
from planning.plan.ladder import fill, ladder
from planning.plan.race_day import race_rhythm, splits
from planning.terms.choices import Do
from planning.terms.person import Race
from planning.terms.plan import RaceDay, total_seconds
from tests.support.profiles import HALF_KM, MONDAY, a_person


def test_every_rung_is_longer_than_the_one_below_by_little() -> None:
    runs = [each.run for each in ladder()]
    assert all(before < after <= before + max(before // 10, 15) for before, after in pairwise(runs))
    assert [each.walk for each in ladder()] == sorted((each.walk for each in ladder()), reverse=True)


@pytest.mark.parametrize(
    ("seconds", "run", "rep"), [(1800, 360, 60), (3600, 1200, 120), (1200, 180, 30), (1800, 1200, 1200)]
)
def test_runs_stand_between_walks_and_add_up(seconds: int, run: int, rep: int) -> None:
    segments = fill(seconds, run, rep, 0)
    assert total_seconds(segments) == seconds
    assert total_seconds(segments, Do.RUN) == run
    assert [each.do for each in segments[::2]] == [Do.WALK] * len(segments[::2])
    assert all(each.seconds > 0 for each in segments)


def race_day(km: float, **who: object) -> RaceDay:
    plan = build_plan(a_person(race=Race(MONDAY + timedelta(days=400), km), **who))
    assert plan.race_day is not None
    return plan.race_day


@pytest.mark.parametrize(("km", "grams"), [(5, None), (HALF_KM, (30, 60))])
def test_food_follows_the_published_ranges(km: float, grams: tuple[int, int] | None) -> None:
    """Jeukendrup 2014, Sports Med 44 Suppl 1:S25: none under an hour, else 30-60 g/h whatever the body weight."""
    assert race_day(km, weight_kg=65).carbohydrate_g_per_hour == grams


def test_splits_stand_every_five_kilometres_and_at_the_finish() -> None:
    """Even pace: 10:00 a km over a half marathon is 3:30:58, 211 minutes (distance 21.0975 km)."""
    marks = splits(HALF_KM, 211)
    assert [(each.km, each.minutes) for each in marks] == [(5, 50), (10, 100), (15, 150), (20, 200), (HALF_KM, 211)]


def test_race_day_gives_a_band_and_what_to_mind() -> None:
    day = race_day(HALF_KM)
    low, high = day.band_min
    assert low < day.expected_min < high
    assert {"drink_to_thirst", "if_wrong_at_15", "stop_signs"} <= set(day.cautions)


def test_the_race_is_written_out_in_runs_and_walks() -> None:
    plan = build_plan(a_person(race=Race(MONDAY + timedelta(days=400), HALF_KM)))
    race = next(each for each in plan.sessions if each.purpose == "race")
    assert plan.race_day is not None
    assert race.minutes == plan.race_day.expected_min
    assert {each.do for each in race.segments} == {Do.RUN, Do.WALK}


def test_strength_grows_from_two_moves_and_balance_comes_with_age() -> None:
    strong = [each for week in build_plan(a_person(age=70)).weeks for each in week.strength]
    assert (len(strong[0].moves), strong[0].minutes) == (2, 6)
    assert max(len(each.moves) for each in strong) > 3
    assert all("stand_on_one_leg" in each.moves for each in strong)


def test_the_same_person_always_gets_the_same_plan() -> None:
    assert build_plan(a_person()) == build_plan(a_person())
    assert build_plan(a_person()).begin == date(2026, 3, 2)


@pytest.mark.parametrize(
    ("seconds", "run", "rep", "rhythm"),
    [
        (10_740, 1_950, 390, (60, 270)),
        (10_740, 1_275, 255, (60, 435)),
        (10_740, 450, 450, (60, 1_365)),
        (3_000, 120, 30, (30, 720)),
        (3_240, 2_160, 1_080, (600, 300)),
        (10_740, 0, 0, (0, 0)),
    ],
)
def test_the_rhythm_of_a_race_has_the_share_of_running_that_was_rehearsed(
    seconds: int, run: int, rep: int, rhythm: tuple[int, int]
) -> None:
    """Runs of a minute or more where they were rehearsed (common practice, no source)."""
    found = race_rhythm(Outing(1, seconds, run, rep, long=True))
    assert found == rhythm
    assert not run or abs(found[0] / sum(found) - run / seconds) < 0.01
