"""Local day and time to instant: published clock changes, and a slow oracle that looks at every minute."""

from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from zoneinfo import ZoneInfo, available_timezones

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning.calendar import exists, instant, local
from tests.published import table

CASES = table("clock_changes")["case"]
MINUTE = timedelta(minutes=1)


@pytest.mark.parametrize("case", CASES, ids=[f"{case['tz']} {case['at']}" for case in CASES])
def test_clock_changes_give_the_instants_worked_out_by_hand(case: dict) -> None:
    assert instant(case["at"].date(), case["at"].time(), case["tz"]) == case["utc"]


@pytest.mark.parametrize("case", CASES, ids=[f"{case['tz']} {case['at']}" for case in CASES])
def test_only_a_time_that_does_not_exist_is_shown_as_another(case: dict) -> None:
    shown = local(instant(case["at"].date(), case["at"].time(), case["tz"]), case["tz"])
    assert (shown.replace(tzinfo=None) == case["at"]) is (case["is"] != "jump")


def oracle(on: date, at: time, tz: str) -> datetime:
    """The rule of the house by looking at every minute of three days."""
    zone, wanted = ZoneInfo(tz), datetime.combine(on, at)
    start = wanted.replace(tzinfo=UTC) - timedelta(hours=26)
    minutes = [start + MINUTE * number for number in range(52 * 60)]
    walls = [each.astimezone(zone).replace(tzinfo=None) for each in minutes]
    if wanted in walls:
        return minutes[walls.index(wanted)]
    after = next(index for index, wall in enumerate(walls) if wall > wanted and walls[index - 1] < wanted)
    is_next_date = walls[after].date() != on and walls[after - 1].date() == on
    return minutes[after - 1 if is_next_date else after]


@cache
def changes() -> list[tuple[str, date]]:
    """Every zone with each of its days of 2026 on which the clocks change."""
    days = [date(2025, 12, 31) + timedelta(days=number) for number in range(367)]
    found = []
    for tz in sorted(available_timezones()):
        offsets = [datetime.combine(day, time(12), ZoneInfo(tz)).utcoffset() for day in days]
        found += [(tz, days[index]) for index in range(1, len(days)) if offsets[index] != offsets[index - 1]]
    return found


def test_many_zones_change_their_clocks() -> None:
    assert len({tz for tz, _ in changes()}) > 150


@given(st.data())
@settings(max_examples=60, deadline=None)
def test_around_every_change_it_agrees_with_looking_at_every_minute(data: st.DataObject) -> None:
    tz, day = data.draw(st.sampled_from(changes()))
    on = day - timedelta(days=data.draw(st.integers(0, 1)))
    at = time(data.draw(st.sampled_from([0, 1, 2, 3, 4, 23])), data.draw(st.integers(0, 59)))
    assert instant(on, at, tz) == oracle(on, at, tz)


@given(
    st.sampled_from(sorted(available_timezones())),
    st.dates(date(1990, 1, 1), date(2037, 12, 31)),
    st.times().map(lambda at: at.replace(second=0, microsecond=0)),
)
@settings(max_examples=200, deadline=None)
def test_what_is_meant_for_a_day_stays_on_it(tz: str, on: date, at: time) -> None:
    assert local(instant(on, at, tz), tz).date() == on or not exists(on, tz)


@given(
    st.sampled_from(["Europe/Berlin", "America/Nuuk", "Africa/Cairo", "Australia/Lord_Howe"]),
    st.dates(date(2026, 1, 1), date(2027, 12, 31)),
    st.integers(0, 1438),
)
@settings(max_examples=200, deadline=None)
def test_a_later_wall_time_of_a_day_is_never_an_earlier_instant(tz: str, on: date, minute: int) -> None:
    early, late = (time(each // 60, each % 60) for each in (minute, minute + 1))
    assert instant(on, early, tz) <= instant(on, late, tz)


@pytest.mark.nightly
def test_every_change_of_2026_at_every_half_hour_of_its_night() -> None:
    times = [time(hour, minute) for hour in (0, 1, 2, 3, 4, 23) for minute in (0, 30)]
    for tz, day in changes():
        for on in (day - timedelta(days=1), day):
            assert [instant(on, at, tz) for at in times] == [oracle(on, at, tz) for at in times], (tz, on)
