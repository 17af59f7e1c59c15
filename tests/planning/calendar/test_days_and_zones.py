"""Dates that a zone left out, names of zones, and the night."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import available_timezones

import pytest

from planning.calendar import exists, instant, is_quiet, known_zone, local, names_place


@pytest.mark.parametrize(
    ("tz", "on", "is_there"),
    [
        ("Pacific/Apia", date(2011, 12, 29), True),
        ("Pacific/Apia", date(2011, 12, 30), False),
        ("Pacific/Apia", date(2011, 12, 31), True),
        ("Pacific/Kwajalein", date(1993, 8, 21), False),
        ("America/Nuuk", date(2026, 3, 28), True),
        ("Europe/London", date(2028, 2, 29), True),
    ],
)
def test_a_date_that_a_zone_left_out_does_not_exist(tz: str, on: date, is_there: bool) -> None:
    """IANA tz database; Apia and Kwajalein crossed the date line."""
    assert exists(on, tz) is is_there


def test_one_second_after_the_last_of_december_29_apia_writes_the_31st() -> None:
    """IANA tz database: 2011-12-30 10:00 UTC."""
    assert local(datetime(2011, 12, 30, 9, 59, 59, tzinfo=UTC), "Pacific/Apia").date() == date(2011, 12, 29)
    assert local(datetime(2011, 12, 30, 10, tzinfo=UTC), "Pacific/Apia").date() == date(2011, 12, 31)


@pytest.mark.parametrize(("on", "hours"), [(date(2026, 3, 29), 23), (date(2026, 10, 25), 25), (date(2026, 6, 1), 24)])
def test_days_in_london_have_23_24_or_25_hours(on: date, hours: int) -> None:
    """IANA tz database."""
    midnights = [instant(on + timedelta(days=number), time(0), "Europe/London") for number in (0, 1)]
    assert midnights[1] - midnights[0] == timedelta(hours=hours)


def test_every_zone_of_the_database_is_known() -> None:
    assert [tz for tz in sorted(available_timezones()) if not known_zone(tz)] == []


@pytest.mark.parametrize(
    "name", ["", "Mars/Olympus", "Europe", "../etc/passwd", "/etc/localtime", "posix/Europe/London", "\0", "é" * 300]
)
def test_what_is_no_zone_is_not_known(name: str) -> None:
    assert not known_zone(name)


@pytest.mark.parametrize(
    ("name", "is_place"),
    [
        ("Europe/London", True),
        ("America/Argentina/Ushuaia", True),
        ("EST", False),
        ("Etc/GMT+5", False),
        ("UTC", False),
    ],
)
def test_abbreviations_and_fixed_offsets_name_no_place(name: str, is_place: bool) -> None:
    assert names_place(name) is is_place


@pytest.mark.parametrize(
    ("at", "bed", "wake", "quiet"),
    [
        ("21:59", "22:00", "05:00", False),
        ("22:00", "22:00", "05:00", True),
        ("00:00", "22:00", "05:00", True),
        ("04:59", "22:00", "05:00", True),
        ("05:00", "22:00", "05:00", False),
        ("09:00", "08:00", "16:00", True),
        ("16:00", "08:00", "16:00", False),
        ("12:00", "12:00", "12:00", False),
        ("03:00", None, "05:00", False),
        ("03:00", "22:00", None, False),
    ],
)
def test_the_night_runs_from_bed_to_wake(at: str, bed: str | None, wake: str | None, quiet: bool) -> None:
    clock = [each and time.fromisoformat(each) for each in (at, bed, wake)]
    assert is_quiet(*clock) is quiet
