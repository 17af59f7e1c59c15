"""Minutes of walking and jogging; of two numbers the lower one counts, as the person is asked what is sure."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation.survey.amounts import WALK_KMH, amounts_said

FIRST = [
    ("20", 20),
    ("about 15 mins", 15),
    ("twenty five minutes", 25),
    ("half an hour", 30),
    ("an hour", 60),
    ("an hour and a half", 90),
    ("1.5 hours", 90),
    ("1 hour 20", 80),
    ("1h20", 80),
    ("quarter of an hour", 15),
    ("20-25", 20),
    ("between 20 and 30 minutes", 20),
    ("10 or 15", 10),
    ("under 10", 5),
    ("less than 20 minutes", 10),
    ("30+", 30),
    ("a couple of minutes", 2),
    ("a minute", 1),
    ("90 sec", 1.5),
    ("10m", 10),
    ("no more than 10 minutes", 10),
    ("none really, maybe 10", 10),
    ("none", 0),
    ("nothing yet", 0),
    ("not at all", 0),
    ("I can't", 0),
    ("0", 0),
    ("2 miles", 35),
    ("3k", 33),
    ("500m", 5),
]


@pytest.mark.parametrize(("text", "minutes"), FIRST)
def test_minutes_are_read(text: str, minutes: float) -> None:
    said = amounts_said(text, WALK_KMH)
    assert said is not None
    assert said.minutes[0] == minutes


@pytest.mark.parametrize(
    "text", ["", "hours", "all day", "5000 steps", "to the corner", "1:30", "🙂", "as long as I like"]
)
def test_what_has_no_minutes_is_asked_again(text: str) -> None:
    assert amounts_said(text, WALK_KMH) is None


@pytest.mark.parametrize(
    ("text", "times"),
    [
        ("20 min three times a week", 3),
        ("3 x 20", 3),
        ("20 minutes twice a week", 2),
        ("20 minutes a day", 7),
        ("60", 1),
        ("4 days a week 30", 4),
    ],
)
def test_how_often_is_heard(text: str, times: int) -> None:
    said = amounts_said(text, WALK_KMH)
    assert said is not None
    assert said.times_a_week == times


@pytest.mark.parametrize(("text", "first"), [("60, longest 25", False), ("longest 25 and 60 in all", True)])
def test_the_longest_outing_is_told_from_the_week(text: str, first: bool) -> None:
    said = amounts_said(text, WALK_KMH)
    assert said is not None
    assert (len(said.minutes), said.longest_first) == (2, first)


@given(st.text(max_size=200))
def test_any_text_gives_minutes_of_zero_or_more(text: str) -> None:
    said = amounts_said(text, WALK_KMH)
    assert said is None or all(minutes >= 0 for minutes in said.minutes)
