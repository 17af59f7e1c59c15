"""What a sore, tired or doubtful day still can: the session eased, swapped, a step lower, or made smaller."""

from planning.step.cap import Cap, lower_effort, stretch_only, under
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Step

EASED = Cap(share=0.75, runs=False, effort=3)
"""Shorter, walking alone, at most moderate. Common practice, no source."""

SWAPPED = Cap(share=0.75, runs=False, effort=3, cross=True)

SOFTENED = Cap(effort=3)
"""As long as it was, at most moderate: "one step lower" of a bad night or a normal soreness. Common practice."""

SMALLER = (Cap(share=0.75), Cap(share=0.5))
"""The first and the second time. Common practice (a confidence ruler below 7 asks for a smaller step), no source."""

DOWN = Cap(share=0.8)
LEAST_EFFORT = 2
"""One step down: shorter, and a point less of effort, down to easy. Common practice, no source."""

FLOOR_SECONDS = 600
FLOOR = Cap(seconds=FLOOR_SECONDS, runs=False, effort=2)
"""The smallest outing: ten minutes of walking."""


def ease(session: Session) -> Session:
    """*session* without running, shorter, at an effort of 3 at most."""
    return under(session, EASED)


def swap(session: Session) -> Session:
    """Something without impact in the place of *session*: at most its minutes, effort 2 to 3."""
    return under(session, SWAPPED)


def soften(session: Session) -> Session:
    """*session* as long as it was, at an effort of 3 at most."""
    return under(session, SOFTENED)


def step_down(session: Session, why: Reason = Reason.ASKED_EASIER) -> Step:
    """*session* a step lower: shorter, and a point of effort less."""
    return Step(lower_effort(under(session, DOWN), max(LEAST_EFFORT, session.effort[1] - 1)), (why,))


def shrink(session: Session, times: int = 1) -> Step:
    """*session* made smaller for the *times*-th time: twice by a part, then the floor: ten minutes or the stretch."""
    if times <= len(SMALLER):
        return Step(under(session, SMALLER[max(1, times) - 1]), (Reason.NOT_SURE,))
    smaller = under(session, SMALLER[-1])
    floor = under(session, FLOOR) if smaller.seconds > FLOOR_SECONDS else stretch_only(session)
    return Step(floor, (Reason.SMALLEST_VERSION,))
