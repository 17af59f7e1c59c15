"""The ladder from short jogs to continuous running, generated from the limits; how a step fills a session."""

from dataclasses import dataclass
from functools import cache

from planning.terms.choices import Do
from planning.terms.plan import Segment

FIRST_RUN = 30
"""Seconds of the first run (common practice, no source)."""
UNIT = 15
"""Runs and walks are whole multiples of so many seconds: easy to keep on a watch."""
LONGEST_RUN = 30 * 60
LONGEST_WALK = 5 * 60
"""Seconds of walking between two runs at most; what is left is walked at the end."""
WARM = 5 * 60
"""Seconds of walking before and after the running part (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Rung:
    """One step of the ladder: seconds of one run and of the shortest walk after it.

    It is entered when the one below was held at an effort of 5 or less without an amber or red flag; it is left upwards
    on the same terms, downwards after a flag, a break, or two sessions that were too hard.
    """

    run: int
    walk: int

    hardest: int = 5
    """Highest effort (CR-10) at which the step counts as held."""


@cache
def ladder() -> tuple[Rung, ...]:
    """All rungs from the shortest run on: each run is 10 % or 15 s longer than the one before, walks shrink with it."""
    rungs = []
    run = FIRST_RUN
    while run < LONGEST_RUN:
        rungs.append(Rung(run, 120 if run < 60 else 90 if run < 180 else 60))
        run += max(run // 10 // UNIT * UNIT, UNIT)
    return (*rungs, Rung(LONGEST_RUN, 60))


@cache
def rung_of(run: int) -> int:
    """Index of the highest rung with runs of at most *run* seconds; -1 if the first is longer."""
    return sum(each.run <= run for each in ladder()) - 1


@cache
def fit_runs(seconds: int, rep: int, most: int) -> int:
    """How many runs of *rep* seconds fit into a session of *seconds* with at most *most* seconds of running."""
    rung = ladder()[max(0, rung_of(rep))]
    room = seconds - 2 * edge(seconds) + rung.walk
    return max(0, min(room // (rep + rung.walk), most // rep))


def edge(seconds: int) -> int:
    """Seconds of walking at either end of a session with runs."""
    return min(WARM, seconds // 5 // UNIT * UNIT)


@cache
def run_and_walk(seconds: int, rep: int, count: int) -> tuple[Segment, ...]:
    """A session of *seconds* with *count* runs of *rep* seconds, spread between walks, the rest of it walked."""
    side = edge(seconds)
    middle = seconds - 2 * side - count * rep
    walk = min(LONGEST_WALK, middle // (count - 1) // UNIT * UNIT) if count > 1 else 0
    segments = [Segment(Do.WALK, side)]
    for index in range(count):
        segments.append(Segment(Do.RUN, rep))
        if index < count - 1:
            segments.append(Segment(Do.WALK, walk))
    left = seconds - side - count * rep - walk * (count - 1)
    return (*segments, Segment(Do.WALK, left))


@cache
def walk_and_rest(seconds: int, bout: int) -> tuple[Segment, ...]:
    """Walks of *bout* seconds with a minute of standing rest after each, until *seconds* are up."""
    segments = []
    left = seconds
    while left > 0:
        segments.append(Segment(Do.WALK, min(bout, left)))
        left -= bout
        if left > 0:
            segments.append(Segment(Do.REST, min(60, left)))
            left -= 60
    return tuple(segments)


def fill(seconds: int, run: int, rep: int, bout: int) -> tuple[Segment, ...]:
    """Segments of a session of *seconds*: *run* seconds of it in runs of *rep*, or walks of *bout* with rests."""
    if run:
        return run_and_walk(seconds, rep, run // rep)
    if bout:
        return walk_and_rest(seconds, bout)
    return (Segment(Do.WALK, seconds),)
