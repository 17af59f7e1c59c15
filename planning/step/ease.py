"""What a sore body still can: the session eased, swapped for something without impact, or a step lower."""

from planning.step.cap import Cap, under
from planning.terms.plan import Session

EASED = Cap(share=0.75, runs=False, effort=3)
"""Shorter, walking alone, at most moderate. Common practice, no source."""

SWAPPED = Cap(share=0.75, runs=False, effort=3, cross=True)

SOFTENED = Cap(effort=3)
"""As long as it was, at most moderate: "one step lower" of a bad night or a normal soreness. Common practice."""


def ease(session: Session) -> Session:
    """*session* without running, shorter, at an effort of 3 at most."""
    return under(session, EASED)


def swap(session: Session) -> Session:
    """Something without impact in the place of *session*: at most its minutes, effort 2 to 3."""
    return under(session, SWAPPED)


def soften(session: Session) -> Session:
    """*session* as long as it was, at an effort of 3 at most."""
    return under(session, SOFTENED)
