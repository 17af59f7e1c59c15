"""Energy of walking and running against the published equations."""

from datetime import date

import pytest

from planning.progress.energy import (
    Intensity,
    Piece,
    energy,
    energy_done,
    energy_logged,
    energy_of_mets,
    energy_planned,
    intensity,
    kcal,
    mets,
    oxygen,
    shown,
)
from planning.terms.choices import Activity, Do
from planning.terms.entry import Entry
from tests.planning.sessions import a_session, segments
from tests.published import table

TABLE = table("energy")
TODAY = date(2026, 3, 4)


@pytest.mark.parametrize(("gait", "kmh", "grade", "vo2", "met"), TABLE["oxygen"])
def test_oxygen_by_the_equations_of_the_american_college(
    gait: str, kmh: float, grade: float, vo2: float, met: float
) -> None:
    ours = oxygen(Do(gait), kmh, grade)
    assert ours == pytest.approx(vo2, abs=0.01)
    assert not met or mets(ours) == pytest.approx(met, abs=0.01)


def test_at_one_speed_walking_and_running_differ() -> None:
    """The two equations jump at the change of gait (ACSM, 10th ed.)."""
    assert oxygen(Do.RUN, 6.4) - oxygen(Do.WALK, 6.4) == pytest.approx(10.67, abs=0.01)


@pytest.mark.parametrize(("met", "kg", "minutes", "long", "short"), TABLE["kcal"])
def test_energy_of_mets_is_a_twentieth_above_the_shortcut(
    met: float, kg: float, minutes: float, long: float, short: float
) -> None:
    """Lecture "ACSM Metabolic Equations": 5 kcal a litre; the shortcut is METs x kg x hours."""
    ours = energy_of_mets(met, kg, minutes).gross
    assert ours == pytest.approx(long, abs=0.1)
    assert ours / 1.05 == pytest.approx(short, abs=0.1)


@pytest.mark.parametrize(("gait", "kmh", "kg", "minutes", "gross", "net"), TABLE["net"])
def test_gross_and_net_energy(gait: str, kmh: float, kg: float, minutes: float, gross: float, net: float) -> None:
    """Net cost by these equations: walking 0.5, running 1.0 kcal per kg and km at every speed."""
    both = energy([Piece(Do(gait), minutes, kmh)], kg)
    assert (both.gross, both.net) == (pytest.approx(gross, abs=0.1), pytest.approx(net, abs=0.1))


def test_a_mixed_session_is_the_sum_of_its_parts_never_of_its_mean_speed() -> None:
    """8 x (1 min at 8 km/h, 2 min at 5 km/h), 90 kg: 193.8 kcal (worked with the ACSM equations)."""
    mixed = energy_planned(segments("r1 w2 " * 8), 90, walk_kmh=5, jog_kmh=8)
    assert mixed.gross == pytest.approx(193.8, abs=0.1)
    assert kcal(oxygen(Do.WALK, 6), 90, 24) == pytest.approx(145.8, abs=0.1)
    assert kcal(oxygen(Do.RUN, 6), 90, 24) == pytest.approx(253.8, abs=0.1)


def test_standing_costs_what_resting_costs() -> None:
    assert energy_planned(segments("s10"), 80, 5, 7).net == 0


@pytest.mark.parametrize(
    ("met", "band"),
    [
        (2.9, Intensity.LIGHT),
        (3.0, Intensity.MODERATE),
        (5.9, Intensity.MODERATE),
        (6.0, Intensity.VIGOROUS),
    ],
)
def test_bands_of_intensity(met: float, band: Intensity) -> None:
    """PMC8321902, table 1: light below 3, vigorous from 6 METs."""
    assert intensity(met) is band


@pytest.mark.parametrize(
    ("entry", "gross"),
    [
        (Entry(TODAY, kind=Activity.WALK, minutes=60, km=5), 355.0),
        (Entry(TODAY, kind=Activity.RUN, minutes=30, km=4), 452.5),
        (Entry(TODAY, kind=Activity.RUN_WALK, minutes=25), 262.5),
        (Entry(TODAY, kind=Activity.RUN_WALK, minutes=25, km=2.5), 262.5),
        (Entry(TODAY, kind=Activity.RUN, minutes=25), 306.25),
        (Entry(TODAY, kind=Activity.WALK, minutes=25), 153.125),
        (Entry(TODAY, kind=Activity.CROSS, minutes=25), None),
        (Entry(TODAY, kind=Activity.WALK, km=5), None),
        (Entry(TODAY, minutes=30), None),
    ],
)
def test_energy_of_what_was_logged_for_100_kg(entry: Entry, gross: float | None) -> None:
    """ACSM equations where gait and speed are known, else Compendium 2011 (Ainsworth et al. 2011): jog/walk mix 6.0,
    jogging 7.0, walking 3.5.
    """
    found = energy_logged(entry, 100)
    assert (found and found.gross) == (gross and pytest.approx(gross, abs=0.1))


@pytest.mark.parametrize(("kcal_", "told"), [(262.5, 250), (275, 300), (99, 100), (43, 40), (0, 0)])
def test_people_are_told_round_numbers(kcal_: float, told: int) -> None:
    """Byrne et al. 2005, J Appl Physiol 99:1112 (from memory): the unit itself is off by a quarter."""
    assert shown(kcal_) == told


@pytest.mark.parametrize(
    ("said", "share"),
    [({}, 1.0), ({"share": 0.5}, 0.5), ({"minutes": 12.0}, 0.5), ({"minutes": 36.0}, 1.5)],
    ids=["all of it", "half of it", "twelve minutes of 24", "more than planned"],
)
def test_a_part_of_the_plan_takes_its_part_of_the_energy(said: dict[str, float], share: float) -> None:
    """The mixed session of the published check: 8 x (1 min at 8 km/h, 2 min at 5 km/h), 90 kg, 193.8 kcal."""
    planned = a_session("r1 w2 " * 8, on=TODAY)
    entry = Entry(TODAY, kind=Activity.SESSION, planned_on=TODAY, **said)
    found = energy_done(entry, planned, 90, 5.0, 8.0)
    assert found is not None
    assert found.gross == pytest.approx(193.8 * share, abs=0.1)


def test_what_was_logged_by_kind_goes_by_the_log() -> None:
    entry = Entry(TODAY, kind=Activity.WALK, minutes=30)
    assert energy_done(entry, None, 90, 5.0, 8.0) == energy_logged(entry, 90)


def test_of_a_session_that_nobody_planned_the_energy_is_not_known() -> None:
    assert energy_done(Entry(TODAY, kind=Activity.SESSION), None, 90, 5.0, 8.0) is None
