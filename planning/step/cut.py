"""Shortening the segments of a session at the same ease: same kinds, same order, never a longer or a larger run."""

from collections.abc import Sequence

from planning.terms.choices import Do
from planning.terms.plan import COUNTED, Segment, total_seconds

EDGE_SECONDS = 60
"""Least walking before the first run and after the last one. Common practice, no source."""

SHORTEST_RUN_SECONDS = 15
"""A cut run that would be shorter than this becomes walking. Common practice, no source."""


def cut(segments: Sequence[Segment], seconds: int) -> tuple[Segment, ...]:
    """*segments* in at most *seconds*: exactly that much, unless standing rests would have to be stretched for it.

    The share of running is never above what it was; what is left over becomes walking before and after.
    """
    whole = total_seconds(segments, *COUNTED)
    if seconds >= whole:
        return tuple(segments)
    kinds = {each.do for each in segments}
    if Do.RUN in kinds:
        return _cut_runs(segments, seconds, whole)
    return _cut_rests(segments, seconds) if Do.REST in kinds else (Segment(segments[0].do, seconds),)


def _cut_rests(segments: Sequence[Segment], seconds: int) -> tuple[Segment, ...]:
    """Walks with standing rests between them, from the front until the time is up; the end is a walk."""
    kept: list[Segment] = []
    for each in segments:
        length = min(each.seconds, seconds - total_seconds(kept))
        if length > 0:
            kept.append(Segment(each.do, length))
    while kept and kept[-1].do is Do.REST:
        kept.pop()
    return tuple(kept)


def _cut_runs(segments: Sequence[Segment], seconds: int, whole: int) -> tuple[Segment, ...]:
    """As many of the first runs as the share allows; if that is none, a part of the first; else walking alone."""
    places = [index for index, each in enumerate(segments) if each.do is Do.RUN]
    runs_allowed = total_seconds(segments, Do.RUN) * seconds // whole
    for last in reversed(places):
        core = tuple(segments[places[0] : last + 1])
        if _fits(core, seconds, runs_allowed):
            return _framed(core, segments[: places[0]], segments[places[-1] + 1 :], seconds)
    part = min(runs_allowed, segments[places[0]].seconds) // SHORTEST_RUN_SECONDS * SHORTEST_RUN_SECONDS
    core = (Segment(Do.RUN, part),) if part else ()
    if not core or not _fits(core, seconds, runs_allowed):
        return (Segment(Do.WALK, seconds),)
    return _framed(core, segments[: places[0]], segments[places[-1] + 1 :], seconds)


def _fits(core: Sequence[Segment], seconds: int, runs_allowed: int) -> bool:
    return total_seconds(core, Do.RUN) <= runs_allowed and total_seconds(core) + 2 * EDGE_SECONDS <= seconds


def _framed(
    core: Sequence[Segment], before: Sequence[Segment], after: Sequence[Segment], seconds: int
) -> tuple[Segment, ...]:
    """*core* with walking around it, shared out as it was before and after."""
    free = seconds - total_seconds(core)
    was, were = total_seconds(before), total_seconds(after)
    first = free * was // (was + were) if was + were else free // 2
    first = min(max(first // EDGE_SECONDS * EDGE_SECONDS, EDGE_SECONDS), free - EDGE_SECONDS)
    return (Segment(Do.WALK, first), *core, Segment(Do.WALK, free - first))
