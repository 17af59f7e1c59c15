"""The past of a plan: weeks as they stood, joined to what follows."""

from dataclasses import replace
from datetime import date, timedelta

from planning.plan.happened import Happened
from planning.terms.choices import Purpose, WeekKind
from planning.terms.plan import Week

LAST_WEEKS = 4
"""Weeks that reach back to the beginning of a taper."""


def past_part(week: Week, cut: date) -> Week:
    """What of *week* lies before the day *cut*."""
    sessions = tuple(each for each in week.sessions if each.on < cut)
    return replace(week, sessions=sessions, strength=tuple(each for each in week.strength if each.on < cut))


def future_part(week: Week, cut: date) -> Week:
    """What of *week* lies on the day *cut* or later."""
    if week.monday >= cut:
        return week
    sessions = tuple(each for each in week.sessions if each.on >= cut)
    return replace(week, sessions=sessions, strength=tuple(each for each in week.strength if each.on >= cut))


def past_weeks(happened: Happened) -> list[Week]:
    """The weeks that began before the cut, without their days from then on; weeks that were held back are empty,
    and count as easier."""
    cut = date.fromordinal(happened.cut)
    weeks = [past_part(each, cut) for each in happened.before.weeks if each.monday < cut]
    while weeks and weeks[-1].monday + timedelta(days=7) < cut:
        last = weeks[-1]
        weeks.append(Week(last.number + 1, last.monday + timedelta(days=7), WeekKind.EASIER, ()))
    return weeks


def last_days(past: list[Week]) -> dict[int, int]:
    """Seconds planned for each day with a session of the last of the *past* weeks, races left out, by ordinal."""
    sessions = [each for week in past[-LAST_WEEKS:] for each in week.sessions]
    return {each.on.toordinal(): each.seconds for each in sessions if each.purpose is not Purpose.RACE}


def join_past(happened: Happened, weeks: list[Week]) -> list[Week]:
    """The past as it stood, then *weeks*; the week of the cut has a part of both."""
    cut = date.fromordinal(happened.cut)
    past = {each.number: each for each in past_weeks(happened)}
    joined = [each for number, each in past.items() if not weeks or number < weeks[0].number]
    for week in weeks:
        old = past.get(week.number)
        new = future_part(week, cut)
        if old:
            both, strength = (*old.sessions, *new.sessions), (*old.strength, *new.strength)
            new = replace(week, sessions=both, strength=strength)
        joined.append(new)
    return joined


def raced_before(happened: Happened) -> list[int]:
    """Ordinals of the races that are over."""
    races = [each.on.toordinal() for each in happened.before.sessions if each.purpose is Purpose.RACE]
    return [each for each in races if each < happened.cut]
