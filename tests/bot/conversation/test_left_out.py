"""Rules that can be left out for a trial: without one its message never comes, and by themselves all of them hold."""

from dataclasses import replace

import pytest

from bot.conversation.changes import SetMarks
from bot.conversation.known import Marks, Rule
from bot.store.changes import keep, person_row
from tests.support.scenes import Facts, Line, happens
from tests.support.wire import OnTheWire

SILENT: list[Line] = [(2, "07:01", None), (2, "23:00", None)]
MISSED: list[Line] = [(2, "08:00", "didn't go"), (4, "20:00", "missed it again")]
UNSURE: list[Line] = [(2, "07:10", "5/10 sure")]


def spoken(wire: OnTheWire, lines: list[Line], *left_out: Rule) -> list[str]:
    """The kinds of messages that Ada gets, with these rules left out."""
    with wire.store.begin() as tx:
        marks = person_row(tx, "ada").marks
        keep(tx, "ada", SetMarks(replace(marks, left_out=left_out)))
    told: list[Facts] = happens(wire, *lines)
    return [kind for each in told for kind in (each["kind"], *each.get("also", ()))]


@pytest.mark.parametrize(
    ("rule", "lines", "kind"),
    [(Rule.NUDGE, SILENT, "nudge"), (Rule.SMALLER, MISSED, "shrunk"), (Rule.SURE, UNSURE, "shrunk")],
)
@pytest.mark.parametrize("holds", [True, False])
def test_a_rule_acts_unless_it_is_left_out(
    wire: OnTheWire, rule: Rule, lines: list[Line], kind: str, holds: bool
) -> None:
    others = tuple(each for each in Rule if each is not rule)
    assert (kind in spoken(wire, lines, *(others if holds else (rule,)))) is holds


def test_all_rules_hold_for_everybody() -> None:
    assert Marks().left_out == ()
