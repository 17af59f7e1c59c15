"""The session fitted into the time that there is."""

from dataclasses import replace

from planning.step.cap import LEAST_SECONDS, stretch_only
from planning.step.cut import cut
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Segment, Session, total_seconds
from planning.terms.reasons import Reason
from planning.terms.steps import Allowance, Step

CAPS = {Allowance.BY_TWO: 5, Allowance.PARITY: 7, Allowance.PARITY_TO_SIX: 6}
"""Highest CR-10 effort that a shorter session may rise to. Common practice; sudden heavy effort is what the untrained
must be kept from (Mittleman et al. 1993, New England Journal of Medicine 329:1677).
"""

RISES = {Allowance.BY_TWO: 2}
"""Most CR-10 points by which effort may rise; otherwise until minutes x effort is what it was (session load: Foster et
al. 2001, Journal of Strength and Conditioning Research 15:109).
"""

TURN_SECONDS = 60
"""Hard and easy by turns: a minute each."""


def resize(session: Session, have_min: float, allowance: Allowance = Allowance.NONE) -> Step:
    """*session* in *have_min* minutes, on its day, at its hour, never longer than it was.

    Below 5 minutes it is the stretch alone. At the same ease, unless *allowance* lets effort rise for the lost minutes:
    then a hard and a walked minute go by turns, and it counts as brisk.
    """
    seconds = int(min(have_min * 60, session.seconds))
    if seconds >= session.seconds:
        return Step(session, (Reason.AS_PLANNED,))
    if seconds < LEAST_SECONDS:
        return Step(stretch_only(session), (Reason.SHORTER_TIME, Reason.STRETCH_ALONE))
    harder = _by_turns(session, seconds, allowance)
    if harder is None:
        shorter = replace(session, segments=cut(session.segments, seconds))
        return Step(shorter, (Reason.SHORTER_TIME, Reason.SAME_EASE))
    reason = Reason.EFFORT_BY_TWO if allowance is Allowance.BY_TWO else Reason.LOAD_PARITY
    return Step(harder, (Reason.SHORTER_TIME, reason))


def raised(effort: int, was_seconds: int, seconds: int, allowance: Allowance) -> int:
    """CR-10 effort that *allowance* gives for *seconds* in place of *was_seconds*: whole points, never a lower one."""
    if allowance is Allowance.NONE:
        return effort
    parity = effort * was_seconds // seconds
    risen = min(parity, effort + RISES.get(allowance, parity), CAPS[allowance])
    return max(effort, risen)


def _by_turns(session: Session, seconds: int, allowance: Allowance) -> Session | None:
    """Hard and walked minutes by turns at a risen effort; None where effort may not rise by a whole point."""
    low, high = session.effort
    rise = raised(high, session.seconds, seconds, allowance) - high
    if rise <= 0 or session.purpose not in (Purpose.EASY, Purpose.BRISK):
        return None
    segments = _turns(_hard(session), seconds, session.run_seconds)
    return replace(session, segments=segments, purpose=Purpose.BRISK, effort=(low + rise, high + rise))


def _hard(session: Session) -> Do:
    """What the hard minutes are: running only where a run of a minute or more was in the session."""
    ran = any(each.do is Do.RUN and each.seconds >= TURN_SECONDS for each in session.segments)
    return Do.RUN if ran else Do.WALK


def _turns(hard: Do, seconds: int, run_seconds: int) -> tuple[Segment, ...]:
    """Walk in, then turns of hard and walk until the time is up; no more running than there was."""
    lead = max(2 * TURN_SECONDS, seconds // 10 // TURN_SECONDS * TURN_SECONDS)
    count = (seconds - lead) // (2 * TURN_SECONDS)
    if hard is Do.RUN:
        count = min(count, run_seconds // TURN_SECONDS)
    turns = (Segment(hard, TURN_SECONDS), Segment(Do.WALK, TURN_SECONDS)) * count
    spare = seconds - lead - total_seconds(turns)
    return (Segment(Do.WALK, lead + spare), *turns)
