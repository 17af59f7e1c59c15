"""What invented people write says to the program's own reader what the model means by it."""

from collections.abc import Callable
from datetime import UTC, datetime

import pytest

from bot.conversation.answers import bare_course, bare_number, bare_side, names_clinician, says_no, says_yes
from bot.conversation.says import Asks
from bot.reading import read
from bot.reading.facts import Asked, Reading, Want
from bot.trial.data import answers, natures, parts, phrases

AT = datetime(2026, 3, 4, 19, tzinfo=UTC)
Means = Callable[[Reading], object]

MEANS: dict[str, Means] = {
    "done": lambda said: said.did and said.did[0].minutes in (None, 17) and not said.missed,
    "part": lambda said: said.did and said.did[0].minutes == 17,
    "sore": lambda said: [(each.part, each.level) for each in said.body] == [("calf", 3)] and not said.danger,
    "skip": lambda said: said.missed and not said.did,
    "late": lambda said: said.did and not said.missed,
    "ill": lambda said: said.ill,
    "well": lambda said: said.well,
    "danger": lambda said: said.danger,
    "cleared": lambda said: said.wants is Want.CLEARED and names_clinician(said.text),
    "clear": lambda said: said.clear == ("calf",),
    "pause": lambda said: said.wants is Want.PAUSE,
    "back": lambda said: said.wants is Want.RESUME,
    "unsure": lambda said: said.sure == 3,
}


@pytest.mark.parametrize(("name", "text"), [(name, text) for name in MEANS for text in phrases(name)])
def test_a_phrase_is_read_as_it_is_meant(name: str, text: str) -> None:
    said = text.format(minutes=17, level=3, part="calf")
    assert MEANS[name](read(said, AT, "Europe/London", 22, Asked.DONE))


@pytest.mark.parametrize("part", parts())
def test_a_part_is_read_as_a_part(part: str) -> None:
    assert [each.part for each in read(f"{part} sore 3/10", AT, "UTC").body] == [part]


BARE: dict[str, Callable[[str], object]] = {
    "level": bare_number,
    "course": bare_course,
    "side": bare_side,
    "moment": says_no,
    "swelling": says_no,
    "numb": says_no,
    "bears": says_yes,
    "still": says_yes,
    "gone": says_no,
    "seen": says_no,
    "who_when": names_clinician,
}


@pytest.mark.parametrize(("asks", "text"), [(asks, text) for asks in BARE for text in answers(asks)])
def test_a_bare_answer_is_one(asks: str, text: str) -> None:
    assert BARE[asks](text.format(level=3)) not in (None, False)


def test_numbers_are_read_as_what_was_asked() -> None:
    assert read("4", AT, "UTC", 22, Asked.EFFORT).effort == 4
    assert read("8", AT, "UTC", 22, Asked.SURE).sure == 8


def test_every_answer_belongs_to_a_question() -> None:
    named = {each.value for each in Asks} | {"still", "gone"}
    assert {*BARE, "effort", "sure", "why_missed"} <= named


def test_the_kinds_of_people_are_all_people() -> None:
    assert sum(each.share for each in natures()) == pytest.approx(1)
    assert all(0 <= chance <= 1 for each in natures() for chance in (each.talks, each.owns_up, each.answers))
