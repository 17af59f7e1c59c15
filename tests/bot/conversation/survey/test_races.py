"""Races as people name them, on Monday 2 March 2026. Distances: half marathon 21.0975 km, mile 1.609344 km (World
Athletics; international yard and pound agreement of 1959).
"""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation.survey.dates import dates_said, day_in_month, first_sunday, show_date
from bot.conversation.survey.races import races_said
from planning.terms.choices import RaceMode

TODAY = date(2026, 3, 2)
HALF = 21.0975

DATED = [
    ("half marathon on 1 nov 2026", HALF, date(2026, 11, 1)),
    ("half on nov 1", HALF, date(2026, 11, 1)),
    ("Half Marathon, November 1st, 2026", HALF, date(2026, 11, 1)),
    ("half marathon on the 4th of october", HALF, date(2026, 10, 4)),
    ("21k 4/10", HALF, date(2026, 10, 4)),
    ("21.1 km on 2026-10-04", HALF, date(2026, 10, 4)),
    ("13.1 miles on sunday 4 october", HALF, date(2026, 10, 4)),
    ("10k on 3 may", 10, date(2026, 5, 3)),
    ("ten k, third of may", 10, None),
    ("10 miles 14 sept", 16.093, date(2026, 9, 14)),
    ("5k march 14", 5, date(2026, 3, 14)),
    ("half 18 oct 26", HALF, date(2026, 10, 18)),
    ("half 18.10.2026", HALF, date(2026, 10, 18)),
    ("half 25/12/26", HALF, date(2026, 12, 25)),
    ("half on 1 feb", HALF, date(2027, 2, 1)),
    ("half 29 feb", HALF, date(2028, 2, 29)),
    ("half in 30 weeks", HALF, date(2026, 9, 28)),
    ("half tomorrow", HALF, date(2026, 3, 3)),
    ("1 nov", None, date(2026, 11, 1)),
    ("half, 1 November next year", HALF, date(2027, 11, 1)),
]

MONTHS = [
    ("half in october", date(2026, 10, 1)),
    ("half marathon oct 2027", date(2027, 10, 1)),
    ("a half in may", date(2026, 5, 1)),
    ("half next march", date(2027, 3, 1)),
    ("half in 6 months", date(2026, 9, 1)),
    ("half marathon in january", date(2027, 1, 1)),
]


@pytest.mark.parametrize(("text", "km", "on"), DATED)
def test_distance_and_date_are_read(text: str, km: float | None, on: date | None) -> None:
    (race,) = races_said(text, TODAY, month_first=False).races
    assert (race.km, race.on) == (km, on)


@pytest.mark.parametrize(("text", "month"), MONTHS)
def test_a_month_alone_leaves_the_day_open(text: str, month: date) -> None:
    (race,) = races_said(text, TODAY, month_first=False).races
    assert (race.km, race.on, race.month) == (HALF, None, month)


@pytest.mark.parametrize(
    "text", ["10k on 3 may, half on 1 nov", "half on nov 1 with a 10k on may 3", "10k may 3 then the half 1 nov"]
)
def test_two_races_keep_their_own_dates(text: str) -> None:
    races = {race.km: race.on for race in races_said(text, TODAY, month_first=False).races}
    assert races == {10: date(2026, 5, 3), HALF: date(2026, 11, 1)}


@pytest.mark.parametrize(
    "text", ["no race yet", "none", "not yet", "no", "nope", "don't know", "nothing booked", "maybe later"]
)
def test_no_race_yet_is_an_answer(text: str) -> None:
    assert races_said(text, TODAY, month_first=False).none


@pytest.mark.parametrize("text", ["yes", "hello", "I may do one", "", "march on!"])
def test_text_without_a_race_is_not_read_as_one(text: str) -> None:
    said = races_said(text, TODAY, month_first=False)
    assert (said.races, said.none) == ((), False)


def test_first_marks_a_race_on_the_way() -> None:
    (race,) = races_said("10k first on 3 may", TODAY, month_first=False).races
    assert race.first


def test_a_day_that_no_calendar_has_is_marked() -> None:
    (race,) = races_said("half on 31 feb", TODAY, month_first=False).races
    assert race.wrong


def test_walking_and_the_time_limit_are_heard() -> None:
    said = races_said("half 1 nov, walking it, cut-off 3:30", TODAY, month_first=False)
    assert (said.mode, said.cutoff_min, len(said.races)) == (RaceMode.WALK, 210, 1)


@pytest.mark.parametrize(
    ("text", "minutes"), [("cutoff 4 hours", 240), ("time limit 200 min", 200), ("limit of 3.5 h", 210)]
)
def test_time_limits_are_read_in_minutes(text: str, minutes: int) -> None:
    assert races_said(f"half 1 nov {text}", TODAY, month_first=False).cutoff_min == minutes


@pytest.mark.parametrize(("month_first", "on"), [(False, date(2026, 3, 5)), (True, date(2026, 5, 3))])
def test_a_date_that_can_be_read_both_ways_goes_by_the_country(month_first: bool, on: date) -> None:
    assert dates_said("5/3", TODAY, month_first)[0].on == on


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("the 18th", 18),
        ("18", 18),
        ("sunday 18", 18),
        ("second sunday", 11),
        ("last sunday", 25),
        ("first saturday", 3),
        ("32", None),
    ],
)
def test_a_day_of_october_2026_is_found(text: str, day: int | None) -> None:
    found = day_in_month(text, date(2026, 10, 1))
    assert (found and found.day) == day


def test_the_first_sunday_lies_after_the_day_that_is_given() -> None:
    assert first_sunday(date(2026, 10, 1), date(2026, 3, 2)) == date(2026, 10, 4)
    assert first_sunday(date(2026, 10, 1), date(2026, 10, 4)) == date(2026, 10, 11)
    assert first_sunday(date(2026, 10, 1), date(2026, 10, 25)) is None


@given(st.dates(date(2026, 3, 2), date(2029, 3, 1)), st.booleans())
def test_a_date_that_was_shown_is_read_back(on: date, month_first: bool) -> None:
    assert dates_said(show_date(on).lower(), TODAY, month_first)[0].on == on


@given(st.text(max_size=200), st.booleans())
def test_any_text_is_read_without_failing(text: str, month_first: bool) -> None:
    assert len(races_said(text, TODAY, month_first).races) <= 12
