"""What of a week may still change, within what really happened before it."""

from dataclasses import dataclass

from planning.limits.ceilings import (
    FIRST_SESSION,
    FIRST_WEEK,
    first_week,
    grow_run,
    grow_run_week,
    grow_session,
    grow_week,
)
from planning.limits.record import Outing
from planning.limits.rule import measure
from planning.plan.aim import Way, WeekAim
from planning.plan.happened import Happened

GENTLE = 30 * 60
"""Seconds of a gentle walk after a fever at most (common practice, no source)."""
DISTURBED = 41
"""Days back from a Sunday that reach every day that its week stands on."""


def still_open(way: Way, week: WeekAim, happened: Happened) -> WeekAim:
    """What of *week* may still change: days from the cut on, with the changes that people made; put on record."""
    outings = {each.on: each for each in week.outings if each.on >= happened.cut}
    for each in happened.fixed:
        if way.record.number(each.on.toordinal()) == week.number:
            outings.pop(each.on.toordinal(), None)
        if each.session and way.record.number(each.session.on.toordinal()) == week.number:
            outings[each.session.on.toordinal()] = measure(each.session)
            way.chosen[each.session.on.toordinal()] = each.session
    outings = {on: each for on, each in outings.items() if each.seconds}
    if not is_disturbed(way, week.number, happened):
        kept = tuple(outings[on] for on in sorted(outings))
        way.record.add(kept)
        return WeekAim(week.number, week.kind, kept)
    return WeekAim(week.number, week.kind, fitted(way, week.number, outings))


def is_disturbed(way: Way, number: int, happened: Happened) -> bool:
    """Something in this week or the five before it may differ from what was planned."""
    sunday = way.frame.day(number, 6)
    first = sunday - DISTURBED
    changed = [each.on.toordinal() for each in happened.fixed] + [*way.chosen]
    near = any(first <= on <= sunday for on in changed)
    return first <= happened.cut or near or happened.off.touches(first, sunday)


def fitted(way: Way, number: int, outings: dict[int, Outing]) -> tuple[Outing, ...]:
    """*outings* of a week within what the days before leave; put on record one by one."""
    kept: list[Outing] = []
    for on in sorted(outings):
        left = left_for(way, number, on)
        outing = outings[on] if on in way.chosen else clamped(way, outings[on], left)
        if outing.seconds:
            kept.append(outing)
            way.record.add([outing])
    return tuple(kept)


@dataclass(frozen=True, slots=True)
class Left:
    """Seconds, and seconds of running, that a week may still hold."""

    seconds: int
    run: int


def left_for(way: Way, number: int, on: int) -> Left:
    """What week *number* may still hold on the day *on*, after what is on record of it."""
    record = way.record
    done, run = record.totals.get(number, 0), record.runs.get(number, 0)
    if number < 2:
        done = sum(record.totals.get(each, 0) for each in (0, 1))
        return Left(first_week(way.frame.profile) - done, grow_run_week(record.run_week(number, on)) - run)
    start = next((each for each in record.days_out[-7:] if each >= way.frame.day(number, 0)), on)
    frame = way.frame
    grown = max(frame.minutes * 60 * frame.count, grow_week(record.highest_week(number, start)))
    most = FIRST_WEEK if record.is_new_start(start) else grown
    return Left(most - done, grow_run_week(record.run_week(number, start)) - run)


def clamped(way: Way, outing: Outing, left: Left) -> Outing:
    """*outing* within what the days before it leave: shorter if the plan was not kept, walked after a day with runs."""
    record, gentle = way.record, way.off.eases(outing.on)
    grown = max(way.frame.minutes * 60, grow_session(record.longest(outing.on)))
    longest = FIRST_SESSION if record.is_new_start(outing.on) else grown
    most = min(longest, left.seconds, GENTLE if gentle else longest)
    seconds = outing.seconds if outing.seconds <= most else max(0, most // 60 * 60)
    last = record.outings[-1] if record.outings else None
    tired = last is not None and last.run > 0 and outing.on - last.on <= 1
    whole = seconds == outing.seconds and outing.run <= min(left.run, grow_run(record.best_run(outing.on)))
    if outing.run and whole and not tired:
        return outing
    return Outing(outing.on, seconds, 0, 0, outing.bout, outing.long and not gentle)
