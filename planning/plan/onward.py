"""One week after another towards the goal: building, easier weeks, holding."""

from planning.limits.ceilings import grow_week, seconds_of
from planning.limits.record import Outing, Record
from planning.limits.running import STRIDE, STRIDES
from planning.plan.aim import WINDOW, WeekAim, full_weeks_in_a_row, lately, mark_long
from planning.plan.frame import BOUT_ENDS, Frame
from planning.plan.goal import GAP, Goal
from planning.plan.lengths import Room, eased, grown
from planning.plan.running import NONE, run_dose, run_of, strides_day
from planning.terms.choices import WeekKind

Kinds = dict[int, WeekKind]
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


def weeks_to(frame: Frame, minutes: int, aim: int) -> int:
    """Weeks that the long session takes from *minutes* to *aim*, easier weeks among them."""
    steps = 0
    while minutes < aim:
        minutes = step_up(frame, minutes)
        steps += 1
    return steps + steps // (EASIER_EVERY - 1)


def longest_lately(frame: Frame, record: Record, number: int) -> int:
    """Minutes of the longest outing that counts for week *number*, nothing that was only said."""
    return max((each.seconds for each in lately(record, frame.day(number, 0))), default=0) // 60


def is_held(frame: Frame, record: Record, goal: Goal, number: int, kinds: Kinds) -> bool:
    """This week keeps what is there: there is time to spare, or no leave to grow."""
    if not frame.may_grow:
        return number > 1
    if number == 1 or number == goal.peak:
        return False
    level = longest_lately(frame, record, number)
    if goal.peak is None:
        return level >= goal.aim or kinds.get(number - 1) is WeekKind.HOLD
    if full_weeks_in_a_row(kinds, record, number):
        return kinds.get(number - 1) is WeekKind.HOLD
    late = number + EASIER_EVERY + weeks_to(frame, level, goal.aim) + SPARE
    return not goal.steady and level >= min(HOLD_FROM, goal.aim // 2) and late <= goal.peak


def is_due_easier(record: Record, goal: Goal, number: int, kinds: Kinds) -> bool:
    """The fourth week at the latest; a week earlier if the week of the longest session would be the fourth."""
    streak = full_weeks_in_a_row(kinds, record, number)
    if number == goal.peak:
        return False
    return streak >= EASIER_EVERY - 1 or (goal.peak is not None and number == goal.peak - 1 and streak == 2)


def is_late(goal: Goal, number: int) -> bool:
    """One of the last eight weeks up to the longest session: they build, even where the session stays level."""
    return goal.peak is not None and number > goal.peak - LATE_WEEKS


def room_of(frame: Frame, record: Record, goal: Goal, number: int, held: bool) -> Room:
    """What week *number* may hold."""
    share = (2, 3) if frame.count == 2 else (3, 5) if is_late(goal, number) and not held else (1, 2)
    if held:
        week = max(record.totals.get(each, 0) for each in range(max(1, number - 4), number)) // 60
        session = longest_lately(frame, record, number)
        long = session if goal.race is not None else min(session, max(goal.aim * 3 // 4, frame.minutes))
        return Room(week, session, long, share)
    week = grow_week(record.highest_week(number)) // 60
    session = step_up(frame, record.longest(frame.day(number, 0), WINDOW) // 60)
    top = goal.aim if goal.peak in (None, number) else max(goal.aim - GAP, frame.minutes)
    return Room(week, session, top, share)


def next_bout(frame: Frame, record: Record, number: int, growing: bool) -> int:
    """Seconds of walking between rests, 0 once walks go on without."""
    recent = lately(record, frame.day(number, 0))
    if not frame.bout or (number > 1 and recent and not any(each.bout for each in recent)):
        return 0
    last = max((each.bout for each in recent), default=0)
    if number <= 1 or not last:
        return frame.bout
    sure = seconds_of(frame.profile.walk_min)
    bout = max(last + max(60, last // 2) // 30 * 30, sure) if growing else last
    return bout if bout < BOUT_ENDS else 0


def outings_of(frame: Frame, record: Record, number: int, lengths: dict[int, int], growth: int) -> tuple[Outing, ...]:
    """The outings of a week with these *lengths* in minutes by weekday. *growth*: 1 growing, 0 holding, -1 easier."""
    bout = next_bout(frame, record, number, growth > 0)
    days = tuple(each for each in frame.runs if each in lengths)
    dose = NONE if bout else run_dose(frame, record, number, growth, days)
    strides = strides_day(frame, record, number, lengths) if dose is NONE and not bout else None
    long = mark_long(number, lengths)
    outings = []
    for weekday in sorted(lengths):
        seconds = lengths[weekday] * 60
        run, rep = (STRIDES, STRIDE) if weekday == strides else run_of(dose, weekday, seconds)
        outings.append(Outing(frame.day(number, weekday), seconds, run, rep, bout, weekday == long))
    return tuple(outings)


def first_week_aim(frame: Frame, record: Record) -> WeekAim:
    """Week 1: the same number of minutes on each day."""
    lengths = dict.fromkeys(frame.used, frame.minutes)
    return WeekAim(1, WeekKind.BUILD, outings_of(frame, record, 1, lengths, 1))


def week_aim(frame: Frame, record: Record, goal: Goal, number: int, kinds: Kinds) -> WeekAim:
    """Week *number* on the way, from what the *record* holds of the weeks before."""
    if number == 1:
        return first_week_aim(frame, record)
    before = record.totals.get(number - 1, 0) // 60
    if is_due_easier(record, goal, number, kinds) and before:
        long_before = longest_lately(frame, record, number)
        session = step_up(frame, record.longest(frame.day(number, 0), WINDOW) // 60)
        lengths = eased(frame, before, long_before, session)
        return WeekAim(number, WeekKind.EASIER, outings_of(frame, record, number, lengths, -1))
    held = is_held(frame, record, goal, number, kinds)
    room = room_of(frame, record, goal, number, held)
    lengths = grown(frame, room)
    still = longest_lately(frame, record, number)
    full = not held and number != goal.peak and not is_late(goal, number)
    if full and max(lengths.values()) <= still and still >= goal.aim - GAP:
        lengths = grown(frame, room_of(frame, record, goal, number, held=True))
        return WeekAim(number, WeekKind.HOLD, outings_of(frame, record, number, lengths, 1))
    kind = WeekKind.HOLD if held else WeekKind.BUILD
    return WeekAim(number, kind, outings_of(frame, record, number, lengths, 0 if held else 1))
