"""A week in numbers, before its sessions are written out; and what the weeks before say of the next one."""

from dataclasses import dataclass

from planning.limits.record import Outing, Record
from planning.limits.rhythm import LIGHT, is_easier
from planning.terms.choices import WeekKind

WINDOW = 23
"""Days before a Monday that lie within the 30 days before each day of its week."""


@dataclass(frozen=True, slots=True)
class WeekAim:
    """One week in numbers."""

    number: int
    kind: WeekKind
    outings: tuple[Outing, ...]


def full_weeks_in_a_row(kinds: dict[int, WeekKind], record: Record, number: int) -> int:
    """How many weeks just before *number* were neither easier nor lost, counted up to three."""
    streak = 0
    for each in range(number - 1, max(0, number - 4), -1):
        lost = each > 1 and is_easier(record.totals.get(each, 0), record.totals.get(each - 1, 0))
        if kinds.get(each) in LIGHT or lost:
            break
        streak += 1
    return streak


def lately(record: Record, monday: int) -> list[Outing]:
    """Outings that count for every day of the week from *monday* on."""
    return record.back(monday, WINDOW)


def mark_long(number: int, lengths: dict[int, int]) -> int | None:
    """Weekday of the long session: the one that is longer than all others, from week 2 on."""
    if number < 2 or len(lengths) < 2:
        return None
    day = max(lengths, key=lambda each: lengths[each])
    return day if sorted(lengths.values())[-2] < lengths[day] else None
