"""The days after an illness: how long nothing is asked for, and how long what is asked for stays gentle and small."""

from collections.abc import Mapping
from enum import StrEnum
from typing import Any

from planning.facts import load


class Illness(StrEnum):
    """What kept somebody from going out, as far as the way back differs by it."""

    COMMON = "illness"
    FEVER = "fever"
    COVID = "covid"


def _rule(illness: Illness) -> Mapping[str, Any]:
    row: Mapping[str, Any] = load("come_back")[illness.value]
    return row


def wait_days(illness: Illness) -> int:
    """Whole days without a session after it is over."""
    return int(_rule(illness)["wait_days"])


def gentle_days(illness: Illness, days: float) -> int:
    """Days after the wait in which sessions stay small, when it lasted so many *days*."""
    row = _rule(illness)
    return int(min(row["most_gentle_days"], max(row["least_gentle_days"], days)))


def gentle_effort(illness: Illness) -> int:
    """Highest wished effort (CR-10) in those days."""
    return int(_rule(illness)["gentle_effort"])


def gentle_seconds(illness: Illness) -> int:
    """Longest session of those days."""
    return int(_rule(illness)["gentle_min"]) * 60


def percent_back() -> int:
    """Percent of a usual session before it that one of those days holds at most."""
    return int(load("come_back")["percent_back"])
