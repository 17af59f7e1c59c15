"""Replies that are nothing but a word of the product, and questions that tell nothing."""

from datetime import datetime

import pytest

from tests.bot.reading.scoring import facts

AT = datetime.fromisoformat("2026-03-04T18:20")


@pytest.mark.parametrize("dress", ["{}", "{} please", "{} pls?", "{}!", " {} "])
@pytest.mark.parametrize("word", ["week", "data", "leave", "today", "coach", "help", "undo", "why", "easier", "harder"])
def test_a_bare_word_of_the_product_is_the_want_of_that_name(word: str, dress: str) -> None:
    assert facts(dress.format(word), AT) == {"wants": word}
    assert facts(dress.format(word).upper(), AT) == {"wants": word}


@pytest.mark.parametrize("text", ["later", "remind me later", "Not now", "in a bit"])
def test_bare_later_is_an_hour(text: str) -> None:
    assert facts(text, AT) == {"later_min": 60.0}


@pytest.mark.parametrize(
    "text",
    [
        "/start",
        "any tips for my first 10k?",
        "is 62 too old for a half marathon?",
        "is stretching needed?",
        "should I skip today?",
        "will I ever run without walking?",
        "my hay fever is awful, should I stay in?",
        "is running bad for my knees?",
        "how do I avoid a hypo?",
        "do I skip my heart tablets before a run?",
    ],
)
def test_a_question_reports_nothing(text: str) -> None:
    assert facts(text, AT) == {}


@pytest.mark.parametrize(
    ("text", "asked", "want"),
    [
        ("left knee hurts 3/10", "effort", {"body": [{"part": "knee", "side": "left", "sense": "pain", "level": 3.0}]}),
        ("all gone. can we move it to tomorrow", "pain", {"clear": ["body"], "move_to": "2026-03-05"}),
        ("couldn't do thursday's", None, {"missed": True, "missed_day": "2026-02-26"}),
        ("asleep half the walk", None, {}),
        ("ankle is clear now", None, {"clear": ["ankle"]}),
        ("didn't go, child ill", None, {"missed": True}),
        ("lightheaded when I stand up", None, {"danger": ["faint"]}),
    ],
)
def test_what_stands_beside_a_question_keeps_its_own_meaning(
    text: str, asked: str | None, want: dict[str, object]
) -> None:
    assert facts(text, AT, asked=asked) == want
