"""One week after another towards the goal: building, easier weeks, holding."""

from collections.abc import Mapping

from planning.limits.ceilings import FIRST_WEEK, grow_week, seconds_of
from planning.limits.record import Outing
from planning.limits.running import STRIDE, STRIDES
from planning.plan.aim import Ground, Way, WeekAim, full_weeks_in_a_row, ground_of, mark_long
from planning.plan.frame import BOUT_ENDS, FIRST_MINUTES, Frame
from planning.plan.goal import GAP, Goal
from planning.plan.lengths import Room, eased, easier_total, evened, grown, level
from planning.plan.running import NONE, RunDose, Trend, run_dose, run_of, strides_day
from planning.terms.choices import WeekKind

EASIER_EVERY = 4
LATE_WEEKS = 8
LEAST_STEP = 5
"""Minutes that a long session grows by at least."""
HOLD_FROM = 60
"""Minutes of the long session from which on spare weeks are held rather than built on."""
SPARE = 4
"""Weeks kept in hand before a block of weeks is held."""


def step_up(frame: Frame, minutes: int) -> int:
    """The next long session after one of *minutes*."""
    return minutes + max(minutes * frame.percent // 100, LEAST_STEP)


def next_longest(frame: Frame, ground: Ground) -> int:
    """Minutes that the longest session of a week may have, by those before it or by what everybody may be asked for."""
    return max(ground.again // 60, step_up(frame, ground.longest // 60))


def weeks_to(frame: Frame, minutes: int, aim: int) -> int:
    """Weeks that the long session takes from *minutes* to *aim*, easier weeks among them."""
    steps = 0
    while minutes < aim:
        minutes = step_up(frame, minutes)
        steps += 1
    return steps + steps // (EASIER_EVERY - 1)


def is_held(way: Way, ground: Ground) -> bool:
    """This week keeps what is there: there is time to spare, or no leave to grow."""
    number, goal = ground.number, way.goal
    if not way.frame.may_grow:
        return number > 1
    if number == 1 or number == goal.peak or ground.anew:
        return False
    minutes = ground.own // 60
    held_before = way.kinds.get(number - 1) is WeekKind.HOLD
    if goal.peak is None:
        return minutes >= goal.aim or held_before
    if full_weeks_in_a_row(way, number):
        return held_before
    if goal.steady or minutes < min(HOLD_FROM, goal.aim // 2):
        return False
    soonest = number + EASIER_EVERY + SPARE
    ahead = ((goal.peak, goal.aim), *way.asked)
    return all(soonest + weeks_to(way.frame, minutes, aim) <= week for week, aim in ahead)


def is_due_easier(way: Way, number: int) -> bool:
    """The fourth week at the latest; a week earlier if the week of the longest session would be the fourth."""
    streak, peak = full_weeks_in_a_row(way, number), way.goal.peak
    if number == peak:
        return False
    return streak >= EASIER_EVERY - 1 or (peak is not None and number == peak - 1 and streak == EASIER_EVERY - 2)


def is_late(goal: Goal, number: int) -> bool:
    """One of the last eight weeks up to the longest session: they build, even where the session stays level."""
    return goal.peak is not None and number > goal.peak - LATE_WEEKS


def share_of(way: Way, count: int, number: int, held: bool) -> tuple[int, int]:
    """Largest share of its week that the long one of *count* sessions may have, as a fraction."""
    late = is_late(way.goal, number) and not held
    return (2, 3) if count == 2 else (3, 5) if late or way.goal.scouting else (1, 2)


def room_of(way: Way, ground: Ground, held: bool) -> Room:
    """What a week may hold."""
    goal, usual = way.goal, way.frame.minutes
    share = share_of(way, len(ground.open), ground.number, held)
    again = ground.again // 60
    if held:
        session = max(again, ground.own // 60)
        long = session if goal.race is not None else min(session, max(goal.aim * 3 // 4, usual))
        week = min(ground.own_week, grow_week(ground.highest)) // 60
        return Room(max(again * way.frame.count, week), session, long, share, usual)
    week = max(again * way.frame.count, grow_week(ground.highest) // 60)
    session = max(again, ground.longest // 60) if ground.back else next_longest(way.frame, ground)
    top = goal.aim if goal.peak in (None, ground.number) else max(goal.aim - GAP, usual)
    return Room(week, session, top, share, usual)


def next_bout(frame: Frame, ground: Ground, trend: Trend) -> int:
    """Seconds of walking between rests, 0 once walks go on without."""
    if ground.number <= 1 or ground.bout is None:
        return frame.bout
    if not ground.bout:
        return 0
    if trend is not Trend.GROWING:
        return ground.bout
    bout = max(ground.bout + max(60, ground.bout // 2) // 30 * 30, seconds_of(frame.profile.walk_min))
    return bout if bout < BOUT_ENDS else 0


def run_days(way: Way, number: int, lengths: Mapping[int, int]) -> tuple[int, ...]:
    """Weekdays of this week that may hold running: never the day after one with runs or strides."""
    frame, last = way.frame, way.record.outings[-1:]
    tired = {each.on + 1 for each in last if each.run}
    days = {each: frame.day(number, each) for each in frame.runs if each in lengths}
    return tuple(each for each, on in days.items() if on not in tired and not way.off.walks(on))


def outings_of(way: Way, ground: Ground, lengths: Mapping[int, int], trend: Trend) -> tuple[Outing, ...]:
    """The outings of a week with these *lengths* in minutes by weekday."""
    frame, number = way.frame, ground.number
    bout = next_bout(frame, ground, trend)
    dose = NONE if bout else run_dose(frame, ground, trend, run_days(way, number, lengths))
    strides = strides_day(frame, ground, lengths) if dose is NONE and not bout else None
    if strides is not None and way.off.walks(frame.day(number, strides)):
        strides = None
    long = mark_long(number, lengths) if may_be_long(way, ground) else None
    return write_outings(frame, number, lengths, dose, (bout, strides, long))


def write_outings(
    frame: Frame, number: int, lengths: Mapping[int, int], dose: RunDose, extra: tuple[int, int | None, int | None]
) -> tuple[Outing, ...]:
    """Outings in order of day. *extra*: seconds of walking between rests, weekdays of strides and long session."""
    bout, strides, long = extra
    outings = []
    for weekday in sorted(lengths):
        seconds = lengths[weekday] * 60
        run, rep = (STRIDES, STRIDE) if weekday == strides else run_of(dose, weekday, seconds)
        outings.append(Outing(frame.day(number, weekday), seconds, run, rep, bout, weekday == long))
    return tuple(outings)


def first_week_aim(way: Way, ground: Ground) -> WeekAim:
    """Week 1, or the first one after a long gap: the same number of minutes on each day."""
    minutes = FIRST_MINUTES if ground.anew else way.frame.minutes
    most = FIRST_WEEK // 60 // minutes if ground.anew else len(ground.open)
    lengths = dict.fromkeys(ground.open[:most], minutes)
    return WeekAim(ground.number, WeekKind.BUILD, outings_of(way, ground, lengths, Trend.LEVEL))


def easier_week_aim(way: Way, ground: Ground, before: int) -> WeekAim:
    """An easier week after one of *before* seconds."""
    session = step_up(way.frame, ground.longest // 60)
    closed = [each for each in way.frame.used if each not in ground.open]
    raced = sum(way.frame.day(ground.number, each) in way.races for each in closed)
    if may_be_long(way, ground) and not closed:
        lengths = eased(ground.open, before, ground.own // 60, session)
    else:
        total = easier_total(before) * (len(ground.open) + raced) // way.frame.count
        lengths = evened(ground.open, total, session, way.frame.long)
    return WeekAim(ground.number, WeekKind.EASIER, outings_of(way, ground, lengths, Trend.EASIER))


def week_aim(way: Way, number: int) -> WeekAim:
    """Week *number* on the way, from what the record holds of the weeks before."""
    ground = ground_of(way, number)
    if number == 1 or ground.anew or not ground.open:
        return first_week_aim(way, ground)
    before = way.record.totals.get(number - 1, 0)
    if before and is_due_easier(way, number):
        return easier_week_aim(way, ground, before)
    held = is_held(way, ground)
    lengths = lengths_of(way, ground, held)
    full = not (held or way.goal.steady or number == way.goal.peak or is_late(way.goal, number))
    if full and max(lengths.values()) * 60 <= ground.own and ground.own >= (way.goal.aim - GAP) * 60:
        lengths = lengths_of(way, ground, held=True)
        return WeekAim(number, WeekKind.HOLD, outings_of(way, ground, lengths, Trend.GROWING))
    kind = WeekKind.HOLD if held else WeekKind.BUILD
    trend = Trend.LEVEL if held or ground.back else Trend.GROWING
    return WeekAim(number, kind, outings_of(way, ground, lengths, trend))


def lengths_of(way: Way, ground: Ground, held: bool) -> Mapping[int, int]:
    """Minutes by weekday; no long session when its day is closed, the first week again where growth leaves no more."""
    if ground.again and grow_week(ground.highest) <= ground.again * way.frame.count:
        return dict.fromkeys(ground.open, ground.again // 60)
    room = room_of(way, ground, held)
    return grown(ground.open, room) if may_be_long(way, ground) else level(ground.open, room)


def may_be_long(way: Way, ground: Ground) -> bool:
    """The long session may stand on its day this week."""
    long = way.frame.long
    return long in ground.open and way.frame.day(ground.number, long) not in way.barred
