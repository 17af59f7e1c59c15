"""Lawful people of every kind, invented by hypothesis."""

from datetime import date, time, timedelta

from hypothesis import strategies as st

from planning.terms.choices import RaceMode, Sex, Weekday
from planning.terms.person import DayTime, Profile, Race, Screen

HALF_KM = 21.0975
MONDAY = date(2026, 3, 2)
KM = st.sampled_from((5.0, 10.0, 12.5, 15.0, 16.1, HALF_KM))


def days_of(*weekdays: int, at: time = time(7)) -> tuple[DayTime, ...]:
    """Given days, all at the same time."""
    return tuple(DayTime(Weekday(each), at) for each in weekdays)


def a_person(**changes: object) -> Profile:
    """Somebody of our own making who walks 20 minutes and has four days, with *changes*."""
    known: dict[str, object] = {
        "who": "sam",
        "tz": "Europe/London",
        "days": days_of(0, 2, 4, 6),
        "begin": MONDAY,
        "walk_min": 20,
        "age": 44,
        "height_cm": 168,
        "weight_kg": 79,
    }
    return Profile(**(known | changes))  # type: ignore[arg-type]


@st.composite
def races(draw: st.DrawFn, begin: date) -> Race:
    """A race near or far, long or short, run or walked, with or without a limit."""
    return Race(
        on=begin + timedelta(days=draw(st.integers(0, 500))),
        km=draw(KM),
        mode=draw(st.sampled_from(tuple(RaceMode))),
        cutoff_min=draw(st.none() | st.integers(60, 420)),
    )


@st.composite
def milestones(draw: st.DrawFn, begin: date) -> tuple[Race, ...]:
    """Up to two shorter races on the way."""
    offsets = draw(st.lists(st.integers(0, 300), max_size=2, unique=True))
    return tuple(Race(begin + timedelta(days=each), draw(st.sampled_from((5.0, 10.0)))) for each in sorted(offsets))


@st.composite
def profiles(draw: st.DrawFn, *, screened: bool = False) -> Profile:
    """Any lawful person. *screened*: nobody whom screening bars."""
    begin = MONDAY + timedelta(days=draw(st.integers(0, 400)))
    walk = draw(st.sampled_from((0, 1, 2, 5, 12, 19, 20, 30, 45, 60, 90, 180)) | st.integers(0, 240))
    jog = draw(st.sampled_from((0, 0, 0, 0.4, 1, 2, 5, 20)) | st.integers(0, 60))
    sized = draw(st.booleans())
    weekdays = draw(st.lists(st.integers(0, 6), min_size=1, max_size=7, unique=True))
    return a_person(
        days=days_of(*sorted(weekdays)),
        begin=begin,
        walk_min=walk,
        jog_min=min(jog, walk),
        week_min=draw(st.sampled_from((0, 40, 90, 150, 300)) | st.integers(0, 900)),
        longest_min=draw(st.sampled_from((0, 20, 45, 90)) | st.integers(0, 300)),
        race=draw(st.none() | races(begin)),
        milestones=draw(milestones(begin)) if draw(st.booleans()) else (),
        age=draw(st.none() | st.integers(18, 100)),
        sex=draw(st.none() | st.sampled_from(tuple(Sex))),
        height_cm=draw(st.integers(150, 195)) if sized else None,
        weight_kg=draw(st.integers(45, 170)) if sized else None,
        screen=Screen(
            active=draw(st.booleans()),
            disease=draw(st.integers(0, 9)) == 0 and not screened,
            signs=draw(st.integers(0, 9)) == 0 and not screened,
            pregnant=draw(st.integers(0, 9)) == 0 and not screened,
        ),
        cleared=draw(st.integers(0, 4)) == 0,
    )
