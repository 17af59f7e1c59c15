"""What falls due: one push for each planned day, one nudge at most, silence where silence is asked for."""

from collections import Counter
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from bot.conversation.agenda import NUDGE_AFTER, agenda, bed_of
from bot.conversation.changes import SetSnooze
from bot.conversation.events import DueKind
from bot.conversation.known import Hold, Known, Marks, Snooze
from planning.calendar import instant, is_quiet, local
from planning.terms.choices import Colour, Danger, Part, Purpose, Weekday
from planning.terms.entry import Break, Flag
from planning.terms.person import DayTime, Profile
from tests.support.days import NIGHT, Days, done_on, sessions_of
from tests.support.profiles import MONDAY, a_person, days_of

ZONES = (
    "Europe/London",
    "America/New_York",
    "America/Santiago",
    "America/Havana",
    "America/Nuuk",
    "Africa/Cairo",
    "Africa/Casablanca",
    "Asia/Beirut",
    "Asia/Kathmandu",
    "Australia/Lord_Howe",
    "Atlantic/Azores",
    "Pacific/Apia",
    "Pacific/Kiritimati",
    "Pacific/Pago_Pago",
    "UTC",
)
"""Zones with clock changes at midnight, by half an hour and against the season among them."""

QUICK = settings(max_examples=60, deadline=None)
TIMES = st.builds(time, st.integers(0, 23), st.sampled_from((0, 15, 30, 45)))


@st.composite
def people(draw: st.DrawFn) -> Profile:
    """Somebody in some zone, with some days, times, a bedtime and an evening."""
    weekdays = draw(st.lists(st.sampled_from(tuple(Weekday)), min_size=1, max_size=7, unique=True))
    return a_person(
        tz=draw(st.sampled_from(ZONES)),
        begin=date(2026, draw(st.integers(1, 11)), draw(st.integers(1, 28))),
        days=tuple(DayTime(day, draw(TIMES)) for day in sorted(weekdays)),
        bed=draw(st.none() | st.sampled_from((time(21), time(23, 30), time(1)))),
        wake=draw(st.none() | st.sampled_from((time(4, 30), time(9)))),
        nudge=draw(st.none() | TIMES),
    )


def days_of_somebody(profile: Profile, weeks: int = 4) -> Days:
    """Their days, the clock started on the day before the first."""
    sessions = sessions_of(profile.days, profile.begin, weeks)
    return Days.of(profile, sessions, instant(profile.begin, time(0), profile.tz) - timedelta(days=1))


def end_of(days: Days) -> datetime:
    return instant(days.known.sessions[-1].on + timedelta(days=2), time(12), profile_of(days).tz)


def profile_of(days: Days) -> Profile:
    assert days.known.profile is not None
    return days.known.profile


@QUICK
@given(profile=people())
def test_somebody_who_answers_gets_each_session_once(profile: Profile) -> None:
    days = days_of_somebody(profile)
    for session in days.known.sessions:
        days.hear(instant(session.on, session.at, profile.tz) + timedelta(minutes=40), done_on(session.on))
    days.run(end_of(days))
    pushes = [(each.due.on, each.at) for each in days.told(DueKind.PUSH)]
    assert pushes == [(each.on, instant(each.on, each.at, profile.tz)) for each in days.known.sessions]


@QUICK
@given(profile=people())
@example(a_person(tz="America/Nuuk", begin=date(2026, 3, 23), days=days_of(*range(7), at=time(23, 30))))
def test_no_planned_day_is_pushed_twice_or_on_another_day(profile: Profile) -> None:
    days = days_of_somebody(profile)
    days.run(end_of(days))
    pushes = days.told(DueKind.PUSH)
    assert len({each.due.on for each in pushes}) == len(pushes)
    assert [local(each.at, profile.tz).date() for each in pushes] == [each.due.on for each in pushes]


@QUICK
@given(profile=people())
def test_a_nudge_comes_once_not_at_night_and_not_soon_after_the_push(profile: Profile) -> None:
    days = days_of_somebody(profile, weeks=1)
    days.run(end_of(days))
    nudges = days.told(DueKind.NUDGE)
    pushes = {each.due.on: each.at for each in days.told(DueKind.PUSH)}
    night = (bed_of(profile), profile.wake or NIGHT[1])
    assert len({each.due.on for each in nudges}) == len(nudges)
    for each in nudges:
        assert not is_quiet(local(each.at, profile.tz).time(), *night)
        assert each.at - pushes[each.due.on] >= NUDGE_AFTER


NUDGES: list[tuple[str, time, time | None, time | None, bool]] = [
    ("a silent day", time(7), None, None, True),
    ("two hours after the push", time(17, 30), None, None, True),
    ("less than two hours after it", time(17, 31), None, None, False),
    ("before the push", time(20), None, None, False),
    ("an hour of their own", time(7), time(12), None, True),
    ("after bedtime", time(7), time(22), None, False),
    ("at bedtime", time(7), time(21), time(21), False),
    ("before bedtime", time(7), time(20, 59), time(21), True),
]


@pytest.mark.parametrize(("what", "at", "nudge", "bed", "comes"), NUDGES, ids=[row[0] for row in NUDGES])
def test_when_a_nudge_comes(what: str, at: time, nudge: time | None, bed: time | None, comes: bool) -> None:
    days = days_of_somebody(a_person(days=days_of(0, at=at), nudge=nudge, bed=bed), weeks=1)
    days.run(end_of(days))
    assert bool(days.told(DueKind.NUDGE)) == comes, what


def monday(hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 3, 2, hour, minute, tzinfo=UTC)


@pytest.mark.parametrize("answered", [(), (done_on(MONDAY),)], ids=["a word", "done"])
def test_after_an_answer_there_is_no_nudge(answered: tuple[object, ...]) -> None:
    days = days_of_somebody(a_person())
    days.hear(monday(8), *answered)  # type: ignore[arg-type]
    days.run(monday(23))
    assert days.told(DueKind.NUDGE) == []


def test_a_word_before_the_push_keeps_the_nudge() -> None:
    days = days_of_somebody(a_person())
    days.hear(monday(6))
    days.run(monday(23))
    assert [each.at for each in days.told(DueKind.NUDGE)] == [monday(19, 30)]


RED = Flag(Part.KNEE, None, Colour.RED, MONDAY)
SILENT: list[tuple[str, dict[str, object]]] = [
    ("days off", {"breaks": (Break(MONDAY, None),)}),
    ("danger", {"holds": (Hold((Danger.CHEST,), MONDAY, "u-1"),)}),
    ("a need of care", {"holds": (Hold((Danger.SELF_HARM,), MONDAY, "u-1"),)}),
    ("a red flag", {"flags": (RED,)}),
]


@pytest.mark.parametrize(("what", "standing"), SILENT, ids=[row[0] for row in SILENT])
def test_while_it_stands_neither_push_nor_nudge_is_due(what: str, standing: dict[str, object]) -> None:
    pushed = days_of_somebody(a_person())
    pushed.run(monday(8))
    for known in (days_of_somebody(a_person()).known, pushed.known):
        kinds = {each.due.kind for each in agenda(replace(known, **standing))}  # type: ignore[arg-type]
        assert not kinds & {DueKind.PUSH, DueKind.NUDGE}, what


@QUICK
@given(profile=people(), first=st.integers(0, 20), length=st.integers(0, 20))
def test_no_push_falls_into_days_off(profile: Profile, first: int, length: int) -> None:
    days = days_of_somebody(profile)
    off = Break(profile.begin + timedelta(days=first), profile.begin + timedelta(days=first + length))
    days.known = replace(days.known, breaks=(off,))
    days.due = agenda(days.known)
    days.run(end_of(days))
    assert off.last is not None
    assert [each for each in days.told(DueKind.PUSH, DueKind.NUDGE) if off.first <= each.due.on <= off.last] == []


def test_a_cleared_flag_bars_nothing() -> None:
    days = days_of_somebody(a_person())
    known = replace(days.known, flags=(replace(RED, cleared_on=MONDAY),))
    assert DueKind.PUSH in {each.due.kind for each in agenda(known)}


def silent_days(weeks: int) -> Days:
    """Somebody with four days a week of whom nothing is ever heard."""
    days = days_of_somebody(a_person(), weeks)
    days.run(end_of(days))
    return days


def test_silence_makes_pushes_rare() -> None:
    days = silent_days(20)
    told = [(each.due.on - MONDAY).days for each in days.told(DueKind.PUSH)]
    gaps = [(later, later - earlier) for earlier, later in pairwise(told)]
    assert told[:3] == [0, 2, 4]
    assert [gap for day, gap in gaps if day > 7 and gap < 7] == []
    assert [gap for day, gap in gaps if day > 28 and gap < 14] == []
    assert max(told) < 84
    assert len(told) >= 3 + 3 + 3, "rare is not never"


def test_in_silence_nothing_else_breaks_it() -> None:
    told = sorted((each.at - monday(0)).days for each, says in silent_days(20).sent if says)
    weeks = Counter(day // 7 for day in told if day >= 7)
    assert {week: count for week, count in weeks.items() if count > 1} == {}
    assert max(told) < 84


@pytest.mark.parametrize("after", [10, 40, 120])
def test_one_word_brings_all_back(after: int) -> None:
    days = days_of_somebody(a_person(), weeks=26)
    days.run(instant(MONDAY + timedelta(days=after), time(12), "Europe/London"))
    before = len(days.told(DueKind.PUSH))
    days.hear(instant(MONDAY + timedelta(days=after), time(13), "Europe/London"))
    days.run(instant(MONDAY + timedelta(days=after + 7), time(13), "Europe/London"))
    assert len(days.told(DueKind.PUSH)) - before == 4


def test_a_race_is_told_even_after_long_silence() -> None:
    days = days_of_somebody(a_person(), weeks=20)
    race = replace(days.known.sessions[-1], purpose=Purpose.RACE)
    days.known = replace(days.known, sessions=(*days.known.sessions[:-1], race))
    days.run(end_of(days))
    assert days.told(DueKind.PUSH)[-1].due.on == race.on


def test_a_session_that_was_put_off_comes_once_more() -> None:
    days = days_of_somebody(a_person())
    days.hear(monday(7, 5), SetSnooze(Snooze(MONDAY, monday(8, 5), 1)))
    days.run(monday(23))
    assert [(each.at, each.due.ordinal) for each in days.told(DueKind.PUSH)] == [(monday(7), 0), (monday(8, 5), 1)]


def test_what_was_put_off_and_done_does_not_come_again() -> None:
    days = days_of_somebody(a_person())
    days.hear(monday(7, 5), SetSnooze(Snooze(MONDAY, monday(8, 5), 1)))
    days.hear(monday(7, 50), done_on(MONDAY))
    days.run(monday(23))
    assert [each.at for each in days.told(DueKind.PUSH)] == [monday(7)]


NOBODY: list[tuple[str, Known]] = [
    ("a stranger", Known("sam")),
    ("a clock that has not started", Known("sam", a_person(), sessions=sessions_of(days_of(0), MONDAY, 1))),
    ("no session", Known("sam", a_person(), since=monday(0))),
    ("the past", Known("sam", a_person(), since=monday(8), sessions=sessions_of(days_of(0), MONDAY, 1))),
]


@pytest.mark.parametrize(("what", "known"), NOBODY, ids=[row[0] for row in NOBODY])
def test_nothing_is_due(what: str, known: Known) -> None:
    assert {each.due.kind for each in agenda(known)} <= {DueKind.REVIEW}, what


def test_at_most_one_thing_of_a_kind_is_due() -> None:
    flags = (RED, replace(RED, part=Part.HIP), replace(RED, part=Part.SHIN, colour=Colour.AMBER))
    known = replace(days_of_somebody(a_person()).known, flags=flags, marks=Marks(pushed_on=MONDAY))
    kinds = [each.due.kind for each in agenda(known)]
    assert len(kinds) == len(set(kinds))


def test_a_red_flag_is_asked_about_every_day() -> None:
    days = days_of_somebody(a_person())
    days.hear(monday(8))
    days.known = replace(days.known, flags=(RED,))
    days.due = agenda(days.known, monday(8))
    days.run(instant(MONDAY + timedelta(days=5), time(20), "Europe/London"))
    asked = [(each.due.on - MONDAY).days for each in days.told(DueKind.FOLLOW_UP)]
    assert asked == [1, 2, 3, 4, 5]
    assert {local(each.at, "Europe/London").time() for each in days.told(DueKind.FOLLOW_UP)} == {time(10)}
