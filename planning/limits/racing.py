"""Before and after the race: the longest session, the taper counted in days, the week without running."""

from collections.abc import Iterator
from datetime import date, timedelta

from planning.limits.ceilings import FIRST_SESSION, seconds_of
from planning.limits.rule import Case, Rule
from planning.terms.choices import RaceMode, WeekKind

Places = Iterator[tuple[date, float, float]]
SHORT_RACE_KM = 15
"""Below this distance only growth bounds the longest session (common practice, no source)."""
PEAK_DAYS = range(14, 29)
"""Days before the race on which the longest session lies (common practice, no source)."""
TAPERS = ((14, 8, 70), (7, 1, 60))
"""First and last day before the race, and the percent of the peak week that they hold together at most: down by 41 to
60 % in the end (Bosquet et al. 2007, MSSE 39:1358)."""


def longest_allowed(mode: RaceMode) -> int:
    """Seconds that no session goes beyond: 180 minutes, 210 for walking (common practice, no source)."""
    return (210 if mode is RaceMode.WALK else 180) * 60


def longest_wanted(expected_min: float, mode: RaceMode) -> int:
    """Seconds that the longest session must reach: 70 % of the expected time, capped."""
    return min(-(-seconds_of(expected_min) * 70 // 100), longest_allowed(mode))


def too_long(case: Case) -> Places:
    """No session goes beyond 180 minutes, 210 for walking; under 15 km growth alone bounds it."""
    race = case.profile.race
    if race and race.km < SHORT_RACE_KM:
        return
    allowed = longest_allowed(race.mode if race else RaceMode.RUN_WALK)
    yield from ((each.on, out.seconds, allowed) for each, out in case.training if out.seconds > allowed)


def longest_not_there(case: Case) -> Places:
    """In a plan that fits the longest session reaches 70 % of the race, 14 to 28 days before; none after it is as long,
    and none before it, unless misses or a gap have come between."""
    race, plan = case.profile.race, case.plan
    if not (race and plan.fits and plan.race_day):
        return
    training = [each for each in case.record.outings if each.on < race.on.toordinal()]
    wanted = longest_wanted(plan.race_day.expected_min, race.mode)
    there = max((each.seconds for each in training if race.on.toordinal() - each.on in PEAK_DAYS), default=0)
    if there < wanted:
        yield race.on, there, wanted
    for each in training:
        left = race.on.toordinal() - each.on
        elsewhere = left < PEAK_DAYS[0] or (left > PEAK_DAYS[-1] and not case.record.has_past)
        if elsewhere and each.seconds >= there and date.fromordinal(each.on) >= case.since:
            yield date.fromordinal(each.on), each.seconds, there


def taper_too_full(case: Case) -> Places:
    """Days 14-8 hold at most 70 %, days 7-1 at most 60 % of the peak week, when there were weeks before them; what was
    missed before makes the peak no smaller than 20 minutes on each day."""
    race = case.profile.race
    if race is None or not case.plan.weeks or (race.on - case.profile.begin).days < SOONEST_TAPER:
        return
    record = case.record
    peak = max([FIRST_SESSION * record.count if record.has_past else 0, *record.totals.values()])
    for first, last, percent in TAPERS:
        start, end = race.on - timedelta(days=first), race.on - timedelta(days=last)
        total = sum(each.seconds for each in record.outings if start.toordinal() <= each.on <= end.toordinal())
        if total * 100 > peak * percent and end >= case.since:
            yield start, total, peak * percent / 100


SOONEST_TAPER = 28
"""Days from the beginning from which on a race leaves room for full weeks before its taper."""


def runs_after_race(case: Case) -> Places:
    """After the race a week without running, of kind recover."""
    race = case.profile.race
    if race is None or not case.plan.weeks:
        return
    last = case.plan.weeks[-1]
    if last.kind is not WeekKind.RECOVER:
        yield race.on, 0, 1
    for each, outing in case.training:
        if each.on > race.on and outing.run:
            yield each.on, outing.run, 0


COMMON = "common practice, no source"
RULES = (
    Rule("longest_session", COMMON, too_long),
    Rule("longest_before_race", COMMON, longest_not_there),
    Rule("taper", "Bosquet et al. 2007, MSSE 39:1358", taper_too_full),
    Rule("recover", COMMON, runs_after_race),
)
