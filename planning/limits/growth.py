"""Growth from week 2 on: weeks and sessions grow by little above what was really done."""

from collections.abc import Iterator
from datetime import date

from planning.limits.ceilings import grow_session, grow_week
from planning.limits.record import SECONDS
from planning.limits.rule import Case, Rule


def week_grows_too_fast(case: Case) -> Iterator[tuple[date, float, float]]:
    """Week minutes stay within 10 % or 10 minutes above the highest of the four weeks before; after misses or a gap
    20 minutes on each day may be asked for again."""
    for week in case.weeks:
        if week.number < 2:
            continue
        first = case.first_day(week)
        grown = grow_week(case.record.highest_week(week.number, first))
        total = case.record.totals.get(week.number, 0)
        if total > grown and total > (allowed := max(grown, case.record.week_again(first))) and case.ahead(week)[0]:
            yield week.monday, total, allowed


def session_grows_too_fast(case: Case) -> Iterator[tuple[date, float, float]]:
    """A session stays within 10 % or 5 minutes above the longest of the 30 days before; after misses or a gap 20
    minutes may be asked for again."""
    for session, outing in case.training:
        on, seconds = outing.on, outing.seconds
        if case.record.number(on) < 2 or case.record.is_small_step(on, seconds, SECONDS, grow_session):
            continue
        grown = grow_session(case.record.longest(outing.on))
        if outing.seconds > grown:
            allowed = max(grown, case.record.session_again(outing.on))
            if outing.seconds > allowed:
                yield session.on, outing.seconds, allowed


RULES = (
    Rule("week_growth", "common practice, no source", week_grows_too_fast),
    Rule("session_growth", "Frandsen et al. 2025, Br J Sports Med 59:1203", session_grows_too_fast),
)
