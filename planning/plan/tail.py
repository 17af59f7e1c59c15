"""The last weeks: from the longest session down to the race, and the week after it."""

from dataclasses import dataclass

from planning.limits.ceilings import grow_week
from planning.limits.racing import SOONEST_TAPER, TAPERS
from planning.limits.record import Outing
from planning.limits.rhythm import LIGHT
from planning.plan.aim import Way, WeekAim, ground_of
from planning.plan.frame import FIRST_MINUTES, Frame
from planning.plan.lengths import BESIDE, LEAST
from planning.plan.onward import next_bout, next_longest, run_days, step_up
from planning.plan.running import NONE, RunDose, Trend, run_dose, run_of
from planning.terms.choices import WeekKind

OF_MEAN = (78, 70, 50)
"""Percent of the mean of the last three full weeks that the days before the taper, days 14-8 and days 7-1 hold
(common practice, no source)."""
EASY_MINUTES = 20
"""Minutes of a walk on the eve of the race, and of one after it, at most (common practice, no source)."""
REST_AFTER_RACE = 3
"""Days after the race before the first walk (common practice, no source)."""
MOST_AFTER_RACE = 3


@dataclass(frozen=True, slots=True)
class Quotas:
    """Minutes that a usual week's set of days holds: before the taper, on days 14-8, on days 7-1."""

    before: int
    early: int
    late: int

    def of(self, left: int) -> int:
        """The quota of a day with *left* days to go to the race."""
        return self.late if left <= 7 else self.early if left <= 14 else self.before


def draw_quotas(way: Way) -> Quotas:
    """Quotas from the peak week and the mean of the last three full weeks; from a first week if there was none yet.

    A week of which something was missed is no full one, unless there is no other.
    """
    totals, planned = way.record.totals, way.planned
    weeks = [each for each, kind in sorted(way.kinds.items()) if each and kind not in LIGHT]
    done = [each for each in weeks if totals.get(each)]
    whole = [each for each in done if totals[each] >= planned.get(each, 0)]
    full = [totals[each] // 60 for each in whole or done]
    full = full or [(FIRST_MINUTES if weeks else way.frame.minutes) * way.frame.count]
    last = full[-3:]
    mean = [sum(last) * percent // (100 * len(last)) for percent in OF_MEAN]
    caps = [max(full) * percent // 100 for _, _, percent in TAPERS]
    return Quotas(mean[0], min(mean[1], caps[0]), min(mean[2], caps[1]))


def weight(frame: Frame, weekday: int) -> int:
    """Parts of a quota that *weekday* gets: the long day two, the others one."""
    return 2 if weekday == frame.long and frame.count > 1 else 1


def part_of(way: Way, on: int, quotas: Quotas) -> int:
    """The minutes of the day *on*: its part of a quota, less if days of the week before took more of it already; what
    was missed there is not made up for."""
    frame, race = way.frame, way.goal.race or 0
    left = race - on
    quota, mine = quotas.of(left), weight(frame, on_weekday(on))
    whole = sum(weight(frame, each) for each in frame.used)
    if left > TAPERS[0][0]:
        return quota * mine // whole
    first, monday = race - (7 if left <= 7 else 14), on - on_weekday(on)
    gone = way.stood | {each.on: each.seconds for each in way.record.outings if each.on >= way.record.now}
    gone = {each: seconds for each, seconds in gone.items() if first <= each < min(first + 7, monday)}
    rest = whole - sum(weight(frame, on_weekday(each)) for each in gone)
    spent = -(-sum(gone.values()) // 60)
    return min(quota * mine // whole, max(0, quota - spent) * mine // max(mine, rest))


def on_weekday(on: int) -> int:
    """Weekday of the ordinal *on*."""
    return (on + 6) % 7


def before_race(way: Way, number: int, quotas: Quotas) -> WeekAim:
    """A week between the longest session and the race, or the days of race week before it."""
    frame, ground, race = way.frame, ground_of(way, number), way.goal.race or 0
    most = frame.minutes if number <= 1 else FIRST_MINUTES if ground.anew else next_longest(frame, ground)
    if ground.own and not ground.anew:
        most = min(most, ground.own // 60 - 1)
    least = LEAST if race - frame.begin < SOONEST_TAPER else 0
    lengths = {}
    for weekday in sorted(ground.open):
        on = frame.day(number, weekday)
        if on < race:
            limit = min(most, EASY_MINUTES if on == race - 1 else most if weekday == frame.long else BESIDE)
            lengths[weekday] = min(limit, max(least, part_of(way, on, quotas)))
    days = tuple(each for each in run_days(way, number, lengths) if race - frame.day(number, each) > 1)
    bout = next_bout(frame, ground, Trend.LEVEL)
    dose = NONE if bout else calm(run_dose(frame, ground, Trend.LEVEL, days), quotas)
    outings = []
    for weekday, minutes in lengths.items():
        run, rep = run_of(dose, weekday, minutes * 60)
        outings.append(Outing(frame.day(number, weekday), minutes * 60, run, rep, bout))
    last = race < frame.day(number + 1, 0)
    return WeekAim(number, WeekKind.RACE if last else WeekKind.TAPER, tuple(outings))


def calm(dose: RunDose, quotas: Quotas) -> RunDose:
    """*dose* cut as the early days of the taper are."""
    most = dose.most * quotas.early // max(1, quotas.before, quotas.early)
    return RunDose(most, dose.rep, dose.days) if most >= dose.rep else NONE


def after_race(way: Way, number: int) -> WeekAim:
    """The week after the race: a few walks, no running, a step above those before the race at most."""
    frame, ground, race = way.frame, ground_of(way, number), way.goal.race or 0
    room = grow_week(ground.highest) // 60
    most = min(MOST_AFTER_RACE, max(1, room // LEAST))
    days = [each for each in sorted(ground.open) if frame.day(number, each) - race >= REST_AFTER_RACE][:most]
    bout = next_bout(frame, ground, Trend.LEVEL)
    step = max(LEAST, step_up(frame, ground.longest // 60))
    minutes = min(EASY_MINUTES, frame.minutes, room // max(1, len(days)), step)
    outings = tuple(Outing(frame.day(number, each), minutes * 60, bout=bout) for each in days)
    return WeekAim(number, WeekKind.RECOVER, outings)
