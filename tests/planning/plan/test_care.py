"""What goes with a session: rehearsals near the race, skin and feet on long days, stretches by part of the body."""

from datetime import timedelta

import pytest

from bot.forms import plan_to_json
from bot.forms.texts import care_text, caution_text
from planning import build_plan
from planning.plan.care import Care, beside, race_of
from planning.terms.choices import Purpose
from planning.terms.person import Race
from planning.terms.plan import Plan
from tests.support.profiles import HALF_KM, MONDAY, a_person


def to_the_half() -> Plan:
    return build_plan(a_person(race=Race(MONDAY + timedelta(days=300), HALF_KM)))


def test_long_sessions_of_the_last_eight_weeks_rehearse_kit_and_food() -> None:
    plan = to_the_half()
    race = race_of(plan)
    assert race == MONDAY + timedelta(days=300)
    rehearsed = [each for each in plan.sessions if Care.REHEARSE_KIT in beside(each, race).care]
    assert len(rehearsed) >= 4
    assert all(each.purpose is Purpose.LONG and 0 < (race - each.on).days <= 56 for each in rehearsed)
    assert all((Care.REHEARSE_FOOD in beside(each, race).care) is (each.minutes >= 60) for each in rehearsed)


def test_without_a_race_nothing_is_rehearsed() -> None:
    plan = build_plan(a_person())
    assert race_of(plan) is None
    assert not any(Care.REHEARSE_KIT in beside(each, None).care for each in plan.sessions)


def test_skin_and_feet_are_minded_from_an_hour_on() -> None:
    plan = to_the_half()
    for each in plan.sessions:
        care = beside(each, race_of(plan)).care
        assert (Care.FEET in care) is (Care.SKIN in care) is (each.minutes >= 60)


def test_the_json_names_notes_and_stretches_beside_the_five_minutes() -> None:
    sessions = [each for week in plan_to_json(to_the_half())["weeks"] for each in week["sessions"]]  # type: ignore[attr-defined]
    assert all(each["after"] == [{"do": "stretch", "minutes": 5}] for each in sessions)
    assert all(len(set(each["stretches"])) == 4 for each in sessions)
    assert {note for each in sessions for note in each["notes"]} == {each.value for each in Care}


@pytest.mark.parametrize("name", list(Care))
def test_each_note_has_its_sentence(name: Care) -> None:
    assert care_text(name).endswith(".")


def test_race_day_says_what_to_do_when_it_goes_wrong_and_what_comes_next() -> None:
    day = to_the_half().race_day
    assert day is not None
    assert day.cautions[-2:] == ("if_wrong_at_15", "what_next")
    assert all(caution_text(each).endswith(".") for each in day.cautions)
