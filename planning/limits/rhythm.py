"""Rhythm: easier weeks, the share of the long session, and room around it."""

import itertools
from collections.abc import Iterator
from datetime import date, timedelta

from planning.limits.rule import Case, Rule
from planning.terms.choices import Purpose, WeekKind
from planning.terms.plan import Week

Places = Iterator[tuple[date, float, float]]
BESIDE_LONG = 60 * 60
"""Longest session, in seconds, on the day before or after a long one (common practice, no source)."""
NEXT_TO_NOTHING = 15 * 60
"""Seconds in a whole week that ask for no easier week after them (common practice, no source)."""
FOUR_WEEKS = 28
HARD = frozenset({Purpose.LONG, Purpose.BRISK, Purpose.RACE})
LIGHT = frozenset({WeekKind.EASIER, WeekKind.TAPER, WeekKind.RACE, WeekKind.RECOVER})


def is_lost(total: int, planned: int) -> bool:
    """A week that held *total* seconds of the *planned* ones: next to nothing, or less than half."""
    return total < NEXT_TO_NOTHING or total * 2 < planned


def is_paused(total: int, before: int) -> bool:
    """A week with days off for illness or a holiday was as light as an easier one, or lighter."""
    return total * 100 <= before * 70


def share_of_long(week: Week, late: bool) -> tuple[int, int]:
    """Largest share of its week that a long session may have, as a fraction. *late*: one of the last 8 build weeks."""
    if sum(each.purpose is not Purpose.RACE for each in week.sessions) == 2:
        return 2, 3
    return (3, 5) if late else (1, 2)


def easier_not_easier(case: Case) -> Places:
    """A week of kind easier holds 70 to 85 % of the week before."""
    for week in case.weeks:
        if week.kind is not WeekKind.EASIER or week.monday < case.since:
            continue
        before = case.record.totals.get(week.number - 1, 0)
        total = case.record.totals.get(week.number, 0)
        least = before * 70 if case.in_full(week) else 0
        if not least <= total * 100 <= before * 85:
            yield week.monday, total, before


def no_easier_week(case: Case) -> Places:
    """At the latest every fourth week is easier; a week that was lost counts."""
    streak, since = 0, case.since.toordinal()
    for week in case.plan.weeks:
        if week.number < 1 or week.monday.toordinal() < since - FOUR_WEEKS:
            continue
        totals = case.record.totals
        over = week.monday + timedelta(days=7) <= case.since
        total = totals.get(week.number, 0)
        lost = is_lost(total, week.seconds if over else 0)
        lost = lost or (week.number in case.paused and is_paused(total, totals.get(week.number - 1, 0)))
        streak = 0 if week.kind in LIGHT or lost else streak + 1
        if streak > 3 and week.monday >= case.since:
            yield week.monday, streak, 3


def long_too_large(case: Case) -> Places:
    """A long session is at most half of its week, 60 % in the last 8 build weeks, two thirds of two sessions."""
    late = [week.number for week in case.plan.weeks if week.kind is WeekKind.BUILD][-8:]
    weeks = {each.number: each for each in case.weeks if case.in_full(each)}
    for each, outing in case.training:
        number = case.record.number(outing.on)
        if outing.long and number in weeks:
            part, whole = share_of_long(weeks[number], number in late)
            total = case.record.totals[number]
            if outing.seconds * whole > total * part:
                yield each.on, outing.seconds, total * part / whole


def hard_days_in_a_row(case: Case) -> Places:
    """Never two of long, brisk or race on days in a row."""
    hard = [each.on for each in case.sessions if each.purpose in HARD]
    for before, after in itertools.pairwise(hard):
        if after >= case.since and (after - before).days < 2:
            yield after, (after - before).days, 2


def crowded_long(case: Case) -> Places:
    """Nothing over 60 minutes on the day before or after a long session."""
    since = case.since.toordinal()
    for first, second in itertools.pairwise(case.record.outings):
        if second.on - first.on > 1 or second.on < since:
            continue
        for long, other in ((first, second), (second, first)):
            if long.long and other.seconds > BESIDE_LONG:
                yield date.fromordinal(other.on), other.seconds, BESIDE_LONG


COMMON = "common practice, no source"
RULES = (
    Rule("easier_week", "a lighter week every 3-4 weeks: " + COMMON, easier_not_easier),
    Rule("easier_in_time", "a lighter week every 3-4 weeks: " + COMMON, no_easier_week),
    Rule("long_share", COMMON, long_too_large),
    Rule("hard_apart", COMMON, hard_days_in_a_row),
    Rule("room_for_long", COMMON, crowded_long),
)
