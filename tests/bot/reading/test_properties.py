"""What must not change a reading, and what must."""

from datetime import datetime

from hypothesis import given
from hypothesis import strategies as st

from tests.bot.reading.scoring import facts, labelled

AT = datetime(2026, 5, 13, 18, 20)  # noqa: DTZ001 - the wall time of the sender
REPLIES = [
    reply.text
    for name in ("open", "open_a", "open_b")
    for reply in labelled(name)
    if reply.asked is None and len(reply.text.split()) > 2 and reply.text.isascii()
]
texts = st.sampled_from(REPLIES)
COMPLAINTS = ["knee pain", "chest pain", "shin pain", "hip pain", "back pain", "calf pain", "ankle pain", "foot pain"]
CLAUSES = [
    "did 20",
    "left calf tight",
    "effort 4",
    "i feel proud",
    "that's 2 of 4 for me",
    "weight 92.4 kg",
    "right knee sore",
]


@given(texts)
def test_upper_case_changes_no_fact(text: str) -> None:
    assert facts(text.upper(), AT) == facts(text, AT)


@given(texts, st.integers(2, 4))
def test_extra_spaces_change_no_fact(text: str, count: int) -> None:
    assert facts("  " + text.replace(" ", " " * count) + " ", AT) == facts(text, AT)


@given(texts, st.sampled_from([".", "..", "!", " ", "\n"]))
def test_a_trailing_stop_changes_no_fact(text: str, stop: str) -> None:
    assert facts(text + stop, AT) == facts(text, AT)


@given(texts, st.sampled_from([" 😀", " 😂", " 🏃", " ☀️", ". thanks", ", thanks", " thx", ". Thanks coach!"]))
def test_small_talk_at_the_end_changes_no_fact(text: str, tail: str) -> None:
    assert facts(text + tail, AT) == facts(text, AT)


PAIRS = [("didn't", "did not"), ("can't", "can not"), ("don't", "do not"), ("it's", "it is"), ("I'm", "I am"),
         ("wasn't", "was not"), ("haven't", "have not"), ("couldn't", "could not"), ("that's", "that is")]  # fmt: skip


@given(texts, st.sampled_from(PAIRS))
def test_contractions_read_like_their_words(text: str, pair: tuple[str, str]) -> None:
    short, full = pair
    assert facts(text.replace(full, short), AT) == facts(text.replace(short, full), AT)
    assert facts(text.replace(short, short.replace("'", "’")), AT) == facts(text, AT)


@given(st.permutations(CLAUSES), st.integers(2, 3))
def test_the_order_of_independent_clauses_is_free(clauses: list[str], count: int) -> None:
    chosen = clauses[:count]
    assert facts(". ".join(chosen), AT) == facts(". ".join(reversed(chosen)), AT)


@given(st.permutations(CLAUSES), st.sampled_from([" and ", ", "]))
def test_two_facts_joined_are_the_union(clauses: list[str], joint: str) -> None:
    one, other = clauses[0], clauses[1]
    union: dict[str, object] = {}
    for part in (facts(one, AT), facts(other, AT)):
        for key, value in part.items():
            union[key] = [*union.get(key, []), *value] if isinstance(value, list) else value  # type: ignore[misc]
    joined = facts(one + joint + other, AT)
    assert {k: sorted(map(str, v)) if isinstance(v, list) else v for k, v in joined.items()} == {
        k: sorted(map(str, v)) if isinstance(v, list) else v for k, v in union.items()
    }


@given(st.sampled_from(COMPLAINTS))
def test_no_before_a_complaint_removes_it(complaint: str) -> None:
    assert "body" in facts(complaint, AT)
    assert facts(f"no {complaint}", AT) == {"clear": facts(f"no {complaint}", AT)["clear"]}


@given(texts, st.sampled_from(["\u200b", "\u00ad", "\u202e", "\ufe0f"]))
def test_invisible_characters_change_no_fact(text: str, mark: str) -> None:
    middle = len(text) // 2
    assert facts(text[:middle] + mark + text[middle:], AT) == facts(text, AT)


@given(texts)
def test_wide_letters_digits_and_spaces_change_no_fact(text: str) -> None:
    wide = "".join(chr(ord(c) + 0xFEE0) if c.isalnum() else "\u00a0" if c == " " else c for c in text)
    assert facts(wide, AT) == facts(text, AT)


@given(texts)
def test_the_same_text_reads_the_same_each_time(text: str) -> None:
    assert facts(text, AT) == facts(text, AT)
