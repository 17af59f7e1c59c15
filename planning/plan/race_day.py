"""Race day: the run-walk rhythm that was rehearsed, splits, food within the published ranges, cautions."""

from datetime import date, time
from fractions import Fraction

from planning.limits.record import Outing
from planning.limits.start import STRETCH
from planning.plan.ladder import LONGEST_WALK, UNIT
from planning.plan.paces import band
from planning.terms.choices import Do, Purpose
from planning.terms.person import Race
from planning.terms.plan import RaceDay, Segment, Session, Split

SPLIT_KM = 5
FOOD_FROM = 60
"""Minutes under which no carbohydrate is needed (Jeukendrup 2014, Sports Med 44 Suppl 1:S25)."""
FOOD = (30, 60)
"""Grams of carbohydrate an hour from 60 to 150 minutes on, from one source, whatever the body weight (same source)."""
NEXT = "what_next"
"""Said last: the week after, and that the next aim is asked for."""
CAUTIONS = ("start_slow", "drink_to_thirst", "nothing_new", "stop_signs", "walk_is_fine")
LONG_CAUTIONS = ("salt", "if_wrong_at_15")
SALT_FROM = 240
"""Minutes from which on drinking too much is the danger (Hew-Butler et al. 2015, Clin J Sport Med 25:303)."""
BAD_PATCH_KM = 15
SHORTEST_RUN = 60
"""Seconds of a run in a race at least, if runs as long were rehearsed."""


def race_rhythm(long: Outing | None) -> tuple[int, int]:
    """Seconds of running and of walking after it, in the same share as in the *long* session; (0, 0) for walking.

    Runs of a minute or more, if they were rehearsed: who has run little walks longer between them, rather than break
    into a run for half a minute again and again (common practice, no source).
    """
    if long is None or not long.run:
        return 0, 0
    rest = long.seconds - long.run
    run = min(long.rep, max(SHORTEST_RUN, LONGEST_WALK * long.run // rest // UNIT * UNIT))
    return run, max(UNIT, rest * run // long.run // UNIT * UNIT)


def race_segments(expected_min: int, rhythm: tuple[int, int]) -> tuple[Segment, ...]:
    """The whole race written out: walk first, then run and walk in turn."""
    run, walk = rhythm
    left = expected_min * 60
    if not run:
        return (Segment(Do.WALK, left),)
    segments: list[Segment] = []
    turns = ((Do.WALK, walk), (Do.RUN, run))
    while left > 0:
        do, seconds = turns[len(segments) % 2]
        segments.append(Segment(do, min(seconds, left)))
        left -= seconds
    return tuple(segments)


def splits(km: float, expected_min: int) -> tuple[Split, ...]:
    """Where the clock should stand every 5 km and at the finish, at an even pace; minutes rounded."""
    distance = Fraction(str(km))
    marks = [Fraction(each) for each in range(SPLIT_KM, int(km) + 1, SPLIT_KM) if each < distance]
    return tuple(Split(float(mark), round(expected_min * mark / distance)) for mark in (*marks, distance))


def draw_race_day(race: Race, expected_min: int, long: Outing | None) -> RaceDay:
    """The plan of race day after the *long* session that was rehearsed."""
    run, walk = race_rhythm(long)
    salt = LONG_CAUTIONS[:1] if expected_min >= SALT_FROM else ()
    patch = LONG_CAUTIONS[1:] if race.km > BAD_PATCH_KM else ()
    return RaceDay(
        expected_min=expected_min,
        band_min=band(expected_min),
        splits=splits(race.km, expected_min),
        run_seconds=run,
        walk_seconds=walk,
        carbohydrate_g_per_hour=FOOD if expected_min >= FOOD_FROM else None,
        cautions=(*CAUTIONS, *salt, *patch, NEXT),
    )


def race_session(on: date, at: time, expected_min: int, long: Outing | None) -> Session:
    """The race as a session."""
    segments = race_segments(expected_min, race_rhythm(long))
    return Session(on, at, Purpose.RACE, (4, 6), segments, (Segment(Do.STRETCH, STRETCH),))
