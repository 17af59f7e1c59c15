"""What really happened, as the plan sees it: outings that count, days that are closed, what people changed."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from planning.limits.ceilings import grow_session
from planning.limits.record import Outing, shrunk
from planning.limits.rule import Past, first_monday, measure
from planning.plan.ladder import ladder, rung_of
from planning.plan.off import Days, Off
from planning.safety.illness import Illness, gentle_days, wait_days
from planning.terms.choices import Activity, Colour, Purpose
from planning.terms.entry import Break, Entry, Fixed, Flag, History, Status
from planning.terms.person import Profile
from planning.terms.plan import Plan

ON_FOOT = frozenset({None, Activity.WALK, Activity.RUN, Activity.RUN_WALK, Activity.SESSION})
"""What counts towards growth: hoovering and cycling do not (common practice, no source)."""
HELD_AT = 5
"""Highest effort (CR-10) at which a step of the ladder counts as held."""
HELD_PERCENT = 80
AMBER_DAYS = 7
"""Days without running ahead of today while an amber flag is open; every re-plan looks again."""
FAR = date.max.toordinal()
LOOK_BACK, FAR_AHEAD = 35, 730
"""Days before and after the cut in which closed days matter to the weeks that may still change."""
AFTER_RED = 90
"""Percent of what was done before a red flag that still counts after it is cleared."""
EXTRA_REST = 2
"""Days without running after an outing well beyond the plan: 48 hours (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Happened:
    """The past of a plan.

    *before*: the plan as it stood; *cut*: ordinal of the first day that may still change; *outings*: what really
    counts, in order of day; *as_planned*: that is all that was planned so far; *fixed*: changes by people from the cut
    on; *red*: a red flag is open.
    """

    before: Plan
    cut: int
    outings: tuple[Outing, ...]
    as_planned: bool
    off: Off
    fixed: tuple[Fixed, ...]
    red: bool

    def past(self, profile: Profile) -> Past:
        """The past as the check of limits takes it."""
        monday = first_monday(profile.begin).toordinal()
        days = [each.on.toordinal() for each in self.fixed]
        days += [each.session.on.toordinal() for each in self.fixed if each.session]
        paused = self.paused(monday)
        touched = paused | {(on - monday) // 7 + 1 for on in days}
        chosen = frozenset(each.session.on for each in self.fixed if each.session)
        return Past(date.fromordinal(self.cut), self.outings, touched, chosen, paused)

    def paused(self, monday: int) -> frozenset[int]:
        """Numbers of the weeks near or after the cut with closed days. *monday*: ordinal of the one of week 1."""
        spans = ((max(first, self.cut - LOOK_BACK), min(last, self.cut + FAR_AHEAD)) for first, last in self.off.closed)
        return frozenset(
            week
            for first, last in spans
            for week in range((first - monday) // 7 + 1, (last - monday) // 7 + 2)
            if first <= last
        )


def first_open_day(history: History, today: date) -> date:
    """The first day that may still change: today, or tomorrow once something was said of today's session."""
    said = any(today in (each.on, each.planned_on) and each.status is not Status.NO_WORD for each in history.entries)
    return today + timedelta(days=1) if said else today


def entries_by_day(entries: Iterable[Entry]) -> dict[date, list[Entry]]:
    """What was done on foot, by the day of the session that it belongs to: the one that it names, else its own day."""
    by_day: dict[date, list[Entry]] = {}
    for each in entries:
        if each.status is Status.DONE and each.kind in ON_FOOT:
            by_day.setdefault(each.planned_on or each.on, []).append(each)
    return by_day


def seconds_done(planned: int, entries: list[Entry]) -> int:
    """Seconds that were done of the *planned* ones, never more: what goes beyond raises no ceiling."""
    done = 0.0
    for each in entries:
        if each.minutes is not None:
            done += each.minutes * 60
        else:
            done += planned * (1 if each.share is None else each.share)
    return min(planned, int(done))


def rung_held(rep: int, steps: int) -> int:
    """The run, in seconds, *steps* rungs below one of *rep* seconds."""
    return ladder()[max(0, rung_of(rep) - steps)].run if rep >= ladder()[0].run else rep


def outing_done(whole: Outing, entries: list[Entry], hard: int) -> Outing:
    """What counts of the *whole* session. *hard*: how many in a row up to this one were too hard to count as held."""
    seconds = seconds_done(whole.seconds, entries)
    walked = all(each.kind is Activity.WALK for each in entries)
    run = 0 if walked or not whole.seconds else whole.run * seconds // whole.seconds
    steps = max(hard, int(seconds * 100 < whole.seconds * HELD_PERCENT))
    rep = rung_held(whole.rep, steps) if run else 0
    if steps and run:
        run = min(run, whole.run // whole.rep * rep)
    on = min([each.on for each in entries])
    return Outing(on.toordinal(), seconds, run, rep, whole.bout, whole.long, held=not steps)


def is_flagged(on: date, flags: tuple[Flag, ...]) -> bool:
    """An amber or red flag rose on that day or the next one, or stood open on it."""
    return any(
        each.colour is not Colour.GREEN
        and each.since - timedelta(days=1) <= on
        and (each.cleared_on is None or on <= each.cleared_on)
        for each in flags
    )


def measured_before(plan: Plan, cut: int) -> dict[date, Outing]:
    """The sessions of *plan* before the day *cut* in numbers, races left out, by day."""
    end = date.fromordinal(cut)
    return {each.on: measure(each) for each in plan.sessions if each.on < end and each.purpose is not Purpose.RACE}


def outings_done(planned: dict[date, Outing], history: History, cut: int) -> tuple[Outing, ...]:
    """What counts of the sessions *planned* before the day *cut*, in order of day."""
    by_day = entries_by_day(history.entries)
    found, hard = [], 0
    for on, whole in planned.items():
        if entries := by_day.get(on):
            tough = max([each.effort or 0 for each in entries]) > HELD_AT or is_flagged(on, history.flags)
            hard = hard + 1 if tough else 0
            found.append(outing_done(whole, entries, hard))
    found = [after_flags(each, history.flags) for each in found if each.seconds and each.on < cut]
    return tuple(sorted(found, key=lambda each: each.on))


def after_flags(outing: Outing, flags: tuple[Flag, ...]) -> Outing:
    """What still counts of an outing before a red flag that is cleared by now: back a step lower."""
    reds = [each.cleared_on for each in flags if each.colour is Colour.RED and each.cleared_on]
    if not reds or outing.on > max(reds).toordinal():
        return outing
    less = shrunk(outing, AFTER_RED)
    return less._replace(rep=rung_held(outing.rep, 1), held=False)


def breaks_off(breaks: tuple[Break, ...], cut: int) -> Off:
    """Days closed by breaks, and those after an illness that are gentle or a step back. An open break lasts to the end
    of this week."""
    closed, gentle, back = [], [], []
    for each in breaks:
        first = each.first.toordinal()
        sunday = cut + 6 - date.fromordinal(cut).weekday()
        last = each.last.toordinal() if each.last else max(first, sunday)
        days = last - first + 1
        if each.fever:
            last += wait_days(Illness.FEVER)
            gentle.append((last + 1, last + gentle_days(Illness.FEVER, days)))
        if each.ill or each.fever:
            illness = Illness.FEVER if each.fever else Illness.COMMON
            back.append((last + 1, last + gentle_days(illness, days)))
        closed.append((first, last))
    return Off(tuple(closed), tuple(gentle), tuple(gentle), tuple(back))


def is_beyond(whole: Outing, entry: Entry) -> bool:
    """More was done than the *whole* session: over 10 % and over 5 minutes."""
    return entry.minutes is not None and entry.minutes * 60 > grow_session(whole.seconds)


def extras_off(planned: dict[date, Outing], entries: tuple[Entry, ...]) -> Days:
    """Days of walking alone after outings that went well beyond what was *planned*, races among them."""
    spans = []
    for each in entries:
        if each.status is not Status.DONE or each.kind not in ON_FOOT:
            continue
        session = planned.get(each.planned_on or each.on)
        unplanned_run = session is None and each.kind in (Activity.RUN, Activity.RUN_WALK)
        if unplanned_run or (session and is_beyond(session, each)):
            spans.append((each.on.toordinal() + 1, each.on.toordinal() + EXTRA_REST))
    return tuple(spans)


def look_back(before: Plan, history: History, today: date) -> Happened:
    """Everything of *history* that the plan from *today* on stands on."""
    cut = first_open_day(history, today).toordinal()
    flags = [each for each in history.flags if each.cleared_on is None]
    red = any(each.colour is Colour.RED for each in flags)
    amber = any(each.colour is Colour.AMBER for each in flags)
    off, planned = breaks_off(history.breaks, cut), measured_before(before, cut)
    walking = (*off.walking, *extras_off(planned, history.entries), *(((cut, cut + AMBER_DAYS - 1),) if amber else ()))
    closed = (*off.closed, (cut, FAR)) if red else off.closed
    fixed = tuple(each for each in history.fixed if each.on.toordinal() >= cut)
    outings = outings_done(planned, history, cut)
    as_planned = outings == tuple(each for each in planned.values() if each.seconds)
    return Happened(
        before, cut, outings, as_planned, replace(off, closed=closed, walking=walking, level=walking), fixed, red
    )
