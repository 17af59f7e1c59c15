"""Misspelt words are mended only where no real word stands, and never into or out of danger and denial."""

from datetime import datetime

import pytest

from bot.reading import lexicon, read
from bot.reading.spelling import HARMLESS, candidates, english, everyday, mended
from bot.reading.tags import Token

AT = datetime(2026, 5, 13, 18, 20)  # noqa: DTZ001 - the wall time of the sender


@pytest.mark.parametrize(
    ("typo", "meant"),
    [
        ("walked 20, kneees stiff", "walked 20, knees stiff"),
        ("shouldres sore", "shoulders sore"),
        ("20 on the tresdmill walking", "20 on the treadmill walking"),
        ("finishd 20", "finished 20"),
        ("3 kilometrs walk", "3 kilometres walk"),
        ("modarate, 20 mins", "moderate, 20 mins"),
        ("played badminten for an hour", "played badminton for an hour"),
        ("move it to thursdey", "move it to thursday"),
        ("mvoe it to tuesdya evning", "move it to tuesday evening"),
        ("walked 12 tehn stopped", "walked 12 then stopped"),
        ("walked twwenty five", "walked twenty five"),
        ("fifeen minutes, kmee sore", "fifteen minutes, knee sore"),
        ("wslk 20, hsrd", "walk 20, hard"),
        ("left shoudler stif", "left shoulder stiff"),
        ("38 mnis, blsiters on both heels", "38 minutes, blisters on both heels"),
        ("did hakf of it, toigh one", "did half of it, tough one"),
    ],
)
def test_a_slip_reads_like_the_word_that_was_meant(typo: str, meant: str) -> None:
    one, other = read(typo, AT, "UTC"), read(meant, AT, "UTC")
    assert (one.did, one.body, one.effort, one.move_to) == (other.did, other.body, other.effort, other.move_to)


@pytest.mark.parametrize("text", ["shinny new shoes", "the knead is done", "ankh on my neck chain", "heath walk sign"])
def test_a_real_word_is_left_alone(text: str) -> None:
    assert read(text, AT, "UTC").body == ()


@pytest.mark.parametrize("word", ["rats", "hiss", "vets", "loot", "acre", "slat"])
def test_a_short_real_word_is_no_slip(word: str) -> None:
    assert [token.word for token in mended([Token(word, 0, 4)])] == [word]


def test_no_word_of_danger_or_denial_is_ever_guessed() -> None:
    guessed = {word for words in candidates().values() for word in words}
    loose = {word for words in everyday().values() for word in words}
    assert not loose & (lexicon.grave() | {"not", "never", "without", "nothing", "none", "nobody"})
    calendar = {word for word, meaning in lexicon.phrases().alone() if meaning.tag in HARMLESS}
    assert not (guessed & lexicon.grave()) - calendar
    assert not guessed & {"not", "never", "without", "nothing", "none", "nobody"}


def test_real_words_hold_both_spellings() -> None:
    assert {"colour", "color", "realise", "realize"} <= english()
