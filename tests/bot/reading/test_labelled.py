"""The share of labelled replies that is read exactly. The labels are a sample: the reader is built for their voices."""

import pytest

from tests.bot.reading.scoring import facts, labelled, same, wanted

OPEN = ("open", "open_a", "open_b")
ALL = (*OPEN, "more", "fresh")
VOICES = (
    "voices_harder_b",
    "voices_lean_g",
    "voices_blind_k",
    "voices_blind_l",
    "voices_blind_m",
    "voices_blind_s",
    "signs_blind",
    "signs_blind_b",
    "signs_blind_c",
    "voices_a",
    "voices_b",
    "voices_c",
    "voices_p",
    "voices_r",
    "voices_u",
)
HARDER = ("voices_harder", "signs_harder")
LETTERS = (
    *(f"voices_{letter}" for letter in "defghijklmnoqstvwxyz"),
    "voices_blind",
    *(f"voices_blind_{letter}" for letter in "bcdefghijnopqr"),
)


@pytest.mark.parametrize("name", [*ALL, *LETTERS])
def test_at_least_97_percent_are_read_exactly(name: str) -> None:
    replies = list(labelled(name))
    wrong = [
        reply.text
        for reply in replies
        if not same(facts(reply.text, reply.at, reply.tz, reply.planned_min, reply.asked), wanted(reply))
    ]
    assert len(wrong) <= 0.03 * len(replies), wrong


@pytest.mark.parametrize(("name", "share"), [*((name, 0.9) for name in VOICES), *((name, 0.8) for name in HARDER)])
def test_most_of_other_voices_are_read_exactly(name: str, share: float) -> None:
    replies = list(labelled(name))
    right = [
        reply
        for reply in replies
        if same(facts(reply.text, reply.at, reply.tz, reply.planned_min, reply.asked), wanted(reply))
    ]
    assert len(right) >= share * len(replies)


@pytest.mark.parametrize("name", [*ALL, *VOICES, *LETTERS, *HARDER])
def test_no_danger_is_missed(name: str) -> None:
    for reply in labelled(name):
        if wanted(reply).get("danger"):
            assert facts(reply.text, reply.at, reply.tz, reply.planned_min, reply.asked).get("danger"), reply.text


def test_false_danger_stays_below_one_percent() -> None:
    replies = [reply for name in (*ALL, *VOICES) for reply in labelled(name) if not wanted(reply).get("danger")]
    false = [reply.text for reply in replies if facts(reply.text, reply.at, reply.tz).get("danger")]
    assert len(false) <= 0.01 * len(replies), false


def test_there_are_840_open_and_own_replies() -> None:
    assert sum(1 for name in OPEN for _ in labelled(name)) == 540
    assert sum(1 for name in ("more", "fresh") for _ in labelled(name)) >= 300
