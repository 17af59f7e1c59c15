"""What a limit is: a name, a source and a check that lists every breach."""

from bisect import bisect_left
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta

from planning.limits.record import Outing, Record
from planning.terms.choices import Do, Purpose
from planning.terms.person import Profile
from planning.terms.plan import Plan, Session, Week


@dataclass(frozen=True, slots=True)
class Breach:
    """One place where a plan goes beyond a limit: its rule, the day, what was found and what is allowed."""

    rule: str
    on: date
    found: float
    allowed: float


def first_monday(begin: date) -> date:
    """Monday of week 1: *begin* itself if it is a Monday, else the next one."""
    return begin + timedelta(days=-begin.weekday() % 7)


def measure(session: Session) -> Outing:
    """*session* in numbers."""
    total = run = rep = walk = rests = 0
    for each in session.segments:
        seconds, do = each.seconds, each.do
        total += seconds
        if do is Do.RUN:
            run += seconds
            rep = seconds if seconds > rep else rep
        elif do is Do.REST:
            rests += seconds
        elif seconds > walk:
            walk = seconds
    long = session.purpose is Purpose.LONG
    return Outing(session.on.toordinal(), total, run, rep, walk if rests else 0, long)


def empty_record(profile: Profile, days: int, now: int = 0) -> Record:
    """The ground before the first day. *days*: how many a week `jog_min` counts for; *now*: see `Record`."""
    return Record(profile, profile.begin.toordinal(), first_monday(profile.begin).toordinal(), days, now)


@dataclass(slots=True)
class Case:
    """A plan with what its checks look at. Only days from *since* on are judged; those before are what happened.

    *record*: what really counts of the days before, then the sessions to be judged; *touched*: numbers of weeks in
    which days were taken out, moved or changed by people or illness: they may hold less than planned, never more;
    *paused*: numbers of weeks with days off for a break; *weeks*: those that still have days to be judged; *sessions*:
    all of the plan.
    """

    plan: Plan
    profile: Profile
    since: date
    record: Record
    touched: frozenset[int] = frozenset()
    chosen: frozenset[date] = frozenset()
    paused: frozenset[int] = frozenset()
    measured: list[tuple[Session, Outing]] = field(default_factory=list)
    weeks: tuple[Week, ...] = ()
    sessions: tuple[Session, ...] = ()

    def first_day(self, week: Week) -> int:
        """Ordinal of the first outing in *week*, its Monday if there is none."""
        monday, days = week.monday.toordinal(), self.record.days_out
        index = bisect_left(days, monday)
        return days[index] if index < len(days) and days[index] < monday + 7 else monday

    def ahead(self, week: Week) -> tuple[int, int]:
        """Seconds, and seconds of running, of *week* that are still to be judged."""
        monday, days = week.monday.toordinal(), self.record.days_out
        first = bisect_left(days, max(monday, self.since.toordinal()))
        mine = self.record.outings[first : bisect_left(days, monday + 7)]
        return sum(each.seconds for each in mine), sum(each.run for each in mine)

    def in_full(self, week: Week) -> bool:
        """The whole *week* is judged, and nothing was taken out of it."""
        return week.monday >= self.since and week.number not in self.touched

    @property
    def training(self) -> Iterator[tuple[Session, Outing]]:
        """Sessions to be judged, races left out, each with its numbers."""
        return iter(self.measured)


@dataclass(frozen=True, slots=True)
class Past:
    """What is over when a plan is judged: its *since*, the *outings* before that really count, in order of day;
    *touched*, *chosen* and *paused*: see `Case`; chosen are days that a person put a session on."""

    since: date
    outings: tuple[Outing, ...] = ()
    touched: frozenset[int] = frozenset()
    chosen: frozenset[date] = frozenset()
    paused: frozenset[int] = frozenset()


NO_PAST = Past(date.min)


def lay_out(plan: Plan, profile: Profile, past: Past = NO_PAST) -> Case:
    """The case of *plan*: all of it, or its days from `past.since` on, standing on what is known of the past."""
    record = empty_record(profile, len(profile.days), past.since.toordinal())
    record.add(past.outings)
    sessions = plan.sessions
    ahead = [each for each in sessions if each.on >= past.since and each.purpose is not Purpose.RACE]
    measured = [(each, outing) for each in ahead if (outing := measure(each)).seconds]
    record.add(outing for _, outing in measured)
    weeks = tuple(each for each in plan.weeks if each.monday + timedelta(days=6) >= past.since)
    return Case(plan, profile, past.since, record, past.touched, past.chosen, past.paused, measured, weeks, sessions)


@dataclass(frozen=True, slots=True)
class Rule:
    """One limit. *find* lists the breaches of a case as (day, found, allowed)."""

    name: str
    source: str
    find: Callable[[Case], Iterator[tuple[date, float, float]]]

    def breaches(self, case: Case) -> tuple[Breach, ...]:
        """Every breach of this limit in *case*."""
        return tuple(Breach(self.name, *place) for place in self.find(case))

    def check(self, plan: Plan, profile: Profile) -> tuple[Breach, ...]:
        """Every breach of this limit in a whole new *plan* for *profile*."""
        return self.breaches(lay_out(plan, profile))
