"""Places and the zones whose clocks they use. Zones: tz database (IANA); cities from common knowledge, from memory."""

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation.survey import gazetteer
from bot.conversation.survey.zones import PlaceKind, place_said
from planning.calendar import names_place

NOW = datetime(2026, 3, 2, 18, 5, tzinfo=UTC)

SURE = [
    ("Leeds", "Europe/London"),
    ("I'm in Leeds", "Europe/London"),
    ("london", "Europe/London"),
    ("Berlin", "Europe/Berlin"),
    ("europe/berlin", "Europe/Berlin"),
    ("America/New_York", "America/New_York"),
    ("New York City", "America/New_York"),
    ("NYC", "America/New_York"),
    ("Portland, Oregon", "America/Los_Angeles"),
    ("Portland OR", "America/Los_Angeles"),
    ("Austin, TX", "America/Chicago"),
    ("Portland, Maine", "America/New_York"),
    ("Perth, Scotland", "Europe/London"),
    ("perth australia", "Australia/Perth"),
    ("Manchester UK", "Europe/London"),
    ("Birmingham, England", "Europe/London"),
    ("Birmingham, Alabama", "America/Chicago"),
    ("Cambridge, MA", "America/New_York"),
    ("Atlanta GA", "America/New_York"),
    ("São Paulo", "America/Sao_Paulo"),
    ("zürich", "Europe/Zurich"),
    ("mexico city", "America/Mexico_City"),
    ("Mumbai", "Asia/Kolkata"),
    ("St. John's", "America/St_Johns"),
    ("Vancouver, WA", "America/Los_Angeles"),
    ("nice, Leeds here", "Europe/London"),
    ("Nice", "Europe/Paris"),
    ("Sydney time", "Australia/Sydney"),
    ("just outside glasgow", "Europe/London"),
    ("Melbourne Victoria", "Australia/Melbourne"),
    ("Auckland NZ", "Pacific/Auckland"),
    ("Washington DC", "America/New_York"),
    ("Kathmandu", "Asia/Kathmandu"),
]

NEAR = [
    ("Texas", "America/Chicago"),
    ("UK", "Europe/London"),
    ("Germany", "Europe/Berlin"),
    ("New Zealand", "Pacific/Auckland"),
    ("Mytholmroyd, UK", "Europe/London"),
    ("Liverpol", "Europe/London"),
    ("Copenhagn", "Europe/Copenhagen"),
    ("edinburg", "Europe/London"),
]

OPEN = [
    ("Portland", {"America/Los_Angeles", "America/New_York"}),
    ("Perth", {"Australia/Perth", "Europe/London"}),
    ("hyderabad", {"Asia/Kolkata", "Asia/Karachi"}),
    ("Georgia", {"America/New_York", "Asia/Tbilisi"}),
    ("I moved from Leeds to Berlin", {"Europe/London", "Europe/Berlin"}),
    ("manchestr", {"Europe/London", "America/New_York"}),
]


@pytest.mark.parametrize(("text", "zone"), SURE)
def test_a_city_gives_its_zone(text: str, zone: str) -> None:
    said = place_said(text, NOW)
    assert (said.kind, said.zones) == (PlaceKind.ONE, (zone,))


@pytest.mark.parametrize(("text", "zone"), NEAR)
def test_a_country_or_a_misspelt_city_gives_a_zone_to_be_checked(text: str, zone: str) -> None:
    said = place_said(text, NOW)
    assert (said.kind, said.zones) == (PlaceKind.NEAR, (zone,))


@pytest.mark.parametrize(("text", "zones"), OPEN)
def test_a_name_in_several_zones_is_asked_about(text: str, zones: set[str]) -> None:
    said = place_said(text, NOW)
    assert said.kind is PlaceKind.SEVERAL
    assert zones <= set(said.zones)


@pytest.mark.parametrize("text", ["USA", "Canada", "Australia", "Brazil", "Mexico", "Russia", "Indonesia"])
def test_a_country_of_many_clocks_is_asked_about(text: str) -> None:
    assert place_said(text, NOW).kind is PlaceKind.SEVERAL


@pytest.mark.parametrize(
    "text", ["EST", "gmt", "GMT+1", "UTC-5", "CET", "Eastern time", "PST please", "Etc/GMT+1", "+02:00"]
)
def test_letters_and_offsets_are_no_place(text: str) -> None:
    assert place_said(text, NOW).kind is PlaceKind.LETTERS


@pytest.mark.parametrize("text", ["", "skip", "I don't know", "🙂", "Europe/Atlantis", "qwertzuiop", "home"])
def test_what_is_no_place_gives_none(text: str) -> None:
    assert place_said(text, NOW).kind is PlaceKind.NONE


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("18:05", "Europe/London"),
        ("it's five past seven pm", "Europe/Berlin"),
        ("6:05", "Europe/Dublin"),
        ("23:35", "Asia/Kolkata"),
    ],
)
def test_a_time_of_day_gives_the_places_whose_clocks_show_it(text: str, zone: str) -> None:
    said = place_said(text, NOW)
    assert said.kind is PlaceKind.CLOCK
    assert zone in said.zones


def test_all_zones_of_the_data_file_are_those_of_the_tz_database() -> None:
    known = gazetteer.zone_countries()
    listed = {*gazetteer.table("cities"), *gazetteer.table("countries").values(), *gazetteer.table("offered")["zones"]}
    listed |= {zone for zones in gazetteer.table("regions").values() for zone in zones}
    assert [zone for zone in listed if zone not in known] == []


def test_all_names_of_the_data_file_are_keys_that_can_be_found() -> None:
    names = [name for names in gazetteer.table("cities").values() for name in names]
    names += [*gazetteer.table("countries"), *gazetteer.table("regions"), *gazetteer.table("wide")]
    assert [name for name in names if gazetteer.name_key(name) != name] == []
    assert set(gazetteer.table("codes").values()) <= set(gazetteer.regions())


@given(st.text(max_size=120))
def test_any_text_gives_zones_with_the_rules_of_a_place(text: str) -> None:
    assert all(names_place(zone) for zone in place_said(text, NOW).zones)


@pytest.mark.parametrize("zone", sorted(gazetteer.zone_countries()))
def test_every_zone_can_be_named_in_full(zone: str) -> None:
    assert place_said(zone.lower(), NOW).zones == (zone,)
