"""A coach's change: kept within the limits, told to both, and what is told is what stands."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.conversation.coach.change import Trial, changed
from bot.conversation.coach.orders import Drop, Ease, HoldWeek, Make
from bot.conversation.known import Known, Whole
from bot.forms import profile_from_json
from bot.store.changes import person_row
from planning import build_plan, replan
from planning.plan.warnings import Warn
from planning.terms.choices import Do
from planning.terms.entry import Entry, History
from planning.terms.plan import Segment
from tests.bot.conversation.coach.talk import about, kinds, on, say, to
from tests.support.people import ada
from tests.support.wire import OnTheWire

WEDNESDAY = "2026-03-04"
ROWS = [
    ("make wednesday 15 min walk", 15, ["coach_asked"]),
    ("make wednesday 12", 12, ["coach_asked"]),
    ("make wednesday easier", 15, ["coach_asked"]),
    ("make wednesday 90 min walk", 20, ["growth_limit"]),
    ("make wednesday 5 min walk 10 min run 5 min walk", 20, ["growth_limit"]),
    ("make wednesday the stretch", 0, ["coach_asked"]),
]


@pytest.mark.parametrize(("wish", "minutes", "why"), ROWS, ids=[row[0] for row in ROWS])
def test_a_session_becomes_so_within_the_limits(two: OnTheWire, wish: str, minutes: int, why: list[str]) -> None:
    own = about(to([each for each in say(two, "06:10", f"ada: {wish}") if each["chat"] == "kim"], "kim"))
    session = on(two, "ada", WEDNESDAY)
    assert session is not None
    assert (own["kind"], own["who"], own["why"], session["minutes"]) == ("changed", "ada", why, minutes)
    assert {each["do"] for each in session["segments"]} <= {"walk"}  # type: ignore[index,attr-defined]


def test_runner_and_coach_are_told(two: OnTheWire) -> None:
    found = say(two, "06:10", "ada: make wednesday 15 min walk")
    assert kinds(found) == [("kim", "changed"), ("ada", "changed")]
    own, told = about(found[0]), about(found[1])
    assert own["session"] == told["session"] == on(two, "ada", WEDNESDAY)
    assert own["next"] == told["next"] == on(two, "ada", "2026-03-02")
    assert "Your coach Kim" in str(found[1]["text"])


def test_a_refused_change_is_told_to_the_coach_alone(two: OnTheWire) -> None:
    before = on(two, "ada", WEDNESDAY)
    found = say(two, "06:10", "ada: make wednesday 22 min walk")
    assert kinds(found) == [("kim", "changed")]
    assert about(found[0])["why"] == ["growth_limit"]
    assert on(two, "ada", WEDNESDAY) == before


def test_a_wish_beyond_the_limits_gets_as_much_as_they_allow(two: OnTheWire) -> None:
    say(two, "06:10", "ada: make wednesday 10 min walk")
    found = say(two, "06:11", "ada: make wednesday 45 min walk")
    assert about(found[0])["why"] == ["coach_asked", "growth_limit"]
    assert about(found[0])["session"] == on(two, "ada", WEDNESDAY)
    session = on(two, "ada", WEDNESDAY)
    assert session is not None
    assert session["minutes"] == 20


def test_a_change_outlives_a_new_plan(two: OnTheWire) -> None:
    say(two, "06:10", "ada: make wednesday 15 min walk")
    say(two, "07:30", "done", "ada")
    session = on(two, "ada", WEDNESDAY)
    assert session is not None
    assert session["minutes"] == 15


@pytest.mark.parametrize(
    ("wish", "day", "there"),
    [("drop wednesday", WEDNESDAY, False), ("make saturday 15 min walk", "2026-03-07", True)],
)
def test_a_day_is_dropped_or_added(two: OnTheWire, wish: str, day: str, *, there: bool) -> None:
    assert kinds(say(two, "06:10", f"ada: {wish}")) == [("kim", "changed"), ("ada", "changed")]
    assert (on(two, "ada", day) is not None) is there


def test_a_session_is_moved(two: OnTheWire) -> None:
    say(two, "06:10", "ada: move wednesday to thursday")
    assert on(two, "ada", WEDNESDAY) is None
    assert on(two, "ada", "2026-03-05") is not None


def week(run: OnTheWire, first: int) -> list[int]:
    found = [on(run, "ada", f"2026-03-{day:02}") for day in range(first, first + 7)]
    return sorted(int(str(each["minutes"])) for each in found if each)


def test_a_held_week_is_no_larger_than_the_last_one(two: OnTheWire) -> None:
    for day in (2, 4, 6, 8):
        say(two, "20:00", "done", "ada", day)
    assert sum(week(two, 9)) > sum(week(two, 2))
    found = say(two, "06:10", "ada: hold this week", day=9)
    assert kinds([each for each in found if each["chat"] != "cat"])[-2:] == [("kim", "changed"), ("ada", "changed")]
    assert all(new <= old for new, old in zip(week(two, 9), week(two, 2), strict=True))


def test_nothing_changes_while_danger_stands(two: OnTheWire) -> None:
    say(two, "06:05", "my chest is tight", "ada")
    found = say(two, "06:10", "ada: make wednesday 15 min walk")
    assert kinds(found) == [("kim", "changed")]
    assert about(found[0])["next"] is None


def test_what_a_runner_does_not_share_stays_out(two: OnTheWire) -> None:
    with two.store.begin() as tx:
        row = person_row(tx, "ada")
        assert row.profile is not None
        row.profile = replace(row.profile, shares=frozenset())
    assert "next" not in about(say(two, "06:10", "ada: drop wednesday")[0])


PROFILE = profile_from_json(ada())
PLAN = build_plan(PROFILE)
DAYS = st.sampled_from([each.on for each in PLAN.sessions if each.on.month < 9])
SEGMENTS = st.lists(st.builds(Segment, st.sampled_from((Do.WALK, Do.RUN)), st.integers(1, 90).map(lambda n: n * 60)))
WISHES = st.one_of(
    st.builds(Make, DAYS, SEGMENTS.map(tuple), st.integers(0, 300)),
    st.builds(Drop, DAYS),
    st.builds(Ease, DAYS),
    st.just(HoldWeek()),
)


@settings(max_examples=30, deadline=None)
@given(WISHES, DAYS)
def test_whatever_a_coach_wishes_the_plan_keeps_its_limits(wish: Make | Drop | Ease | HoldWeek, today: date) -> None:
    done = tuple(Entry(each.on, planned_on=each.on) for each in PLAN.sessions if each.on < today)
    history = History(entries=done)
    before = replan(PROFILE, history, today, PLAN)
    known = Known("ada", profile=PROFILE, sessions=before.sessions, entries=done)
    fixed = changed(Trial(known, PROFILE, Whole(before, history), today), wish).fixed
    after = replan(PROFILE, replace(history, fixed=fixed), today, before)
    there = {each.on: each for each in after.sessions}
    assert Warn.FIXED_TRIMMED not in after.warnings
    assert [each for each in fixed if there.get(each.on) != each.session] == []
