"""One push for each planned day, in every time zone there is, at every half hour, around every change of the clocks.

The expected instant is found the other way round: minute by minute from UTC to the wall, as RFC 8536 data say, and the
first minute taken at which the wall shows the wanted time or later on that date; where that date has none, the last
minute before.
"""

from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime, time, timedelta
from functools import cache
from itertools import pairwise
from zoneinfo import ZoneInfo, available_timezones

import pytest

from bot.conversation.events import DueKind
from planning.calendar import instant
from planning.terms.choices import Weekday
from planning.terms.person import DayTime
from tests.support.days import Days, sessions_of
from tests.support.profiles import a_person

FIRST, DAYS = date(2026, 1, 1), 730
MINUTE, DAY = timedelta(minutes=1), timedelta(days=1)
TIMES = tuple(time(hour, minute) for hour in range(24) for minute in (0, 30))
ZONES = tuple(sorted(available_timezones()))
SAMPLE = (
    "Africa/Cairo",
    "America/Nuuk",
    "America/Santiago",
    "Atlantic/Azores",
    "Australia/Lord_Howe",
    "Europe/London",
)
NIGHT = tuple(each for each in TIMES if each < time(4) or each >= time(23))


@cache
def walls(tz: str, day: date) -> tuple[tuple[datetime, datetime], ...]:
    """Each minute around *day*: the instant, and what the wall shows."""
    zone, start = ZoneInfo(tz), datetime.combine(day, time(0), UTC) - timedelta(hours=27)
    moments = (start + place * MINUTE for place in range(54 * 60 + 24 * 60))
    return tuple((moment, moment.astimezone(zone).replace(tzinfo=None)) for moment in moments)


def expected(tz: str, day: date, at: time) -> datetime:
    """When the push of *day* has to come."""
    wanted = datetime.combine(day, at)
    later = [moment for moment, wall in walls(tz, day) if wall >= wanted and wall.date() == day]
    return later[0] if later else max(moment for moment, wall in walls(tz, day) if wall < wanted)


def changes(tz: str) -> Iterator[date]:
    """Days on which the clocks are changed."""
    zone = ZoneInfo(tz)
    for place in range(DAYS):
        day = FIRST + place * DAY
        before, after = (datetime.combine(each, time(12), zone).utcoffset() for each in (day - DAY, day))
        if before != after:
            yield day


def pushes(tz: str, at: time, first: date, days: int) -> list[tuple[date, datetime]]:
    """Planned date and instant of each push of a stretch of daily sessions."""
    given = tuple(DayTime(day, at) for day in Weekday)
    person = a_person(tz=tz, days=given, begin=first)
    run = Days.of(person, sessions_of(given, first, 1)[:days], datetime.combine(first - DAY, time(0), UTC))
    run.run(datetime.combine(first + (days + 2) * DAY, time(0), UTC))
    return [(each.due.on, each.at) for each in run.told(DueKind.PUSH)]


def check(tz: str, times: tuple[time, ...], most: int = 99) -> int:
    """How many changes of the clocks were looked at."""
    found = list(changes(tz))[:most]
    for change in found:
        for at in times:
            first = change - 2 * DAY
            got = pushes(tz, at, first, 5)
            assert Counter(day for day, _ in got) == Counter(first + place * DAY for place in range(5)), (tz, at)
            for day, moment in got:
                if abs(day - change) <= DAY:
                    assert moment == expected(tz, day, at), (tz, day, at)
    return len(found)


@pytest.mark.parametrize("tz", SAMPLE)
def test_each_planned_day_gets_one_push_when_the_clocks_change(tz: str) -> None:
    assert check(tz, NIGHT[::2], most=2) == 2


@pytest.mark.nightly
@pytest.mark.parametrize("part", range(16))
def test_in_every_zone_each_planned_day_gets_one_push(part: int) -> None:
    assert sum(check(tz, NIGHT) for tz in ZONES[part::16]) >= 10
    walls.cache_clear()


@pytest.mark.nightly
@pytest.mark.parametrize("part", range(16))
def test_in_every_zone_at_every_half_hour_of_two_years_days_follow_each_other(part: int) -> None:
    for tz in ZONES[part::16]:
        for at in TIMES:
            moments = [instant(FIRST + place * DAY, at, tz) for place in range(DAYS)]
            gaps = {later - earlier for earlier, later in pairwise(moments)}
            assert timedelta(hours=20) < min(gaps), (tz, at)
            assert max(gaps) < timedelta(hours=28), (tz, at)


def test_a_day_that_a_country_left_out_makes_no_push_early_or_twice() -> None:
    """Samoa went over the date line at the end of 29 December 2011: 30 December was not (IANA, file australasia)."""
    for at in (time(0), time(7), time(23, 30)):
        moments = [instant(date(2011, 12, day), at, "Pacific/Apia") for day in (29, 30, 31)]
        assert moments == sorted(moments)
        assert moments[1] <= moments[2]
