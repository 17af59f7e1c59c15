"""Units, number words, days and times against libraries made for them."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pint
import pytest
from dateutil.relativedelta import FR, MO, SA, SU, TH, TU, WE, relativedelta
from hypothesis import given
from hypothesis import strategies as st
from text_to_num import text2num

from bot.reading import as_json, read
from planning.terms.choices import Sense

AT = datetime(2026, 5, 13, 18, 20)  # noqa: DTZ001 - the wall time of the sender
UNITS = pint.UnitRegistry()
WORDS = {
    1: "one", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight", 9: "nine", 10: "ten",
    11: "eleven", 12: "twelve", 13: "thirteen", 14: "fourteen", 15: "fifteen", 16: "sixteen", 17: "seventeen",
    18: "eighteen", 19: "nineteen", 20: "twenty", 30: "thirty", 40: "forty", 50: "fifty", 60: "sixty", 70: "seventy",
    80: "eighty", 90: "ninety",
}  # fmt: skip


@given(st.integers(1, 99), st.sampled_from(["mile", "kilometer"]))
def test_distances_agree_with_pint(n: int, unit: str) -> None:
    km = read(f"walked {n} {unit}s", AT, "UTC").did[0].km
    assert km == pytest.approx(UNITS.Quantity(n, unit).to("km").magnitude)


@given(st.integers(8, 30), st.integers(0, 13))
def test_stones_and_pounds_agree_with_pint(stones: int, pounds: int) -> None:
    kg = read(f"weighed {stones}st {pounds}", AT, "UTC").weight_kg
    expected = UNITS.Quantity(stones, "stone") + UNITS.Quantity(pounds, "pound")
    assert kg == pytest.approx(expected.to("kg").magnitude, abs=0.006)


@given(st.integers(100, 400))
def test_pounds_agree_with_pint(pounds: int) -> None:
    kg = read(f"i weigh {pounds} lb", AT, "UTC").weight_kg
    assert kg == pytest.approx(UNITS.Quantity(pounds, "pound").to("kg").magnitude, abs=0.006)


@given(st.integers(60, 110))
def test_degrees_fahrenheit_agree_with_pint(f: int) -> None:
    weather = read(f"{f} degrees fahrenheit out", AT, "UTC").weather
    assert weather is not None
    assert weather.c == pytest.approx(UNITS.Quantity(f, "degF").to("degC").magnitude, abs=0.06)


@pytest.mark.parametrize("n", range(1, 100))
def test_number_words_agree_with_text2num(n: int) -> None:
    words = WORDS[n] if n in WORDS else f"{WORDS[n // 10 * 10]} {WORDS[n % 10]}"
    assert read(f"walked {words} minutes", AT, "UTC").did[0].minutes == text2num(words, "en") == n


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("half an hour", 30), ("an hour and a quarter", 75), ("90 sec", 1.5), ("10ish", 10), ("10-12 min", 11),
        ("32:10", 32 + 10 / 60), ("1:05:00", 65), ("an hour and 20 minutes", 80), ("1h20", 80), ("1 hr 10", 70),
        ("two and a half hours", 150), ("three quarters of an hour", 45), ("2 min 30 sec", 2.5), ("1½ hours", 90),
        ("a hundred and five minutes", 105), ("20-odd minutes", 20), ("15 or 20 minutes", 17.5), ("40'", 40),
    ],
)  # fmt: skip
def test_lengths_of_time_are_read(text: str, minutes: float) -> None:
    assert read(f"walked {text}", AT, "UTC").did[0].minutes == pytest.approx(minutes)


DAYS = {"monday": MO, "tuesday": TU, "wednesday": WE, "thursday": TH, "friday": FR, "saturday": SA, "sunday": SU}


@given(st.dates(date(2024, 1, 1), date(2029, 12, 31)), st.sampled_from(sorted(DAYS)))
def test_weekdays_agree_with_relativedelta(day: date, name: str) -> None:
    at = datetime.fromisoformat(f"{day}T12:00")
    coming = day + timedelta(days=1) + relativedelta(weekday=DAYS[name](+1))
    last = day - timedelta(days=1) + relativedelta(weekday=DAYS[name](-1))
    assert as_json(read(f"move it to {name}", at, "UTC"))["move_to"] == coming.isoformat()
    assert read(f"walked 20 on {name}", at, "UTC").did[0].on == last


@given(st.dates(date(2024, 1, 1), date(2029, 12, 31)), st.integers(1, 28))
def test_until_a_day_of_the_month_ends_the_day_before(day: date, number: int) -> None:
    off = read(f"away until the {number}{_ending(number)}", datetime.fromisoformat(f"{day}T12:00"), "UTC").off
    back = day.replace(day=number) if number >= day.day else day + relativedelta(months=1, day=number)
    assert off is not None
    assert off.last == back - relativedelta(days=1)


def _ending(number: int) -> str:
    return "th" if 10 < number % 100 < 14 else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")


@pytest.mark.parametrize(
    ("at", "text", "day"),
    [
        ("2026-12-31T18:00", "move it to tomorrow", "2027-01-01"),
        ("2028-02-28T18:00", "move it to tomorrow", "2028-02-29"),
        ("2027-02-28T18:00", "move it to tomorrow", "2027-03-01"),
        ("2026-03-28T23:30", "move it to tomorrow at 7", "2026-03-29T07:00"),
        ("2026-10-24T12:00", "move it to tomorrow at 1:30", "2026-10-25T13:30"),
    ],
)
def test_month_ends_leap_days_and_clock_changes(at: str, text: str, day: str) -> None:
    moment = datetime.fromisoformat(at).replace(tzinfo=ZoneInfo("Europe/London"))
    assert as_json(read(text, moment, "Europe/London"))["move_to"] == day


@given(st.integers(0, 23), st.integers(0, 59), st.integers(1, 12))
def test_a_bare_hour_is_the_next_one_to_come(hour: int, minute: int, said: int) -> None:
    at = datetime.fromisoformat(f"2026-05-13T{hour:02}:{minute:02}")
    found = read(f"remind me at {said}", at, "UTC").later_at
    assert found is not None
    assert found.hour % 12 == said % 12
    later = [h for h in (said % 12, said % 12 + 12) if h * 60 > hour * 60 + minute]
    assert not later or found.hour == later[0]


@pytest.mark.parametrize(
    ("words", "effort"), [ ("very easy", 1), ("easy", 2), ("moderate", 3), ("somewhat hard", 4), ("hard", 5),
     ("very hard", 7), ("maximal", 10), ],
)  # fmt: skip
def test_effort_words_have_the_published_anchors(words: str, effort: float) -> None:
    """LOAD-02: session ratings on the CR-10 scale, table 1 of J Sports Sci Med 5:289 (2006)."""
    assert read(f"that was {words}", AT, "UTC").effort == effort


@pytest.mark.parametrize(
    ("text", "doubtful"),
    [
        ("did 900 min", True), ("ran 5 km in 20 min", True), ("3 km in 5 min", True), ("walked 12 km in 60 min", True),
        ("walked 5 km in 60 min", False), ("ran 5k in 38:20", False), ("did 25", False), ("walked 3 hours", False),
    ],
)  # fmt: skip
def test_amounts_that_are_hard_to_believe_are_marked(text: str, doubtful: bool) -> None:
    """PACE-07: brisk walking 5.5-6.4 km/h and beginner jogs 6-8 km/h (published speeds, from memory)."""
    assert read(text, AT, "UTC", 25).did[0].doubtful is doubtful


@pytest.mark.parametrize(
    ("text", "fever"),
    [
        ("temp 37.4", False), ("temp 37.5", True), ("temp 42.5", True), ("temp 42.6", False),
        ("temp 99.4", False), ("temp 99.5", True), ("temp 108", True), ("temp 109", False),
    ],
)  # fmt: skip
def test_a_fever_has_its_degrees(text: str, fever: bool) -> None:
    """37.5 to 42.5 C, as degrees Fahrenheit too (common practice, no source); else they are of the air."""
    found = read(text, AT, "UTC")
    assert (found.fever, found.weather is None) == (fever, fever)


@pytest.mark.parametrize("degrees", ["37", "37.2", "38.9", "40", "99.1", "101.3"])
def test_degrees_of_a_fever_are_no_minutes(degrees: str) -> None:
    found = read(f"fever, {degrees}", AT, "UTC", 25)
    assert (found.fever, found.did) == (True, ())


def test_the_graver_of_two_senses_wins() -> None:
    assert read("left knee sore and swollen", AT, "UTC").body[0].sense is Sense.SWOLLEN
