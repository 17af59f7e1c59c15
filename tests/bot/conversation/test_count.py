"""A live count: what is called when, and what is left of it after the bot was down."""

from datetime import UTC, date, datetime, timedelta

import pytest

from bot.conversation.changes import SetMarks
from bot.conversation.known import Count, Known, Marks
from bot.conversation.topics.count import MOST_PARTS, TOO_LATE, counted
from planning.terms.choices import Do
from planning.terms.plan import Segment

BEGAN = datetime(2026, 3, 2, 7, 14, tzinfo=UTC)
PARTS = (Segment(Do.REST, 60), *(Segment(Do.WALK, 60),) * 3)
RUNNING = Known("ada", marks=Marks(count=Count(date(2026, 3, 2), BEGAN, PARTS, 0, "u-1")))


@pytest.mark.parametrize(("minutes", "left"), [(1, 3), (2, 2), (3, 1), (4, 0), (2.5, 2), (13.9, 0)])
def test_what_is_left_is_what_the_clock_says_and_no_call_comes_twice(minutes: float, left: float) -> None:
    (said,) = counted(RUNNING, BEGAN + timedelta(minutes=minutes)).says
    assert said.facts.left_min == left
    assert said.key == f"count:u-1:{4 - left}"


def test_a_count_that_the_bot_was_down_for_is_let_go() -> None:
    outcome = counted(RUNNING, BEGAN + timedelta(minutes=4) + TOO_LATE + timedelta(seconds=1))
    assert outcome.says == ()
    assert outcome.changes == (SetMarks(Marks()),)


def test_ten_minutes_are_counted_one_by_one() -> None:
    assert MOST_PARTS == 1 + 10
