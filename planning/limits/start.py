"""Week 0 and week 1 are surely doable; some things hold on every day."""

from collections.abc import Iterator
from datetime import date

from planning.limits.care import can_walk_twenty
from planning.limits.ceilings import first_session, first_week, seconds_of
from planning.limits.rule import Case, Rule
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Session, Week

Places = Iterator[tuple[date, float, float]]
STRETCH = 5 * 60
"""Seconds of stretching after each session (common practice, no source)."""
SUNDAY = 6
SHORTEST_BOUT = 30
"""Seconds of walking between rests for somebody who can surely walk for no time, or did not say."""


def first_bout(walk_min: float) -> int:
    """Longest walk between rests on the first days in seconds, for somebody who can't walk 20 minutes."""
    return max(SHORTEST_BOUT, min(120, seconds_of(walk_min)))


def first_sessions(case: Case) -> Iterator[Session]:
    """Sessions of week 0 and week 1, races left out."""
    for week in case.weeks:
        if week.number <= 1:
            yield from (each for each in week.sessions if each.purpose is not Purpose.RACE and each.on >= case.since)


def too_long_at_first(case: Case) -> Places:
    """No session of the first days is longer than 20 minutes or what was done lately."""
    allowed = first_session(case.profile)
    return ((each.on, each.seconds, allowed) for each in first_sessions(case) if each.seconds > allowed)


def runs_too_far_at_first(case: Case) -> Places:
    """No run of the first days is longer than what the person can surely jog."""
    allowed = seconds_of(case.profile.jog_min)
    for each in first_sessions(case):
        longest = max((part.seconds for part in each.segments if part.do is Do.RUN), default=0)
        if longest > allowed:
            yield each.on, longest, allowed


def walks_too_far_at_first(case: Case) -> Places:
    """Who can't walk 20 minutes gets short walks with standing rests."""
    if can_walk_twenty(case.profile):
        return
    allowed = first_bout(case.profile.walk_min)
    for each in first_sessions(case):
        longest = max((part.seconds for part in each.segments if part.do is Do.WALK), default=0)
        if longest > allowed:
            yield each.on, longest, allowed


def too_much_at_first(case: Case) -> Places:
    """Week 0 and week 1 together hold at most 100 minutes, or a usual week and 10 %."""
    total = sum(each.seconds for each in first_sessions(case))
    allowed = first_week(case.profile)
    if total > allowed:
        yield case.profile.begin, total, allowed


def too_few_at_first(case: Case) -> Places:
    """Four days in week 1 if four are given; fewer only when the race or its week after lies in it."""
    wanted = min(4, len(case.profile.days))
    race = any(each.purpose is Purpose.RACE for week in case.plan.weeks[:2] for each in week.sessions)
    for week in case.weeks:
        whole = week.number == 1 and case.in_full(week)
        if whole and not race and not case.profile.screen.signs and len(week.sessions) != wanted:
            yield week.monday, len(week.sessions), wanted


def no_stretch(case: Case) -> Places:
    """A stretch of 5 minutes stands after each session."""
    for each, _ in case.training:
        stretch = sum(part.seconds for part in each.after if part.do is Do.STRETCH)
        if stretch != STRETCH:
            yield each.on, stretch, STRETCH


def days_in_use(week: Week) -> list[date]:
    """Days with a session, then those with strength."""
    return [*[each.on for each in week.sessions], *[each.on for each in week.strength]]


def no_free_day(case: Case) -> Places:
    """One day a week holds nothing, neither session nor strength nor race."""
    for week in case.weeks:
        used = len(set(days_in_use(week)))
        if used > 6:
            yield week.monday, used, 6


def on_a_day_not_given(case: Case) -> Places:
    """No walk or run on a day that the person did not give, one session a day, none before the beginning."""
    given = {each.day for each in case.profile.days}
    seen: set[date] = set()
    for each, _ in case.training:
        given_day = each.on.weekday() in given or each.on in case.chosen
        if not given_day or each.on in seen or each.on < case.profile.begin:
            yield each.on, each.on.weekday(), 0
        seen.add(each.on)


def outside_its_week(case: Case) -> Places:
    """Each session and each strength session lies in the week that it is listed in; weeks run from Monday."""
    for week in case.weeks:
        for on in days_in_use(week):
            days = (on - week.monday).days
            if not 0 <= days <= SUNDAY or on.weekday() != days:
                yield on, days, SUNDAY


COMMON = "common practice, no source"
RULES = (
    Rule("first_session", COMMON, too_long_at_first),
    Rule("first_runs", COMMON, runs_too_far_at_first),
    Rule("first_walks", COMMON, walks_too_far_at_first),
    Rule("first_week", COMMON, too_much_at_first),
    Rule("first_days", COMMON, too_few_at_first),
    Rule("stretch_after", COMMON, no_stretch),
    Rule("free_day", "a rest day between: common practice, no source", no_free_day),
    Rule("given_days", "the person's own days", on_a_day_not_given),
    Rule("whole_weeks", "ISO 8601: weeks run from Monday", outside_its_week),
)
