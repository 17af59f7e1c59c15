"""Flights at random minutes, also over the date line: each planned day gets its one push, or a line why not."""

from collections import Counter
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from random import Random

import pytest

from bot.store.plans import find_plan
from tests.support.people import ada
from tests.support.wire import Json, OnTheWire

START = datetime(2026, 3, 1, 20, tzinfo=UTC)
DAYS = 14
FLIGHTS = 4
CITIES = ("Auckland", "Los Angeles", "Tokyo", "Chicago", "Honolulu", "Sydney", "London", "Delhi")
WEEK = {"mon": "07:00", "tue": "18:30", "thu": "06:40", "sat": "09:00", "sun": "21:00"}


def lines(random: Random) -> list[Json]:
    """Two weeks: a word each noon, so that nobody is silent, and some flights."""
    noons = [(day * 24 * 60 + 16 * 60, "thanks") for day in range(DAYS)]
    flights = [(random.randrange(60, DAYS * 24 * 60), f"I'm in {random.choice(CITIES)} now") for _ in range(FLIGHTS)]
    return [
        {"at": (START + timedelta(minutes=minute)).isoformat(), "id": f"u-{place}", "chat": "ada", "text": text}
        for place, (minute, text) in enumerate(sorted(noons + flights))
    ]


def pushed(out: list[Json]) -> Counter[str]:
    """How often the session of each local date was sent."""
    return Counter(each["about"]["session"]["date"] for each in out if each["about"]["kind"] == "today")  # type: ignore[index]


def planned(run: OnTheWire) -> list[str]:
    """Local dates with a session in the two weeks."""
    with run.store.begin() as tx:
        plan = find_plan(tx, "ada")
    assert plan is not None
    return [each.on.isoformat() for each in plan.sessions if each.on <= date(2026, 3, DAYS)]


@pytest.mark.parametrize("seed", [*range(8), *(pytest.param(each, marks=pytest.mark.nightly) for each in range(8, 60))])
def test_each_planned_day_gets_its_push_or_a_line_why_not(tmp_path: Path, seed: int) -> None:
    run = OnTheWire.on(tmp_path / "run.sqlite3", ada(coach=None, days=WEEK))
    run.feed({"at": START.isoformat()})
    out = run.feed(*lines(Random(seed)), {"at": (START + timedelta(days=DAYS + 2)).isoformat()})
    sent = pushed(out)
    told = sum("went by on the way" in str(each["text"]) for each in out)
    assert [day for day, count in sent.items() if count > 1] == []
    assert len([day for day in planned(run) if not sent[day]]) <= told


def test_a_flight_that_takes_the_hour_away_says_so_and_counts_no_miss(tmp_path: Path) -> None:
    run = OnTheWire.on(tmp_path / "run.sqlite3", ada(coach=None, days=WEEK))
    run.feed({"at": "2026-03-03T08:00:00+00:00"})
    told = run.says("2026-03-03T17:00:00+00:00", "I'm in Auckland now")
    assert told["kind"] == "changed"
    assert "went by on the way" in str(run.out[-2]["text"])
    run.feed({"at": "2026-03-05T12:00:00+00:00"})
    assert [each for each in run.data()["entries"] if each["date"] == "2026-03-03"] == []  # type: ignore[union-attr, index]


def test_the_hour_that_has_just_gone_by_on_the_way_comes_at_once(tmp_path: Path) -> None:
    run = OnTheWire.on(tmp_path / "run.sqlite3", ada(coach=None, days=WEEK))
    run.feed({"at": START.isoformat()})
    run.says("2026-03-04T20:13:00+00:00", "I'm in Sydney now")
    (push,) = run.feed({"at": "2026-03-04T20:14:00+00:00"})
    assert push["about"]["session"]["date"] == "2026-03-05"  # type: ignore[index]
