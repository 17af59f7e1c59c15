"""One step up: a larger session for those who ask for it, as far as every limit leaves room."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import timedelta

from planning.limits.ceilings import first_session, grow_run, grow_session
from planning.limits.rule import first_monday
from planning.plan.happened import breaks_off
from planning.terms.choices import Do
from planning.terms.entry import Break
from planning.terms.person import Profile
from planning.terms.plan import Segment, Session
from planning.terms.reasons import Reason
from planning.terms.steps import Ceiling, Step

UP_SHARE, UP_SECONDS = 1.1, 300
"""The larger of 10 % and 5 minutes, where the limits of growth leave room."""


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


def ceiling(profile: Profile, before: Iterable[Session], breaks: Iterable[Break], session: Session) -> Ceiling:
    """The most that *session* may hold. *before*: sessions of the last 30 days that were done.

    In week 0 and week 1 that is what was surely doable; in the first days after an illness it is the session itself.
    Limits of whole weeks are not looked at: the plan that is made anew keeps them, and leaves out what breaks one.
    """
    as_it_is = Ceiling(session.seconds, session.run_seconds)
    if breaks_off(tuple(breaks), session.on.toordinal()).well_since(session.on.toordinal()) is not None:
        return as_it_is
    if session.on < first_monday(profile.begin) + timedelta(days=7):
        return replace(as_it_is, seconds=first_session(profile))
    done = tuple(before)
    running = max((each.run_seconds for each in done), default=session.run_seconds)
    longest = max((each.seconds for each in done), default=session.seconds)
    return Ceiling(grow_session(longest), grow_run(running) if running else 0)
