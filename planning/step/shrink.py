"""A smaller version of a session, for a day on which it is too much to face."""

from planning.step.cap import Cap, stretch_only, under
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Step

SMALLER = (Cap(share=0.75), Cap(share=0.5))
"""The first and the second time. Common practice (a confidence ruler below 7 asks for a smaller step), no source."""

FLOOR_SECONDS = 600
FLOOR = Cap(seconds=FLOOR_SECONDS, runs=False, effort=2)
"""The smallest outing: ten minutes of walking."""


def shrink(session: Session, times: int = 1) -> Step:
    """*session* made smaller for the *times*-th time: twice by a part, then the floor: ten minutes or the stretch."""
    if times <= len(SMALLER):
        return Step(under(session, SMALLER[max(1, times) - 1]), (Reason.NOT_SURE,))
    smaller = under(session, SMALLER[-1])
    floor = under(session, FLOOR) if smaller.seconds > FLOOR_SECONDS else stretch_only(session)
    return Step(floor, (Reason.SMALLEST_VERSION,))
