"""The plan after what really happened: the past stands, the rest follows from what counts of it.

Stability: every week is a function of the weeks before it as they were really done, so unchanged facts give the
unchanged plan, and a plan that is done as planned is a fixed point.
"""

from dataclasses import replace
from datetime import date

from planning.limits import Breach, check
from planning.plan.build import build_plan, first_safe, more_and_more_careful, plan_in
from planning.plan.frame import draw_frame
from planning.plan.goal import week_of
from planning.plan.happened import Happened, look_back
from planning.plan.pasts import past_weeks
from planning.plan.warnings import Warn, screening_of
from planning.terms.entry import History
from planning.terms.person import Profile
from planning.terms.plan import Plan


def replan(profile: Profile, history: History, today: date, before: Plan | None = None) -> Plan:
    """The plan for *profile* from *today* on.

    *history*: all that happened up to now; *before*: the plan as it stood, whose past days never change; without it the
    plan that was made on the first day. A change by people that would break a limit is left out, with a warning.
    """
    stood = before or build_plan(replace(profile, cleared=True) if screening_of(profile) else profile)
    happened = look_back(stood, history, today)
    barred = screening_of(profile)
    if barred or happened.red:
        return held_plan(stood, happened, profile, barred or (Warn.RED_FLAG,))
    if not is_open(happened, profile):
        return stood
    return within_limits(profile, happened)


def is_open(happened: Happened, profile: Profile) -> bool:
    """Something of the plan may still change: a race plan ends with the week after its race."""
    if profile.race is None:
        return True
    return week_of(profile, happened.cut) <= week_of(profile, profile.race.on.toordinal()) + 1


def within_limits(profile: Profile, happened: Happened) -> Plan:
    """The plan with as many of the changes by people as the limits allow; a more careful one if that is not enough."""
    frames, past = more_and_more_careful(draw_frame(profile)), happened.past(profile)
    plan = plan_in(frames[0], happened)
    breaches = check(plan, profile, past)
    if not breaches:
        return plan
    if happened.fixed:
        plan = within_limits(profile, without_changes(happened, breaches))
        refused = () if Warn.FIXED_TRIMMED in plan.warnings else (Warn.FIXED_TRIMMED,)
        return replace(plan, warnings=(*plan.warnings, *refused))
    plans = (plan_in(frame, happened) for frame in frames)
    return first_safe(plans, profile, past) or held_plan(happened.before, happened, profile, (Warn.KEPT_SMALL,))


def without_changes(happened: Happened, breaches: tuple[Breach, ...]) -> Happened:
    """*happened* without the changes in the weeks of the *breaches*, or without any if none lies there."""
    weeks = {each.on.toordinal() - each.on.weekday() for each in breaches}
    kept = tuple(each for each in happened.fixed if each.on.toordinal() - each.on.weekday() not in weeks)
    return replace(happened, fixed=kept if len(kept) < len(happened.fixed) else ())


def held_plan(stood: Plan, happened: Happened, profile: Profile, warnings: tuple[str, ...]) -> Plan:
    """No session from the cut on, until a clinician or a "clear" says otherwise."""
    weeks = tuple(past_weeks(happened))
    may_start = Warn.SEE_DOCTOR not in warnings
    return Plan(stood.who, stood.begin, may_start, profile.race is None, stood.earliest_race, weeks, None, warnings)
