"""Shorter races on the way: taken in where they fit between the weeks, left out where they come too soon."""

from dataclasses import replace

from planning.limits.racing import longest_wanted
from planning.limits.record import Outing
from planning.plan.aim import Ground, RaceOuting, Way, full_weeks_in_a_row, ground_of
from planning.plan.dates import expects
from planning.plan.lengths import easier_total, limit_of
from planning.plan.onward import EASIER_EVERY, is_due_easier
from planning.terms.choices import RaceMode
from planning.terms.person import Race

EARLIEST_WEEK = 3
FEWEST_DAYS = 2


def asked_of_long(way: Way, race: Race, ground: Ground) -> tuple[int, int, Outing | None]:
    """Seconds of the longest session that *race* asks for, its expected minutes, and the longest session of late."""
    recent = [each for each in way.record.outings[-16:] if each.seconds == ground.own]
    long = recent[-1] if recent else None
    expected = expects(way.frame, race.km, long)
    return longest_wanted(expected, RaceMode.RUN_WALK), expected, long


def look_ahead(way: Way, milestones: tuple[Race, ...], number: int) -> None:
    """Note what the shorter races after week *number* ask for that is not there yet, so that no week of holding comes
    between."""
    ahead = [(way.record.number(each.on.toordinal()), each) for each in milestones]
    ahead = [(week, each) for week, each in ahead if week > number]
    if not ahead:
        way.asked = ()
        return
    ground = ground_of(way, number)
    wanted = ((week, asked_of_long(way, each, ground)[0]) for week, each in ahead)
    way.asked = tuple((week, -(-seconds // 60)) for week, seconds in wanted if seconds > ground.own)


def take_in(way: Way, race: Race, number: int) -> bool:
    """Make room for *race* in week *number*: no session that day, no running around it, no long session that week, and
    no second race: with the sessions it would leave no free day."""
    on = race.on.toordinal()
    ground = ground_of(way, number)
    wanted, expected, long = asked_of_long(way, race, ground)
    left = [each for each in ground.open if way.frame.day(number, each) != on]
    too_soon = number < EARLIEST_WEEK or ground.own < wanted
    beside = any(abs(on - each) == 1 or way.record.number(each) == number for each in (*way.races, *way.raced))
    crowded = number == way.goal.peak or len(left) < FEWEST_DAYS or beside or is_tired(way, on)
    if on not in way.raced and (too_soon or crowded or on < way.record.now or not has_room(way, ground, left)):
        return False
    way.races[on] = RaceOuting(race.km, expected, long)
    way.off = replace(way.off, closed=(*way.off.closed, (on, on)), walking=(*way.off.walking, (on - 1, on + 1)))
    week = range(way.frame.day(number, 0), way.frame.day(number, 7))
    way.barred = (*way.barred, *week, on + 1)
    return True


def keep_free_around(way: Way, raced: int) -> None:
    """No running and no long session on the day after a race that is over. *raced*: ordinal of its day."""
    way.raced = way.raced | {raced}
    way.off = replace(way.off, walking=(*way.off.walking, (raced, raced + 1)))
    way.barred = (*way.barred, raced + 1)


def is_tired(way: Way, on: int) -> bool:
    """The day before *on* holds running or a long session."""
    last = way.record.outings[-1] if way.record.outings else None
    return last is not None and last.on == on - 1 and (last.long or last.run > 0)


def has_room(way: Way, ground: Ground, left: list[int]) -> bool:
    """The other days (*left*) can hold what an easier week asks for, if this one may have to be easier."""
    if full_weeks_in_a_row(way, ground.number) < EASIER_EVERY - 2:
        return True
    room = sum(min(limit_of(each, way.frame.long), ground.own // 60) for each in left)
    return easier_total(way.record.totals.get(ground.number - 1, 0)) <= room


def keep_eve_free(way: Way, race: Race, number: int) -> None:
    """No running and no long session at the end of week *number* when *race* is on the Monday after it."""
    eve = race.on.toordinal() - 1
    if eve == way.frame.day(number, 6) and not is_due_easier(way, number):
        way.off = replace(way.off, walking=(*way.off.walking, (eve, eve)))
        way.barred = (*way.barred, eve)
