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
HARDER = ("voices_harder", "signs_harder", "signs_blind_d")
LETTERS = (
    *(f"voices_{letter}" for letter in "defghijklmnoqstvwxyz"),
    "voices_blind",
    *(f"voices_blind_{letter}" for letter in "bcdefghijnopqrt"),
)
SHARES = (
    *((name, 0.97) for name in (*ALL, *LETTERS)),
    *((name, 0.9) for name in VOICES),
    *((name, 0.8) for name in HARDER),
)
LOOK_ALIKES = 0.08
"""Of replies written to look like danger so many may be taken for it; of all others one in a hundred, and two more."""


@pytest.mark.parametrize(("name", "share"), SHARES)
def test_a_set_is_read_no_danger_is_missed_and_hardly_any_is_false(name: str, share: float) -> None:
    wrong, missed, false = [], [], []
    replies = list(labelled(name))
    for reply in replies:
        want = wanted(reply)
        read = facts(reply.text, reply.at, reply.tz, reply.planned_min, reply.asked)
        if not same(read, want):
            wrong.append(reply.text)
        if want.get("danger") and not read.get("danger"):
            missed.append(reply.text)
        if read.get("danger") and not want.get("danger"):
            false.append(reply.text)
    assert not missed
    assert len(wrong) <= (1 - share) * len(replies), wrong
    assert len(false) <= (LOOK_ALIKES if name.startswith("signs") else 0.01) * len(replies) + 2, false


def test_there_are_840_open_and_own_replies() -> None:
    assert sum(1 for name in OPEN for _ in labelled(name)) == 540
    assert sum(1 for name in ("more", "fresh") for _ in labelled(name)) >= 300
