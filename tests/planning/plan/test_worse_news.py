"""More pain, a longer gap, a harder effort, less sleep: worse news never gives a larger next step, whoever it is."""

from dataclasses import dataclass, field, replace
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, Phase, assume, example, given, settings
from hypothesis import strategies as st

from planning import build_plan, replan
from planning.safety import triage
from planning.step import Today, next_step
from planning.terms.choices import Colour, Part, RaceMode, Sense, WeekKind
from planning.terms.entry import Complaint, Flag, History
from planning.terms.person import Profile, Race, Screen
from planning.terms.plan import Plan, Session
from tests.support.histories import as_planned, training
from tests.support.profiles import HALF_KM, a_person, days_of, profiles

QUICK = (Phase.explicit, Phase.reuse, Phase.generate)
SOON = settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck), phases=QUICK)
NIGHTLY = settings(SOON, max_examples=1_000)
people, weeks, efforts = profiles(screened=True), st.integers(1, 40), st.integers(0, 10)
DAY = timedelta(days=1)
WALKER = a_person(days=days_of(0, 2), begin=date(2027, 2, 23), walk_min=73, jog_min=56, week_min=90, longest_min=109,
                  race=Race(date(2027, 5, 5), HALF_KM, RaceMode.WALK, 216), height_cm=189, weight_kg=159,
                  screen=Screen(active=True), cleared=True)  # fmt: skip
"""A race that comes too soon: the days before it follow from the last full weeks."""
JOGGER = a_person(days=days_of(0, 3, 4, 5, 6), begin=date(2026, 4, 26), walk_min=222, jog_min=55, week_min=40, age=None,
                  height_cm=150, weight_kg=45)  # fmt: skip
"""Small weeks at first: the first walk after a gap does not grow, the other days must not either."""
SOON_RACING = a_person(days=days_of(0, 1, 6), begin=date(2026, 7, 7), walk_min=60, jog_min=60, week_min=90,
                       longest_min=20, age=None, height_cm=None,
                       race=Race(date(2026, 7, 18), HALF_KM, RaceMode.WALK))  # fmt: skip
"""What was missed in the week before a race is not made up for in the days that are left."""
STRONG = a_person(days=days_of(0, 1, 2, 3, 5, 6), begin=date(2027, 4, 5), walk_min=85, jog_min=14, week_min=316,
                  longest_min=254, age=None, height_cm=None)  # fmt: skip
"""Little running was done of what was said: a week that stays level holds no more of it than one that grows."""


@dataclass(frozen=True)
class News:
    """What is known on the day *on* of somebody who did all that was planned up to the day *until*."""

    profile: Profile
    plan: Plan
    on: date
    until: date
    flags: tuple[Flag, ...] = ()
    effort: float = 3
    today: dict[str, object] = field(default_factory=dict)

    def plan_now(self) -> Plan:
        """The plan made anew."""
        entries = as_planned(self.plan, self.profile.begin, self.until)
        late = self.on - timedelta(days=14)
        rated = tuple(replace(each, effort=self.effort) if each.on >= late else each for each in entries)
        return replan(self.profile, History(rated, flags=self.flags), self.on, self.plan)

    def ahead(self) -> list[Session]:
        """The sessions of the next seven days as they are answered today."""
        sessions = training(self.plan_now(), self.on, self.on + 7 * DAY)
        return [next_step(each, Today(self.on, **self.today)).session for each in sessions]  # type: ignore[arg-type]

    def kind(self) -> WeekKind | None:
        """What this week is for."""
        return next((each.kind for each in self.plan_now().weeks if 0 <= (self.on - each.monday).days < 7), None)


def news_of(profile: Profile, week: int) -> News:
    """A Monday on the way to somebody's race."""
    plan = build_plan(profile)
    on = profile.begin - profile.begin.weekday() * DAY + week * 7 * DAY
    assume(plan.weeks and profile.begin < on < plan.weeks[-1].monday)
    return News(profile, plan, on, on)


def size(sessions: list[Session]) -> tuple[int, ...]:
    """Seconds in all and of running, the longest session, its running, and the highest effort.

    The longest single run is left out: less running in all may be one run of the same rung, not two of a lower one.
    """
    return (
        sum(each.seconds for each in sessions),
        sum(each.run_seconds for each in sessions),
        max((each.seconds for each in sessions), default=0),
        max((each.run_seconds for each in sessions), default=0),
        max((each.effort[1] for each in sessions), default=0),
    )


def is_no_larger(worse: News, better: News) -> bool:
    """The answer to *worse* news is no larger in any way."""
    return all(a <= b for a, b in zip(size(worse.ahead()), size(better.ahead()), strict=True))


def pain_changes_nothing_upwards(profile: Profile, week: int, level: float) -> None:
    news = news_of(profile, week)
    flags = [Flag(Part.KNEE, None, colour, news.on - DAY) for colour in Colour]
    triages = [triage(Complaint(Part.KNEE, sense=Sense.PAIN, level=each)) for each in (level / 2, level)]
    green, amber, red = (replace(news, flags=(each,)) for each in flags)
    assert is_no_larger(green, news)
    assert is_no_larger(amber, green)
    assert is_no_larger(red, amber)
    milder, worse = (replace(amber, today={"triages": (each,)}) for each in triages)
    assert is_no_larger(worse, milder)


def a_gap_changes_nothing_upwards(profile: Profile, week: int, days: tuple[int, int]) -> None:
    """Where a gap has made a week of another kind of this one, it is another week, not another step: left out, as
    are weeks with a race in place of the long session."""
    news = news_of(replace(profile, milestones=()), week)
    short, long = (replace(news, until=news.on - each * DAY) for each in sorted(days))
    assume(training(news.plan, profile.begin, long.until))
    assume(short.kind() is long.kind() is not WeekKind.EASIER)
    assert is_no_larger(long, short)


def effort_changes_nothing_upwards(profile: Profile, week: int, efforts: tuple[int, int]) -> None:
    news = news_of(profile, week)
    lower, higher = (replace(news, effort=each) for each in sorted(efforts))
    assert is_no_larger(higher, lower)


def sleep_changes_nothing_upwards(profile: Profile, week: int, hours: tuple[int, int]) -> None:
    news = news_of(profile, week)
    less, more = (replace(news, today={"slept_h": each}) for each in sorted(hours))
    assert is_no_larger(less, more)


@SOON
@given(people, weeks, efforts)
def test_more_pain_never_gives_a_larger_next_step(profile: Profile, week: int, level: int) -> None:
    pain_changes_nothing_upwards(profile, week, level)


@SOON
@given(people, weeks, st.tuples(st.integers(0, 60), st.integers(0, 60)))
@example(WALKER, 8, (34, 38))
@example(JOGGER, 3, (7, 10))
@example(SOON_RACING, 1, (0, 1))
@example(STRONG, 1, (5, 6))
def test_a_longer_gap_never_gives_a_larger_next_step(profile: Profile, week: int, days: tuple[int, int]) -> None:
    a_gap_changes_nothing_upwards(profile, week, days)


@SOON
@given(people, weeks, st.tuples(efforts, efforts))
def test_a_harder_effort_never_gives_a_larger_next_step(profile: Profile, week: int, rated: tuple[int, int]) -> None:
    effort_changes_nothing_upwards(profile, week, rated)


@SOON
@given(people, weeks, st.tuples(st.integers(0, 10), st.integers(0, 10)))
def test_less_sleep_never_gives_a_larger_next_step(profile: Profile, week: int, hours: tuple[int, int]) -> None:
    sleep_changes_nothing_upwards(profile, week, hours)


@pytest.mark.nightly
@NIGHTLY
@given(people, weeks, efforts, st.tuples(efforts, efforts), st.tuples(st.integers(0, 60), st.integers(0, 60)))
def test_worse_news_of_many_people_never_give_a_larger_next_step(
    profile: Profile, week: int, level: int, pair: tuple[int, int], days: tuple[int, int]
) -> None:
    pain_changes_nothing_upwards(profile, week, level)
    effort_changes_nothing_upwards(profile, week, pair)
    sleep_changes_nothing_upwards(profile, week, pair)
    a_gap_changes_nothing_upwards(profile, week, days)
