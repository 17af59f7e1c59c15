"""Runners of a coach as the reader sees them. All of them are invented."""

from dataclasses import replace
from datetime import UTC, datetime

from bot.conversation.known import Known
from bot.forms import profile_from_json
from tests.support.people import ada

TUESDAY = datetime(2026, 3, 3, 9, tzinfo=UTC)
"""Tuesday 3 March 2026, nine in the morning where they live."""


def runner(who: str, called: str = "") -> Known:
    return Known(who, profile=replace(profile_from_json(ada()), who=who, called=called, coach="kim"))


TEAM = (runner("ada", "Ada"), runner("r-7", "Sam"), runner("bob", "Mary Ann"))
TWO_SAMS = (runner("s1", "Sam"), runner("s2", "Sam"))
