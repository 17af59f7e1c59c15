"""A profile from JSON: read whole, or every wrong field named in one line."""

from datetime import date, time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.forms import profile_from_json, profile_to_json
from planning.errors import ProfileError
from planning.terms.choices import Role, Share, Weekday
from planning.terms.person import Profile
from tests.support.profiles import profiles

LEAST: dict[str, object] = {"who": "sam", "tz": "Europe/London", "days": {"mon": "07:00"}, "begin": "2026-03-02"}
JSON = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


def lines(value: object) -> tuple[str, ...]:
    with pytest.raises(ProfileError) as wrong:
        profile_from_json(value)
    return wrong.value.lines


def test_four_keys_are_enough() -> None:
    profile = profile_from_json(LEAST)
    assert (profile.who, profile.begin) == ("sam", date(2026, 3, 2))
    assert [(each.day, each.at) for each in profile.days] == [(Weekday.MON, time(7))]
    assert profile.shares == {Share.LOG, Share.BODY}


@settings(max_examples=60, deadline=None)
@given(profiles())
def test_a_profile_written_and_read_again_is_the_same(profile: Profile) -> None:
    if profile.race:
        profile_milestones = tuple(each for each in profile.milestones if each.on < profile.race.on)
    else:
        profile_milestones = profile.milestones
    written = profile_to_json(profile) | {"milestones": [{"date": str(e.on), "km": e.km} for e in profile_milestones]}
    again = profile_from_json(written)
    assert profile_to_json(again) == {key: value for key, value in written.items() if value != []}


@pytest.mark.parametrize(
    ("change", "line"),
    [
        ({"days": {"tue": "7 in the morning"}}, 'days.tue: "7 in the morning" is no time; write "07:00"'),
        ({"days": {"tue": "24:00"}}, 'days.tue: "24:00" is no time; write "07:00"'),
        ({"days": {}}, 'days: is empty; give one day at least, like {"mon": "07:00"}'),
        ({"tz": "Mars/Olympus"}, 'tz: "Mars/Olympus" is no time zone; write a name like "Europe/London"'),
        ({"begin": "2026-02-30"}, 'begin: "2026-02-30" is no day of the calendar; write a day like "2026-03-02"'),
        ({"age": 17}, "age: 17 is out of range; write 18 to 100"),
        ({"age": 101}, "age: 101 is out of range; write 18 to 100"),
        ({"walk_min": -1}, "walk_min: -1 is out of range; write 0 to 600"),
        ({"walk_min": True}, "walk_min: true is no number"),
        ({"walk_min": float("nan")}, "walk_min: nan does not fit; write a number"),
        ({"sex": "q"}, 'sex: "q" is none of "f", "m"'),
        ({"shares": ["feet"]}, 'shares[0]: "feet" is none of "log", "body", "weight", "mood", "care"'),
        ({"race": {"date": "2026-11-01"}}, "race.km: is missing"),
        (
            {"race": {"date": "2026-01-01", "km": 10}},
            "race.date: 2026-01-01 lies before begin 2026-03-02; write a later day",
        ),
        ({"country": "gb"}, 'country: "gb" is no country code; write two capital letters like "GB"'),
        ({"cleared": "yes"}, 'cleared: "yes" does not fit; write true or false'),
    ],
)  # fmt: skip
def test_a_wrong_field_gets_one_line(change: dict[str, object], line: str) -> None:
    assert lines(LEAST | change) == (line,)


def test_all_wrong_fields_are_named_at_once() -> None:
    found = lines({"who": "", "tz": 5, "days": [], "begin": None, "age": "old"})
    assert [each.partition(":")[0] for each in found] == ["who", "tz", "days", "begin", "age"]


def test_an_unknown_key_is_named_with_those_that_are_known() -> None:
    (line,) = lines(LEAST | {"wieght_kg": 90})
    assert line.startswith("wieght_kg: is no known key; known are who, tz,")


def test_who_jogs_thirty_minutes_also_walks_them() -> None:
    (line,) = lines(LEAST | {"jog_min": 30, "walk_min": 5})
    assert line.startswith("jog_min: jogs 30 but walks 5")
    assert profile_from_json(LEAST | {"jog_min": 30}).walk_min == 30


def test_a_coach_has_a_name_and_a_zone() -> None:
    coach = {"who": "kim", "role": "coach", "called": "Kim", "tz": "Europe/London"}
    assert profile_from_json(coach).role is Role.COACH
    assert profile_to_json(profile_from_json(coach)) == coach


@settings(max_examples=200, deadline=None)
@given(JSON)
def test_any_json_is_read_or_refused_in_lines(value: object) -> None:
    assert all(refused(value))


def refused(value: object) -> tuple[str, ...]:
    """The lines that refuse *value*, none if it is a profile."""
    try:
        profile_from_json(value)
    except ProfileError as wrong:
        return wrong.lines or ("",)
    return ()
