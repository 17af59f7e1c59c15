"""The survey's sentences: all there, all used, short first lines, plain words.

Reading grade: Kincaid et al. 1975, Derivation of new readability formulas (Flesch-Kincaid grade), syllables counted by
vowel groups, from memory.
"""

import re
import string
from importlib.resources import files

import pytest

from bot.conversation.draft import Step
from bot.conversation.survey.questions import CHOICES
from bot.conversation.survey.shown import TIMELESS, TIMELY
from tests.bot.conversation.survey.talking import WORDS

SAY: dict[str, str] = WORDS["say"]
BUTTON: dict[str, str] = WORDS["button"]
LONGEST = {
    "called": "Maximilian-Alexander the Great",
    "place": "San Francisco",
    "named": "San Francisco",
    "cities": "New York, Chicago, Denver",
    "time": "18:30",
    "days": "Mon, Tue, Wed, Thu, Fri 18:30; Sat, Sun 09:00",
    "begin": "Wed 30 Sep 2026",
    "race_on": "Wed 30 Sep 2026",
    "stops": "10 km Wed 30 Sep 2026",
    "height": "168 cm (5 ft 6)",
    "weight": "104 kg (229 lb)",
    "distance": "10 km",
}
BANNED = re.compile(
    r"\b(obese|fat|lazy|fail\w*|burn off|earn\w*|excuse\w*|cheat\w*|morbid|diet\w*)\b"
    r"|\b(behind|catch up|back on track|slipping)\b"
    r"|\b(easy|short|little|light|only) (session|walk|run|one)|!",
    re.IGNORECASE,
)
GRADE = 6.0
LATER = ("survey_done", "survey_summary_", "survey_consent_", "survey_keep_it")
"""How the names of sentences begin that no message begins with."""


def filled(text: str) -> str:
    names = [name for _, name, _, _ in string.Formatter().parse(text) if name]
    return text.format_map({name: LONGEST.get(name, "120") for name in names})


def code() -> str:
    folder = files("bot.conversation.survey")
    return "\n".join(each.read_text(encoding="utf-8") for each in folder.iterdir() if each.name.endswith(".py"))


def grade(text: str) -> float:
    words = re.findall(r"[a-z']+", text.lower())
    sentences = [each for each in re.split(r"[.?:\n]+", text) if re.search(r"[a-z]", each)]
    syllables = sum(max(1, len(re.findall(r"[aeiouy]+", word.removesuffix("e")))) for word in words)
    return 0.39 * len(words) / len(sentences) + 11.8 * syllables / len(words) - 15.59


@pytest.mark.parametrize("name", [name for name in SAY if not name.startswith(LATER)])
def test_the_first_line_fits_a_lock_screen(name: str) -> None:
    assert len(filled(SAY[name]).splitlines()[0]) <= 80


@pytest.mark.parametrize("name", [*SAY, *BUTTON])
def test_no_sentence_holds_a_banned_word(name: str) -> None:
    assert BANNED.search({**SAY, **BUTTON}[name]) is None


def test_every_slot_has_a_value() -> None:
    slots = {name for text in SAY.values() for _, name, _, _ in string.Formatter().parse(text) if name}
    assert slots - {"named", "cities", "coach", "emergency"} <= {*TIMELESS, *TIMELY}


def test_every_sentence_is_used_and_every_used_one_is_there() -> None:
    used = set(re.findall(r"survey_[a-z0-9_]+", code()))
    built = {f"survey_{kind}_{step}" for kind in ("ask", "why", "got") for step in Step}
    assert set(SAY) - used - built == set()
    assert {name for name in used if not name.endswith("_")} - set(SAY) - set(BUTTON) == set()


def test_every_button_has_a_label_and_every_label_a_button() -> None:
    labels = {choice.label for choices in CHOICES.values() for choice in choices} | {"survey_keep"}
    assert labels == set(BUTTON)


def test_the_text_can_be_read_at_the_sixth_grade() -> None:
    assert grade(" ".join(filled(text) for text in SAY.values())) <= GRADE
