"""Weeks in numbers -> weeks written out, with segments, times, efforts and strength."""

from dataclasses import replace
from datetime import date

from planning.limits.record import Outing
from planning.limits.start import STRETCH
from planning.plan.aim import Way, WeekAim
from planning.plan.frame import Frame
from planning.plan.ladder import fill
from planning.plan.race_day import race_session
from planning.plan.strength import plan_strength
from planning.safety.illness import Illness, gentle_effort
from planning.terms.choices import Do, Purpose
from planning.terms.plan import Segment, Session, Week

WALK_EFFORT = (2, 3)
LONG_EFFORT = (2, 4)
RUN_EFFORT = (3, 4)
AFTER = (Segment(Do.STRETCH, STRETCH),)


def write_session(frame: Frame, outing: Outing) -> Session:
    """The session of one outing. Efforts on the CR-10 scale: easy to somewhat hard, where speech stays comfortable
    (Foster et al. 2001, J Strength Cond Res 15:109)."""
    on = date.fromordinal(outing.on)
    return Session(
        on,
        frame.at[on.weekday()],
        Purpose.LONG if outing.long else Purpose.EASY,
        RUN_EFFORT if outing.run else LONG_EFFORT if outing.long else WALK_EFFORT,
        fill(outing.seconds, outing.run, outing.rep, outing.bout),
        AFTER,
    )


def write_races(way: Way) -> tuple[Session, ...]:
    """The shorter races on the way as sessions."""
    found = []
    for on, race in sorted(way.races.items()):
        day = date.fromordinal(on)
        found.append(race_session(day, way.frame.at[day.weekday()], race.expected_min, race.long))
    return tuple(found)


def write_outing(way: Way, outing: Outing) -> Session:
    """The session of one outing: as people chose it, gentle after a fever, else as planned."""
    if outing.on in way.chosen:
        return way.chosen[outing.on]
    session = write_session(way.frame, outing)
    most = gentle_effort(Illness.FEVER)
    return replace(session, effort=(most - 1, most)) if way.off.eases(outing.on) else session


def write_week(way: Way, aim: WeekAim, races: tuple[Session, ...]) -> Week:
    """The week of *aim*, with the *races* that lie in it and the sessions that people chose."""
    frame, monday = way.frame, date.fromordinal(way.frame.day(aim.number, 0))
    sessions = [write_outing(way, each) for each in aim.outings if each.seconds]
    stretches = [each for each in way.chosen.values() if not each.seconds]
    here = [each for each in (*races, *stretches) if 0 <= (each.on - monday).days < 7]
    if here:
        sessions = sorted((*sessions, *here), key=lambda each: each.on)
    near = tuple(each.on.toordinal() for each in races)
    return Week(aim.number, monday, aim.kind, tuple(sessions), plan_strength(frame, aim.number, aim.kind, near))
