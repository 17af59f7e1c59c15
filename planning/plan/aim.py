"""A week in numbers, before its sessions are written out; and what the weeks before say of the next one."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from planning.limits.ceilings import FIRST_SESSION, first_session, seconds_of
from planning.limits.record import RUN, SECONDS, WHOLE, Outing, Record
from planning.limits.rhythm import LIGHT, is_lost, is_paused
from planning.limits.running import STRIDE
from planning.plan.frame import Frame
from planning.plan.goal import Goal
from planning.plan.off import NOTHING_OFF, Off
from planning.terms.choices import WeekKind
from planning.terms.person import Race
from planning.terms.plan import Session

A_WEEK = 7
WINDOW = 23
"""Days before a Monday that lie within the 30 days before each day of its week."""


@dataclass(frozen=True, slots=True)
class WeekAim:
    """One week in numbers."""

    number: int
    kind: WeekKind
    outings: tuple[Outing, ...]


@dataclass(frozen=True, slots=True)
class RaceOuting:
    """A race on the way: its distance, expected minutes, and the session that it was rehearsed in."""

    km: float
    expected_min: int
    long: Outing | None


@dataclass(slots=True)
class Way:
    """Weeks on the way to a goal, in numbers, with the record that they make.

    *kinds*, *planned*: kind and seconds of each week as it was planned; *stood*: seconds planned for each of the last
    days before today, by ordinal; *off*: days without sessions or runs; *races*: shorter races by ordinal; *asked*: for
    each one ahead that the longest session is still too short for, the number of its week and the minutes that it asks
    for; *left*: those left out; *raced*: those that are over; *barred*: days too near to one for a long session;
    *chosen*: sessions by ordinal that people put there; *paused*: weeks with days off for a break.
    """

    frame: Frame
    goal: Goal
    record: Record
    off: Off = NOTHING_OFF
    barred: tuple[int, ...] = ()
    races: dict[int, RaceOuting] = field(default_factory=dict)
    asked: tuple[tuple[int, int], ...] = ()
    left: list[Race] = field(default_factory=list)
    chosen: dict[int, Session] = field(default_factory=dict)
    raced: frozenset[int] = frozenset()
    paused: frozenset[int] = frozenset()
    kinds: dict[int, WeekKind] = field(default_factory=dict)
    planned: dict[int, int] = field(default_factory=dict)
    stood: dict[int, int] = field(default_factory=dict)
    weeks: list[WeekAim] = field(default_factory=list)

    def take(self, week: WeekAim) -> None:
        """Add one week."""
        self.record.add(week.outings)
        self.note(week)

    def note(self, week: WeekAim) -> None:
        """Add one week whose outings are in the record already."""
        self.kinds[week.number] = week.kind
        self.weeks.append(week)


class Ground(NamedTuple):
    """What counts for the week *number*; a named tuple, as one is made for each week of each way.

    Times in seconds; *open*: weekdays that may hold a session, best first.
    *longest*, *highest*: outing and week, with what was said of the time before; *own*, *own_week*: without it;
    *best*: most running in one outing; *rep*: the run that was held; *tried*: running of the last session
    with runs, if its step was not held; *jog*: what can surely be jogged, while it counts;
    *runs*: running of the higher of the two weeks before; *bout*: walking between rests in the last
    week, None before the first outing;
    *walks*: both weeks before held enough walks of 30 minutes, looked at before running has entered; *anew*: a new
    start after a long gap; *back*: the first week after any gap; *again*: a session that may be asked for whatever was
    missed; *outings*: how many there were lately.
    """

    number: int
    open: tuple[int, ...]
    longest: int
    highest: int
    own: int
    own_week: int
    best: int
    rep: int
    tried: int | None
    jog: int
    runs: int
    bout: int | None
    walks: bool
    anew: bool
    back: bool
    again: int
    outings: int


def open_days(way: Way, number: int) -> tuple[int, ...]:
    """Weekdays of week *number* that may hold a session, most important first."""
    frame = way.frame
    if not way.off.closed:
        return frame.order
    return tuple(each for each in frame.order if not way.off.closes(frame.day(number, each)))


def walked_enough(way: Way, number: int, recent: list[Outing]) -> bool:
    """Both weeks before held walks of 30 minutes on three days, or on all if fewer are given."""
    wanted = min(3, way.frame.count)
    walks = [way.record.number(each.on) for each in recent if each.walks_thirty]
    return number > 2 and all(walks.count(week) >= wanted for week in (number - 1, number - 2))


def first_day(way: Way, number: int, days: tuple[int, ...]) -> int:
    """Ordinal of the first outing of week *number*: one that was done, else the first that may still come."""
    monday = way.frame.day(number, 0)
    out, now = way.record.days_out, way.record.now
    if out and out[-1] >= monday:
        return next(each for each in out[-7:] if each >= monday)
    return min([monday + each for each in days if monday + each >= now], default=max(monday, now))


def step_held(recent: list[Outing]) -> int:
    """Seconds of one run of the step that counts as held, newest of the *recent* outings first: shorter runs of easier
    weeks are no step back, those of a step that was too hard are."""
    rep = 0
    for each in recent:
        rep = max(rep, each.rep)
        if each.run and not each.held:
            break
    return rep


def said_longest(frame: Frame) -> int:
    """Seconds of the longest outing before the first day; who can't walk 20 minutes without stopping starts there."""
    return FIRST_SESSION if frame.bout else first_session(frame.profile)


def ground_of(way: Way, number: int) -> Ground:
    """The ground that week *number* stands on."""
    frame, record = way.frame, way.record
    days = open_days(way, number)
    monday = frame.day(number, 0)
    first = first_day(way, number, days)
    recent = [each for each in record.back(first, WINDOW + 7) if monday - WINDOW <= each.on < monday]
    last = next((each for each in recent if each.run), None)
    rep = step_held(recent)
    early = monday - frame.begin < WINDOW
    own = max(map(SECONDS, recent), default=0)
    return Ground(
        number=number,
        open=days,
        longest=max(own, record.still_counts(said_longest(frame), first) if early else 0),
        highest=record.highest_week(number, first),
        own=own,
        own_week=max([record.totals.get(each, 0) for each in range(max(1, number - 4), number)], default=0),
        best=max(map(RUN, recent), default=0),
        rep=rep,
        tried=None if last is None or last.held else last.run,
        jog=record.still_counts(seconds_of(frame.profile.jog_min), first) if early else 0,
        runs=record.run_week(number, first),
        bout=max([each.bout for each in recent if recent[0].on - each.on < A_WEEK], default=None),
        walks=rep <= STRIDE and walked_enough(way, number, recent),
        anew=number > 1 and record.is_new_start(first),
        back=number > 1 and record.left(first) < WHOLE,
        again=record.session_again(first) if record.has_past else 0,
        outings=len(recent),
    )


def full_weeks_in_a_row(way: Way, number: int) -> int:
    """How many weeks just before *number* were neither easier nor lost, counted up to three."""
    streak = 0
    totals = way.record.totals
    for each in range(number - 1, max(0, number - 4), -1):
        over = way.frame.day(each + 1, 0) <= way.record.now
        planned = way.planned.get(each, 0) if over else 0
        lost = is_lost(totals.get(each, 0), planned)
        paused = each in way.paused and is_paused(totals.get(each, 0), totals.get(each - 1, 0))
        if way.kinds.get(each) in LIGHT or lost or paused:
            break
        streak += 1
    return streak


def mark_long(number: int, lengths: Mapping[int, int]) -> int | None:
    """Weekday of the long session: the one that is longer than all others, from week 2 on."""
    if number < 2 or len(lengths) < 2:
        return None
    day = max(lengths, key=lambda each: lengths[each])
    return day if sorted(lengths.values())[-2] < lengths[day] else None
