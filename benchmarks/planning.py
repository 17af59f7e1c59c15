"""How long plans take: `python -m benchmarks.planning`. Medians in milliseconds, and ratios that hold anywhere."""

import copy
from collections.abc import Callable
from dataclasses import replace
from datetime import date, time, timedelta
from statistics import median
from time import process_time

from planning import build_plan, check, replan
from planning.plan.arrive import ready
from planning.plan.lengths import grown
from planning.terms.choices import Activity, Purpose, Weekday
from planning.terms.entry import Entry, History
from planning.terms.person import DayTime, Profile, Race
from planning.terms.plan import Plan, Segment

ROUNDS = 30
BEGIN = date(2026, 3, 2)
SAM = Profile(
    who="sam",
    tz="Europe/London",
    days=tuple(DayTime(Weekday(each), time(7)) for each in (0, 2, 4, 6)),
    begin=BEGIN,
    walk_min=20,
    age=44,
    height_cm=168,
    weight_kg=79,
)


def with_race(weeks: int) -> Profile:
    """Somebody of our own making with a half marathon at the end of week *weeks*."""
    return replace(SAM, race=Race(BEGIN + timedelta(days=weeks * 7 - 1), 21.0975))


def milliseconds(work: Callable[[], object]) -> float:
    """Median processor time of *work*: what others do on the machine does not count."""
    times = []
    for _ in range(ROUNDS):
        start = process_time()
        work()
        times.append(process_time() - start)
    return median(times) * 1000


def fresh(profile: Profile) -> Plan:
    """A plan with nothing kept from an earlier one."""
    ready.cache_clear()
    grown.cache_clear()
    return build_plan(profile)


def written_out(plan: Plan) -> Plan:
    """*plan* with each segment a value of its own, as when it was read from records."""
    weeks = []
    for week in plan.weeks:
        sessions = [
            replace(each, segments=tuple(Segment(s.do, s.seconds) for s in each.segments)) for each in week.sessions
        ]
        weeks.append(replace(week, sessions=tuple(sessions)))
    return replace(plan, weeks=tuple(weeks))


def done_up_to(plan: Plan, today: date) -> History:
    """All done as planned."""
    past = [each for each in plan.sessions if each.on < today and each.purpose is not Purpose.RACE]
    return History(
        tuple(Entry(e.on, kind=Activity.SESSION, minutes=e.minutes, planned_on=e.on, effort=3) for e in past)
    )


def main() -> None:
    """Print the figures."""
    for weeks in (10, 40, 160):
        profile = with_race(weeks)
        cost = milliseconds(lambda profile=profile: fresh(profile))  # type: ignore[misc]
        print(f"{weeks:4} weeks: whole plan with its closing check {cost:7.2f} ms, {cost / weeks:.3f} ms a week")
    profile = with_race(40)
    plan = written_out(build_plan(profile))
    today = BEGIN + timedelta(weeks=12)
    history = done_up_to(plan, today)
    again = milliseconds(lambda: replan(profile, history, today, plan))
    copied = milliseconds(lambda: copy.deepcopy(plan))
    print(f"check alone {milliseconds(lambda: check(plan, profile)):.2f} ms")
    print(f"re-plan {again:.2f} ms, deepcopy {copied:.2f} ms, ratio {again / copied:.2f} (at most 0.5)")


if __name__ == "__main__":
    main()
