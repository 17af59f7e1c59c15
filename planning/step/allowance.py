"""May effort rise where minutes are lost? Decided from what was logged, never from what was planned."""

from collections import Counter
from collections.abc import Iterable
from datetime import date, timedelta

from planning.facts import load
from planning.terms.choices import Activity, Purpose
from planning.terms.entry import Entry, History, Status
from planning.terms.person import Profile
from planning.terms.plan import Session
from planning.terms.steps import Allowance

LIMITS = load("allowance")
UNCOUNTED = frozenset({Activity.STRETCH, Activity.STRENGTH})


def allowance(
    profile: Profile, history: History, session: Session, sessions: Iterable[Session], today: date, *, hot: bool = False
) -> Allowance:
    """How far effort may rise when *session* has to be shorter.

    *sessions*: those of the days around it; *hot*: the weather is above the first band of the heat index. Nothing rises
    on an open flag, after illness, with known disease, signs or pregnancy, or within a day of a long or brisk session.
    """
    if hot or _barred(profile, history, today) or _near_hard(session, sessions):
        return Allowance.NONE
    weeks = steady_weeks(history.entries, today)
    if weeks < LIMITS["by_two_weeks"]:
        return Allowance.NONE
    if weeks < LIMITS["parity_weeks"]:
        return Allowance.BY_TWO
    return Allowance.PARITY_TO_SIX if _careful(profile) else Allowance.PARITY


def steady_weeks(entries: Iterable[Entry], today: date) -> int:
    """Full weeks in a row before this one in which enough sessions were logged; two on one day are one."""
    days = {each.on for each in entries if each.status is Status.DONE and each.kind not in UNCOUNTED}
    counts = Counter(_monday(on) for on in days)
    monday, weeks = _monday(today) - timedelta(days=7), 0
    while counts[monday] >= LIMITS["sessions_a_week"]:
        monday, weeks = monday - timedelta(days=7), weeks + 1
    return weeks


def _monday(on: date) -> date:
    return on - timedelta(days=on.weekday())


def _barred(profile: Profile, history: History, today: date) -> bool:
    screen = profile.screen
    flagged = any(each.cleared_on is None for each in history.flags)
    recent = today - timedelta(days=LIMITS["ill_days"])
    ill = any(each.ill and (each.last is None or each.last >= recent) for each in history.breaks)
    return flagged or ill or screen.disease or screen.signs or screen.pregnant


def _near_hard(session: Session, sessions: Iterable[Session]) -> bool:
    """Near a long session nothing rises; and as it will count as brisk, nothing hard may lie next to it."""
    hard = (Purpose.LONG, Purpose.BRISK, Purpose.RACE)
    near = [each for each in sessions if 0 < abs((each.on - session.on).days) <= LIMITS["long_days"]]
    return session.purpose in (Purpose.LONG, Purpose.RACE) or any(each.purpose in hard for each in near)


def _careful(profile: Profile) -> bool:
    """Above the limits of weight or age, or one of them not said."""
    bmi, age = profile.bmi, profile.age
    return bmi is None or age is None or bmi >= LIMITS["careful_bmi"] or age >= LIMITS["careful_age"]
