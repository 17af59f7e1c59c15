"""The rest of a session that is going badly right now: small minutes, all of which count."""

from planning.terms.choices import Do
from planning.terms.plan import Segment, Session
from planning.terms.steps import Rescue

MINUTE = 60
UNKNOWN_LEFT_SECONDS = 600
"""How much is offered when nobody knows how far they got: ten minutes, and no more than half of it."""


def rescue(session: Session, done_min: float | None) -> Rescue:
    """What is left of *session* after *done_min* minutes: a standing rest, then slow walking minute by minute.

    Never more than what was left; nothing left gives no segments.
    """
    left = _left(session, done_min)
    rest = min(MINUTE, left)
    full, over = divmod(left - rest, MINUTE)
    lengths = (*(MINUTE,) * full, *((over,) if over else ()))
    resting = (Segment(Do.REST, rest),) if rest else ()
    return Rescue(left, resting + tuple(Segment(Do.WALK, each) for each in lengths))


def _left(session: Session, done_min: float | None) -> int:
    if done_min is None:
        return min(UNKNOWN_LEFT_SECONDS, session.seconds // 2)
    done = min(max(0.0, done_min) * 60, session.seconds)
    return session.seconds - round(done)
