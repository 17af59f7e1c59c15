"""Growth from week 2 on: weeks and sessions grow by little above what was really done."""

from collections.abc import Iterator
from datetime import date

from planning.limits.ceilings import FIRST_SESSION, FIRST_WEEK, first_session, first_week, grow_session, grow_week
from planning.limits.rule import Case, Rule


def week_grows_too_fast(case: Case) -> Iterator[tuple[date, float, float]]:
    """Week minutes stay within 10 % or 10 minutes above the highest of the four weeks before; after misses or a gap
    what was surely doable at first may be asked for again."""
    for week in case.weeks:
        first = case.first_day(week)
        base = case.record.highest_week(week.number, first)
        again = first_week(case.profile) if case.record.has_past else 0
        allowed = max(grow_week(base), FIRST_WEEK if case.record.is_new_start(first) else again)
        total = case.record.totals.get(week.number, 0)
        if week.number >= 2 and total > allowed and case.ahead(week)[0]:
            yield week.monday, total, allowed


def session_grows_too_fast(case: Case) -> Iterator[tuple[date, float, float]]:
    """A session stays within 10 % or 5 minutes above the longest of the 30 days before; after misses or a gap what was
    surely doable at first may be asked for again."""
    for session, outing in case.training:
        if case.record.number(outing.on) < 2:
            continue
        grown = grow_session(case.record.longest(outing.on))
        if outing.seconds > grown:
            again = first_session(case.profile) if case.record.has_past else 0
            allowed = max(grown, FIRST_SESSION if case.record.is_new_start(outing.on) else again)
            if outing.seconds > allowed:
                yield session.on, outing.seconds, allowed


RULES = (
    Rule("week_growth", "common practice, no source", week_grows_too_fast),
    Rule("session_growth", "Frandsen et al. 2025, Br J Sports Med 59:1203", session_grows_too_fast),
)
