"""One step up: a larger session for those who ask for it, as far as every limit leaves room."""

from dataclasses import replace
from datetime import date

from planning.limits import Past, check
from planning.limits.ceilings import grow_run, grow_run_week, grow_session, grow_week
from planning.limits.rule import lay_out
from planning.plan.happened import look_back
from planning.terms.choices import Do, WeekKind
from planning.terms.entry import Fixed, History
from planning.terms.person import Profile
from planning.terms.plan import Plan, Segment, Session, Week
from planning.terms.reasons import Reason
from planning.terms.steps import Ceiling, Step

UP_SHARE, UP_SECONDS = 1.1, 300
"""The larger of 10 % and 5 minutes, where the limits of growth leave room."""

GROWING = frozenset({WeekKind.START, WeekKind.BUILD, WeekKind.HOLD})
"""Easier weeks, the taper and what follows the race are left as they are."""

PARTS = (1.0, 0.5)
"""How much of the room is tried: all of it, then half."""


def step_up(session: Session, ceiling: Ceiling, why: Reason = Reason.ASKED_HARDER) -> Step:
    """*session* a step longer, as far as *ceiling* leaves room: one more run if it may, the rest as walking."""
    wanted = max(int(session.seconds * UP_SHARE) // 60 * 60, session.seconds + UP_SECONDS)
    seconds = min(wanted, ceiling.seconds)
    if seconds <= session.seconds or not session.segments:
        return Step(session, (why, Reason.GROWTH_LIMIT))
    segments = _with_one_more_run(session, seconds, ceiling.run_seconds)
    free = seconds - sum(each.seconds for each in segments)
    limited = (Reason.GROWTH_LIMIT,) if seconds < wanted else ()
    return Step(replace(session, segments=_lengthened(segments, free)), (why, *limited))


def _with_one_more_run(session: Session, seconds: int, run_seconds: int) -> tuple[Segment, ...]:
    """The first run and the walk after it once more, if both the time and the running leave room for them."""
    places = [index for index, each in enumerate(session.segments) if each.do is Do.RUN]
    if not places:
        return session.segments
    again = session.segments[places[0] : places[0] + 2]
    fits = session.seconds + sum(each.seconds for each in again) <= seconds
    allowed = session.run_seconds + again[0].seconds <= run_seconds
    return (
        (*session.segments[: places[0]], *again, *session.segments[places[0] :])
        if fits and allowed
        else session.segments
    )


def _lengthened(segments: tuple[Segment, ...], seconds: int) -> tuple[Segment, ...]:
    """*segments* with *seconds* more at the end."""
    last = segments[-1]
    if last.do is Do.RUN:
        return (*segments, Segment(Do.WALK, seconds)) if seconds else segments
    return (*segments[:-1], Segment(last.do, last.seconds + seconds))


def harder(
    plan: Plan, profile: Profile, history: History, session: Session, today: date, why: Reason = Reason.ASKED_HARDER
) -> Step:
    """*session* of *plan* a step up.

    As it is, with `GROWTH_LIMIT`, where any step would break a limit, and in weeks that are meant to be easier.
    """
    week = next(each for each in plan.weeks if session in each.sessions)
    if week.kind not in GROWING:
        return Step(session, (why, Reason.GROWTH_LIMIT))
    stood = replace(history, fixed=(*history.fixed, Fixed(session.on, session)))
    past = look_back(plan, stood, today).past(profile)
    top = ceiling(plan, profile, past, week, session)
    known = set(check(plan, profile, past))
    for part in PARTS:
        room = int((top.seconds - session.seconds) * part) // 60 * 60
        step = step_up(session, Ceiling(session.seconds + room, top.run_seconds), why)
        if step.session != session and known.issuperset(check(_with(plan, step.session), profile, past)):
            return step
    return Step(session, (why, Reason.GROWTH_LIMIT))


def ceiling(plan: Plan, profile: Profile, past: Past, week: Week, session: Session) -> Ceiling:
    """The most that *session* may hold by what was done before it, and by what else its *week* holds."""
    record, on = lay_out(plan, profile, past).record, session.on.toordinal()
    number = record.number(on)
    seconds = grow_week(record.highest_week(number, on)) - (week.seconds - session.seconds)
    runs = grow_run_week(record.run_week(number, on)) - (week.run_seconds - session.run_seconds)
    return Ceiling(min(seconds, grow_session(record.longest(on))), min(runs, grow_run(record.best_run(on))))


def _with(plan: Plan, session: Session) -> Plan:
    """*plan* with *session* in the place of the one of its day."""
    return replace(plan, weeks=tuple(_exchanged(week, session) for week in plan.weeks))


def _exchanged(week: Week, session: Session) -> Week:
    return replace(week, sessions=tuple(session if each.on == session.on else each for each in week.sessions))
