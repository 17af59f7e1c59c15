"""The one way in which bad news makes a session smaller: every rule gives a cap, the tightest of all is kept.

So two rules can never add up to a larger step than one of them, and a graver sign never to a larger one than a lighter.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from planning.step.cut import cut
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Segment, Session, total_seconds

LEAST_SECONDS = 300
"""Below five minutes the stretch alone is done."""

STRETCH = (Segment(Do.STRETCH, 300),)
"""What stands after each session. Common practice, no source."""

NO_LIMIT = 10
STRETCH_EFFORT = (0, 1)


@dataclass(frozen=True, slots=True)
class Cap:
    """Upper limits for a session.

    *share*: part of its minutes, 0 to 1; *seconds*: minutes at most, None: any; *runs*: running stays in; *effort*:
    CR-10 rating at most; *cross*: something without impact takes its place.
    """

    share: float = 1.0
    seconds: int | None = None
    runs: bool = True
    effort: int = NO_LIMIT
    cross: bool = False


def tightest(caps: Iterable[Cap]) -> Cap:
    """The cap that keeps every one of *caps*; without any, no limit."""
    kept = Cap()
    for each in caps:
        limits = [limit for limit in (kept.seconds, each.seconds) if limit is not None]
        kept = Cap(
            share=min(kept.share, each.share),
            seconds=min(limits, default=None),
            runs=kept.runs and each.runs,
            effort=min(kept.effort, each.effort),
            cross=kept.cross or each.cross,
        )
    return kept


def kindly(seconds: float) -> int:
    """*seconds* rounded down to what is easily told: whole five minutes from ten on, else whole minutes."""
    step = 300 if seconds >= 600 else 60
    return int(seconds // step) * step


def stretch_only(session: Session) -> Session:
    """The stretch alone, in the place of *session*."""
    return replace(session, segments=(), after=session.after or STRETCH, effort=STRETCH_EFFORT)


def lower_effort(session: Session, at_most: int) -> Session:
    """*session* at a wished effort of *at_most* (CR-10)."""
    low, high = session.effort
    return replace(session, effort=(min(low, at_most), min(high, at_most)))


def without_runs(segments: tuple[Segment, ...]) -> tuple[Segment, ...]:
    """*segments* with every run walked; what can be told as one walk is one."""
    joined: list[Segment] = []
    for each in segments:
        do = Do.WALK if each.do is Do.RUN else each.do
        if joined and joined[-1].do is do is Do.WALK:
            joined[-1] = Segment(do, joined[-1].seconds + each.seconds)
        else:
            joined.append(Segment(do, each.seconds))
    return tuple(joined)


def under(session: Session, cap: Cap) -> Session:
    """*session* made to keep *cap*: never longer, harder or with more running than it was."""
    wanted = session.seconds if cap.share >= 1 else kindly(session.seconds * cap.share)
    seconds = wanted if cap.seconds is None else min(wanted, cap.seconds)
    if seconds < LEAST_SECONDS:
        return stretch_only(session) if cap.share < 1 or cap.seconds is not None else session
    segments = cut(session.segments, seconds)
    if not cap.runs:
        segments = without_runs(segments)
    if cap.cross:
        segments = (Segment(Do.CROSS, total_seconds(segments)),)
    return lower_effort(replace(session, segments=segments, purpose=_purpose(session.purpose, cap)), cap.effort)


def _purpose(purpose: Purpose, cap: Cap) -> Purpose:
    """A brisk session without its runs is an easy one, and so is all that takes the place of walking."""
    return Purpose.EASY if cap.cross or (purpose is Purpose.BRISK and not cap.runs) else purpose
