"""Every text that goes out can be read at US grade 6, shames nobody, and claims nothing that isn't known.

The grade is that of Flesch and Kincaid (Kincaid et al. 1975, Naval Technical Training Command, report 8-75):
0.39 x words per sentence + 11.8 x syllables per word - 15.59, as textstat counts it. Slots are filled with usual
values, and each line is a sentence. Of fewer than eight words the formula says little; those are measured together.
"""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from textstat import textstat

from bot.words.catalogue import catalogue

GRADE = 6
FEWEST = 8
"""Words of a text that is measured by itself."""


class Usual(dict[str, str]):
    """Usual values of slots; any other is a name."""

    def __missing__(self, name: str) -> str:
        return "Ada"


SLOTS = Usual(
    emergency="999 or 112",
    crisis="Samaritans on 116 123",
    eating="your doctor",
    session="25 min: walk 5, 5 x (run 1, walk 2), walk 5",
    next="Wed 4 Mar 18:30, walk 20 min",
    done="walk 20 min",
    how="You should be able to talk.",
    parts="The knee",
    parts_said="the knee",
    why_list="You asked for it.",
    week_list="Mon 2 Mar 07:00, walk 20 min",
    segments_said="rest 2 min, walk 5 min",
    day="Friday",
    low="2",
    high="3",
    **dict.fromkeys(("time", "at_time", "clock"), "18:30"),
    **dict.fromkeys(("minutes", "was", "left", "sessions_done", "minutes_done", "longest_done"), "20"),
    **dict.fromkeys(("weight", "trend"), "99"),
)


def texts() -> Iterator[tuple[str, str]]:
    """All sentences by name, each wording apart."""
    words = catalogue()
    for name, wordings in words.say.items():
        yield from ((name, text.format_map(SLOTS)) for text in wordings)
    for table in (words.how, words.why):
        yield from ((name, text.format_map(SLOTS)) for name, text in table.items())


TEXTS = [(name, text) for name, text in texts() if text.strip()]
LABELS = [*catalogue().button.items(), *catalogue().part.items(), *catalogue().do.items()]
LONG = [(name, text) for name, text in TEXTS if len(text.split()) >= FEWEST]


def as_sentences(text: str) -> str:
    """Each line ends as a sentence does."""
    lines = (line.strip(" -") for line in text.splitlines() if line.strip())
    return " ".join(line if line[-1] in ".?!" else f"{line}." for line in lines)


def grade(text: str) -> float:
    return float(textstat.flesch_kincaid_grade(as_sentences(text)))


@pytest.mark.parametrize(("name", "text"), LONG)
def test_a_text_can_be_read_at_grade_six(name: str, text: str) -> None:
    assert grade(text) <= GRADE


def test_all_that_is_said_can_be_read_at_grade_six() -> None:
    assert grade("\n".join(text for _, text in TEXTS)) <= GRADE - 2


def test_brief_texts_together_can_be_read_at_grade_six() -> None:
    assert grade("\n".join(text for name, text in TEXTS if (name, text) not in LONG)) <= GRADE


def test_the_measure_is_the_published_formula() -> None:
    """Six words of one syllable in one sentence: 0.39 x 6 + 11.8 - 15.59."""
    assert grade("The cat sat on the mat.") == pytest.approx(-1.45, abs=0.06)


def test_the_measure_tells_what_is_hard_to_read() -> None:
    hard = "Individuals experiencing persistent discomfort should immediately discontinue physical activity altogether."
    assert grade(hard) > 2 * GRADE


RULES = tomllib.loads(Path(__file__).with_name("banned.toml").read_text(encoding="utf-8"))
CLAIMS = [(claim["pattern"], claim["seen"]) for claim in RULES["claim"]]


def found(pattern: str, text: str) -> bool:
    return re.search(pattern, text.casefold()) is not None


def unquoted(text: str) -> str:
    """Without what people are shown that they may write."""
    return re.sub(r'"[^"]*"', "", text)


@pytest.mark.parametrize("word", RULES["words"])
def test_no_text_blames_or_shames(word: str) -> None:
    assert [name for name, text in [*TEXTS, *LABELS] if found(rf"\b{word}\b", text)] == []


def test_no_session_is_belittled() -> None:
    assert [name for name, text in TEXTS if found(RULES["belittling"], unquoted(text))] == []


@pytest.mark.parametrize(("claim", "seen"), CLAIMS)
def test_nothing_is_claimed_that_is_not_known(claim: str, seen: str) -> None:
    assert [name for name, text in [*TEXTS, *LABELS] if found(claim, text)] == []
    assert found(claim, seen)


@pytest.mark.parametrize(
    "text", ["You failed.", "Burn off that cake", "No excuses", "Get back on track", "an obese man"]
)
def test_a_banned_word_would_be_seen(text: str) -> None:
    assert any(found(rf"\b{word}\b", text) for word in RULES["words"])


def test_a_belittled_session_would_be_seen() -> None:
    assert found(RULES["belittling"], "Just a short run today.")


def test_no_text_shouts() -> None:
    assert [name for name, text in [*TEXTS, *LABELS] if "!" in text] == []
