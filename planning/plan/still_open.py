"""What of a week may still change, within what really happened before it."""

from planning.limits.ceilings import grow_run
from planning.limits.record import WHOLE, Outing
from planning.limits.rule import measure
from planning.plan.aim import Way, WeekAim
from planning.plan.happened import Happened
from planning.plan.onward import share_of
from planning.plan.room_left import Left, left_of, longest_of_day, week_most
from planning.terms.choices import WeekKind

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
    kept = fitted(way, week.number, outings)
    if is_whole(way, week.number, happened):
        kept = with_room_for_long(way, week, kept)
    return WeekAim(week.number, week.kind, kept)


def is_whole(way: Way, number: int, happened: Happened) -> bool:
    """Nothing of the week is over, closed, or changed by people."""
    days = [each.on.toordinal() for each in happened.fixed] + [*way.chosen]
    touched = number in way.paused or any(way.record.number(on) == number for on in days)
    return way.frame.day(number, 0) >= happened.cut and not touched


def is_disturbed(way: Way, number: int, happened: Happened) -> bool:
    """Something in this week or the five before it may differ from what was planned."""
    sunday = way.frame.day(number, 6)
    first = sunday - DISTURBED
    changed = [each.on.toordinal() for each in happened.fixed] + [*way.chosen]
    near = any(first <= on <= sunday for on in changed)
    lately = first <= happened.cut and not happened.as_planned
    return lately or near or happened.off.touches(first, sunday)


def fitted(way: Way, number: int, outings: dict[int, Outing]) -> tuple[Outing, ...]:
    """*outings* of a week within what the days before leave; put on record one by one."""
    kept: list[Outing] = []
    days, monday = way.record.days_out, way.frame.day(number, 0)
    start = next((each for each in days[-7:] if each >= monday), None)
    most = week_most(way, number, start) if start else None
    for on in sorted(outings):
        most = most if most and (start or kept) else week_most(way, number, on)
        outing = outings[on] if on in way.chosen else clamped(way, outings[on], left_of(way, number, most))
        if outing.seconds:
            kept.append(outing)
            way.record.add([outing])
    return tuple(kept)


def with_room_for_long(way: Way, week: WeekAim, outings: tuple[Outing, ...]) -> tuple[Outing, ...]:
    """*outings* of a *week*, on record already, with the long one within its share of what is left of the others."""
    long = next((each for each in outings if each.long), None)
    if long is None or len(outings) < 2:
        return outings
    part, whole = share_of(way, len(outings), week.number, week.kind is WeekKind.HOLD)
    rest = sum(each.seconds for each in outings) - long.seconds
    most = rest * part // (whole - part) // 60 * 60
    if long.seconds <= most:
        return outings
    way.record.take_back(len(outings))
    is_long = most > max(each.seconds for each in outings if each is not long)
    shorter = Outing(long.on, most, bout=long.bout, long=is_long)
    again = fitted(way, week.number, {each.on: each for each in outings} | {long.on: shorter})
    return with_room_for_long(way, week, again)


def clamped(way: Way, outing: Outing, left: Left) -> Outing:
    """*outing* within what the days before it leave: shorter if the plan was not kept, walked after a day with runs and
    on the first day after a gap."""
    record, gentle = way.record, way.off.eases(outing.on)
    most = min(longest_of_day(way, outing.on), left.seconds)
    seconds = outing.seconds if outing.seconds <= most else max(0, most // 60 * 60)
    last = record.outings[-1] if record.outings else None
    tired = last is not None and last.run > 0 and outing.on - last.on <= 1
    whole = seconds == outing.seconds and outing.run <= min(left.run, grow_run(record.best_run(outing.on)))
    if outing.run and whole and not tired and record.left(outing.on) == WHOLE:
        return outing
    return Outing(outing.on, seconds, 0, 0, outing.bout, outing.long and not gentle)
