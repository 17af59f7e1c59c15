"""Where help is: every country has an answer, every number a source and a date, and the right one reaches the text."""

from datetime import date, timedelta
from importlib.resources import files

import pytest

from bot.conversation.says import Facts, Kind, Say
from bot.conversation.topics.care import caring
from bot.conversation.topics.danger import urgent
from bot.conversation.topics.where import where
from bot.forms import profile_from_json
from bot.words.helplines import ELSEWHERE, HelpLine, elsewhere, help_line, help_lines, help_slots
from bot.words.render import render
from planning.terms.choices import Danger
from tests.support.people import ada

REVIEWED = date(2026, 11, 25)
"""The day of the last review of the numbers. Whoever reviews them moves it, and the dates of the entries with it."""

TODAY = date(2026, 3, 2)
YEAR = timedelta(days=365)


def iso_countries() -> tuple[str, ...]:
    """ISO 3166-1 alpha-2 codes, from the tz database (`iso3166.tab`, public domain)."""
    text = files("tzdata.zoneinfo").joinpath("iso3166.tab").read_text(encoding="utf-8")
    return tuple(line.split("\t")[0] for line in text.splitlines() if line and not line.startswith("#"))


ENTRIES = {code: entry for code, entry in help_lines().items() if code != ELSEWHERE}


def stale(entries: dict[str, HelpLine], on: date) -> list[str]:
    """Countries whose entry was not checked within twelve months before *on*, or has no date."""
    return [code for code, each in entries.items() if each.checked is None or on - each.checked > YEAR]


def test_no_entry_is_older_than_a_year() -> None:
    assert stale(ENTRIES, REVIEWED) == []


def test_an_entry_goes_stale_a_year_after_its_check() -> None:
    assert stale(ENTRIES, REVIEWED + YEAR) == []
    assert set(stale(ENTRIES, REVIEWED + YEAR + timedelta(days=1))) == set(ENTRIES)


def test_no_entry_was_checked_after_the_review() -> None:
    assert [code for code, each in ENTRIES.items() if each.checked and each.checked > REVIEWED] == []


@pytest.mark.parametrize("country", iso_countries())
def test_every_country_has_an_answer(country: str) -> None:
    entry = help_line(country)
    assert all((entry.emergency, entry.crisis, entry.eating))


def test_most_people_live_where_a_number_is_known() -> None:
    assert len(ENTRIES) >= 100
    assert set(ENTRIES) <= set(iso_countries())


@pytest.mark.parametrize("country", [None, "", "ZZ", "gb ", "elsewhere", "\ud800"])
def test_anything_else_gets_words_without_a_number(country: str | None) -> None:
    assert help_line(country) == elsewhere()


def test_every_entry_says_where_it_is_from() -> None:
    sources = {each.source for each in ENTRIES.values()}
    assert all("from memory" in each or "2018/1972" in each for each in sources)


EU = "AT BE BG CY CZ DE DK EE ES FI FR GR HR HU IE IT LT LU LV MT NL PL PT RO SE SI SK"


@pytest.mark.parametrize("country", EU.split(" "))
def test_112_answers_all_over_the_european_union(country: str) -> None:
    """Directive (EU) 2018/1972, article 109 (before it Council Decision 91/396/EEC)."""
    assert "112" in help_line(country).emergency.split(" or ")


@pytest.mark.parametrize(
    ("country", "emergency", "crisis"),
    [
        ("GB", "999", "116 123"),
        ("IE", "112", "116 123"),
        ("US", "911", "988"),
        ("CA", "911", "988"),
        ("AU", "000", "13 11 14"),
        ("NZ", "111", "1737"),
        ("DE", "112", "0800 111 0 111"),
        ("FR", "15", "3114"),
        ("IN", "112", "14416"),
        ("JP", "119", "0120 279 338"),
    ],
)
def test_numbers_of_the_countries_with_most_readers_of_english(country: str, emergency: str, crisis: str) -> None:
    """From memory: as the services publish them."""
    assert emergency in help_line(country).emergency.split(" or ")
    assert help_line(country).crisis.endswith(crisis)


def text_of(say: Say) -> str:
    return render(say, TODAY, "Europe/London").text


def crisis_text(code: Danger = Danger.SELF_HARM, **profile: object) -> str:
    return text_of(caring("ada", (code,), slots=where(profile_from_json(ada(**profile)))))


@pytest.mark.parametrize(
    ("profile", "number"),
    [
        ({"tz": "Europe/London", "country": "GB"}, "116 123"),
        ({"tz": "Europe/London"}, "116 123"),
        ({"tz": "America/Chicago"}, "988"),
        ({"tz": "Australia/Perth"}, "13 11 14"),
        ({"tz": "Europe/Berlin", "country": "AT"}, "142"),
    ],
)
def test_despair_gets_the_number_of_the_country_in_the_first_line(profile: dict[str, object], number: str) -> None:
    assert number in crisis_text(**profile).splitlines()[0]


@pytest.mark.parametrize("zone", ["UTC", "Antarctica/Troll", "Africa/Kinshasa"])
def test_despair_elsewhere_gets_words_that_hold_everywhere(zone: str) -> None:
    text = crisis_text(tz=zone)
    assert "your local crisis line" in text.splitlines()[0]
    assert "your local emergency number" in text


def test_trouble_with_eating_gets_a_line_that_knows_about_it() -> None:
    assert "Beat on 0808 801 0677" in crisis_text(Danger.EATING)
    assert "your doctor" in crisis_text(Danger.EATING, tz="Africa/Kinshasa")


def test_an_emergency_names_the_number_in_the_first_line() -> None:
    said = urgent("ada", (Danger.CHEST,), slots=where(profile_from_json(ada(tz="America/New_York"))))
    assert text_of(said).splitlines()[0] == "Stop. Call 911 now."


def test_an_emergency_without_anything_known_still_names_numbers() -> None:
    assert "112, 911, 999" in text_of(urgent("x", (Danger.CHEST,))).splitlines()[0]


def test_on_a_journey_the_number_of_the_place_comes_first() -> None:
    assert help_slots("GB", "US")["emergency"] == "911 or 999 or 112"
    assert help_slots("GB", "FR")["emergency"] == "112 or 15 or 999"
    assert help_slots("ZZ", "FR")["emergency"] == "112 or 15"
    assert help_slots("DE", "FI")["emergency"] == "112"


NEVER = (
    "commit", "suicide attempt", "method", "overdose", "pills", "jump", "attention", "selfish", "why did you",
    "secret", "just between", "nobody will know", "confidential", "promise", "understand how you feel",
    "session", "training", "run", "walk", "plan", "calorie", "weight", "kg", "thin", "!",
)  # fmt: skip
"""Words that a crisis text must not hold: WHO, Preventing suicide: a resource for media professionals (2017, 2023), and
common practice: no method, no blame, no secrecy, no training talk."""


@pytest.mark.parametrize("code", [Danger.SELF_HARM, Danger.EATING])
@pytest.mark.parametrize("country", ["GB", "US", "CD"])
def test_a_crisis_text_holds_no_word_that_harms(code: Danger, country: str) -> None:
    text = crisis_text(code, tz="UTC", country=country).casefold()
    assert [word for word in NEVER if word in text] == []


@pytest.mark.parametrize("code", [Danger.SELF_HARM, Danger.EATING])
def test_a_crisis_text_is_warm_and_short(code: Danger) -> None:
    text = crisis_text(code)
    assert text.splitlines()[0].startswith(("I'm glad you told me", "Thank you for telling me"))
    assert len(text) <= 400
    assert all(len(line) <= 120 for line in text.splitlines())


@pytest.mark.parametrize("country", sorted(ENTRIES))
def test_the_first_line_fits_a_lock_screen_in_every_country(country: str) -> None:
    slots = where(profile_from_json(ada(tz="UTC", country=country)))
    texts = [text_of(caring("x", (Danger.SELF_HARM,), slots=slots)), text_of(urgent("x", (Danger.CHEST,), slots=slots))]
    assert max(len(text.splitlines()[0]) for text in texts) <= 80


def test_who_hears_of_it_is_said() -> None:
    said = caring("ada", (Danger.SELF_HARM,), coach_told=True)
    assert "Your coach has a message" in text_of(said)


def test_other_texts_that_name_a_number_have_one_too() -> None:
    said = Say("ada", Kind.HELP, ("no_coach",), Facts())
    assert "your local emergency number" in text_of(said)
