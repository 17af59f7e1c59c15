"""Why a plan looks as it does: each choice with the name of the limit behind it."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from planning.limits import LIMITS
from planning.limits.rule import Rule
from planning.terms.choices import Do, Purpose, WeekKind
from planning.terms.plan import Plan, Session, Week, total_seconds

BEHIND_KIND = {
    WeekKind.START: "first_week",
    WeekKind.BUILD: "week_growth",
    WeekKind.EASIER: "easier_week",
    WeekKind.HOLD: "longest_before_race",
    WeekKind.TAPER: "taper",
    WeekKind.RACE: "taper",
    WeekKind.RECOVER: "recover",
}


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice in a plan: the day it is for, what was chosen, and the limit behind it."""

    on: date
    what: str
    rule: Rule


def choices(plan: Plan) -> Iterator[Choice]:
    """Every choice of *plan* in order: what each week and each session is, with the limit that it follows."""
    rules = {each.name: each for each in LIMITS}
    for week in plan.weeks:
        yield Choice(week.monday, f"week {week.number}: {week.kind.value}", rules[behind_week(week)])
        for session in week.sessions:
            yield Choice(session.on, what_of(session), rules[behind_session(week, session)])
        for each in week.strength:
            yield Choice(each.on, "strength", rules["strength"])


def behind_week(week: Week) -> str:
    """The limit that shaped *week* most."""
    return "first_week" if week.number <= 1 else BEHIND_KIND[week.kind]


def what_of(session: Session) -> str:
    """A session in two words."""
    return f"{session.purpose.value} {session.minutes:g} min"


def behind_session(week: Week, session: Session) -> str:
    """The limit that shaped *session* most."""
    if session.purpose is Purpose.RACE:
        return "longest_before_race"
    if session.run_seconds:
        return "first_runs" if week.number <= 1 else "run_growth"
    if total_seconds(session.segments, Do.REST):
        return "first_walks"
    if session.purpose is Purpose.LONG:
        return "long_share"
    return "first_session" if week.number <= 1 else "session_growth"
