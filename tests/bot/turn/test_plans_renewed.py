"""A plan that no push renews, in a silence or an open break, is made anew before anything of it is told."""

from datetime import UTC, datetime, timedelta

from bot.store.people import find_known, history_of
from bot.store.plans import find_plan
from planning import check, replan
from planning.plan.happened import look_back
from planning.terms.plan import Plan
from tests.support.wire import Json, OnTheWire

PAUSED = datetime(2026, 3, 6, 0, 8, tzinfo=UTC)
HEARD = datetime(2026, 4, 12, 20, tzinfo=UTC)


def breaches(wire: OnTheWire, now: datetime) -> list[object]:
    """What the kept plan breaks if it isn't said to be made anew before it is told."""
    with wire.store.begin() as tx:
        known, plan, history = find_known(tx, "ada", now), find_plan(tx, "ada"), history_of(tx, "ada")
    assert plan is not None
    assert known.profile is not None
    past = look_back(plan, history, now.date()).past(known.profile)
    return [] if known.stale else list(check(plan, known.profile, past))


def plan_anew(wire: OnTheWire, now: datetime) -> Plan:
    with wire.store.begin() as tx:
        known, plan, history = find_known(tx, "ada", now), find_plan(tx, "ada"), history_of(tx, "ada")
    assert known.profile is not None
    return replan(known.profile, history, now.date(), plan)


def after_silence(wire: OnTheWire) -> datetime:
    """A day after six weeks with every session done and more than three months of silence."""
    start = datetime(2026, 3, 2, 20, tzinfo=UTC)
    for day in range((HEARD - start).days + 1):
        wire.says((start + timedelta(days=day)).isoformat(), "done")
    return HEARD + timedelta(days=170)


def running(session: Json) -> list[Json]:
    return [each for each in session["segments"] if each["do"] == "run"]  # type: ignore[attr-defined]


def test_a_pause_that_goes_on_into_the_next_week_leaves_no_plan_beyond_the_limits(wire: OnTheWire) -> None:
    wire.says("2026-03-01T20:07:00+00:00", "move it to tomorrow")
    wire.says(PAUSED.isoformat(), "pause please")
    later = PAUSED + timedelta(days=4)
    wire.feed({"at": later.isoformat()})
    assert breaches(wire, later) == []


def test_what_is_told_in_a_long_pause_is_the_plan_made_anew(wire: OnTheWire) -> None:
    wire.says(PAUSED.isoformat(), "pause please")
    later = PAUSED + timedelta(days=11)
    monday = datetime(2026, 3, 16, tzinfo=UTC).date()
    wanted = next(each for each in plan_anew(wire, later).weeks if each.monday == monday)
    week = wire.says(later.isoformat(), "show me my week")
    assert [each["date"] for each in week["sessions"]] == [str(each.on) for each in wanted.sessions]  # type: ignore[attr-defined]


def test_the_first_word_after_months_of_silence_is_answered_by_a_new_start(wire: OnTheWire) -> None:
    """Four weeks without an outing are a new start (common practice, no source)."""
    now = after_silence(wire)
    today = wire.says(now.isoformat(), "what's on today?")
    session: Json = today["session"] or today["next"]  # type: ignore[assignment]
    assert session["minutes"] == 20
    assert running(session) == []
