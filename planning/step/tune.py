"""One step down, one step up: what "easier", "harder", too hard twice and too easy for a week ask for."""

from dataclasses import replace

from planning.step.cap import Cap, lower_effort, under
from planning.terms.choices import Do
from planning.terms.plan import Segment, Session
from planning.terms.reasons import Reason
from planning.terms.steps import Ceiling, Step

DOWN = Cap(share=0.8)
"""One step down. Common practice, no source."""

UP_SHARE, UP_SECONDS = 1.1, 300
"""One step up: the larger of 10 % and 5 minutes, where the limits of growth leave room."""

LEAST_EFFORT = 2


def step_down(session: Session, why: Reason = Reason.ASKED_EASIER) -> Step:
    """*session* a step lower: shorter, and a point of effort less."""
    down = lower_effort(under(session, DOWN), max(LEAST_EFFORT, session.effort[1] - 1))
    return Step(down, (why,))


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
