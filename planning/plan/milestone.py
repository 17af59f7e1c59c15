"""Shorter races on the way: taken in where they fit between the weeks, left out where they come too soon."""

from planning.limits.racing import longest_wanted
from planning.plan.aim import RaceOuting, Way, full_weeks_in_a_row, ground_of
from planning.plan.dates import expects
from planning.plan.off import Off
from planning.plan.onward import EASIER_EVERY
from planning.terms.choices import RaceMode
from planning.terms.person import Race

EARLIEST_WEEK = 3


def take_in(way: Way, race: Race, number: int) -> bool:
    """Make room for *race* in week *number*: no session that day, no running around it, no long session that week."""
    on = race.on.toordinal()
    ground = ground_of(way, number)
    recent = [each for each in way.record.outings[-16:] if each.seconds == ground.own]
    long = recent[-1] if recent else None
    expected = expects(way.frame, race.km, long)
    left = [each for each in ground.open if way.frame.day(number, each) != on]
    too_soon = number < EARLIEST_WEEK or ground.own < longest_wanted(expected, RaceMode.RUN_WALK)
    crowded = number in (way.goal.peak, None) or len(left) < 2 or on < way.record.now
    before = way.record.totals.get(number - 1, 0) // 60
    easier = (
        full_weeks_in_a_row(way, number) >= EASIER_EVERY - 2 and before * 8 > left * min(APART, ground.own // 60) * 10
    )
    if on not in way.raced and (too_soon or crowded or easier):
        return False
    way.races[on] = RaceOuting(race.km, expected, long)
    way.off = Off((*way.off.closed, (on, on)), (*way.off.walking, (on - 1, on + 1)))
    week = range(way.frame.day(number, 0), way.frame.day(number, 7))
    way.barred = (*way.barred, *week, on + 1)
    return True
