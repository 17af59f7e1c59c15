"""Codes: 60 bits that can be read aloud (Crockford, "Base 32", crockford.com/base32.html: no I, L, O, U; they are read
as 1, 1, 0)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation.coach.codes import ALPHABET, BYTES, LENGTH, code_in, code_of, mark_of

BITS = st.binary(min_size=BYTES, max_size=BYTES)


def test_a_code_holds_at_least_fifty_bits() -> None:
    assert len(ALPHABET) == len(set(ALPHABET)) == 32
    assert not set("ILOU") & set(ALPHABET)
    assert LENGTH * 5 >= 50


@given(BITS, st.sampled_from(["{}", "my code is {}", "/start {}", "{}.", "code: {}, thanks"]))
def test_a_code_is_found_in_what_people_write(bits: bytes, around: str) -> None:
    code = code_of(bits)
    plain = code.replace("-", "")
    assert code_in(around.format(code)) == code_in(around.format(code.lower())) == plain
    assert mark_of(code) == mark_of(plain.lower())


@given(BITS, BITS)
def test_other_bits_are_another_code(one: bytes, other: bytes) -> None:
    same = int.from_bytes(one, "big") % 2**60 == int.from_bytes(other, "big") % 2**60
    assert (code_of(one) == code_of(other)) is same


@pytest.mark.parametrize(("typed", "meant"), [("OOOO-IIII-LLLL", "000011111111"), ("q9xk 72mb 0f3d", "Q9XK72MB0F3D")])
def test_letters_that_look_like_digits_are_digits(typed: str, meant: str) -> None:
    assert code_in(typed) == meant


@pytest.mark.parametrize(
    "text", ["hello", "championship", "this that then", "did 20 minutes", "", "UUUU-UUUU-UUUU", "0123-4567", "a" * 5000]
)
def test_plain_words_are_no_code(text: str) -> None:
    assert code_in(text) is None


@given(BITS)
def test_what_is_kept_holds_nothing_of_the_code(bits: bytes) -> None:
    assert code_of(bits).replace("-", "").lower() not in mark_of(code_of(bits))
