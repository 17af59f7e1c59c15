"""Labelled replies put another way: with a slip of the fingers, after each other, and where a sign was felt."""

import random
import re
from collections.abc import Callable, Iterator

from bot.reading import read
from planning.terms.choices import Danger
from tests.bot.reading.scoring import Labelled, facts, labelled, same
from tests.bot.reading.test_labelled import ALL, LETTERS, VOICES
from tests.bot.reading.test_signs import AT, SIGNS

REPLIES = [reply for name in (*ALL, *VOICES, *LETTERS) for reply in labelled(name) if reply.asked is None]
LONGEST = 45
"""Characters of a reply that is joined with another one."""
WHEN = frozenset({"did", "missed", "move_to", "off", "have_min", "later_min", "later_at"})
"""Two of these in one reply are told of each other ("can't today, tomorrow instead")."""
BESIDE = dict(zip("asdfertiopnmlkhjgucbpwyv", "sdfgrtyopomnklgjhivvoeub", strict=True))
"""A key beside each."""
PLACES = (
    "on the way back", "in the park", "at the end", "after the run", "by the bridge", "when i got home", "this morning",
    "at the bus stop", "near the lake", "just now", "during the walk", "about halfway round", "on the treadmill",
)  # fmt: skip
ASIDES = ("not great", "no idea why", "never had that before", "hi coach", "pls help", "so i stopped", "what do i do")


def slip(word: str, rnd: random.Random) -> str:
    """*word* with two letters swapped, one left out, one doubled, or the key beside it hit."""
    at = rnd.randrange(1, len(word) - 1)
    return rnd.choice(
        (
            word[:at] + word[at + 1] + word[at] + word[at + 2 :],
            word[:at] + word[at + 1 :],
            word[:at] + word[at] + word[at:],
            word[:at] + BESIDE.get(word[at], word[at]) + word[at + 1 :],
        )
    )


def read_as(reply: Labelled, text: str) -> dict[str, object]:
    """The facts of *text*, sent when and where *reply* was."""
    return facts(text, reply.at, reply.tz, reply.planned_min)


def test_nine_slips_of_ten_change_no_fact() -> None:
    rnd = random.Random(1)
    kept = []
    for reply in rnd.sample(REPLIES, 1_500):
        words = list(re.finditer(r"[a-z]{5,}", reply.text))
        if words:
            word = rnd.choice(words)
            typed = reply.text[: word.start()] + slip(word[0], rnd) + reply.text[word.end() :]
            kept.append(same(read_as(reply, typed), read_as(reply, reply.text)))
    assert sum(kept) >= 0.9 * len(kept)


def pairs(rnd: random.Random, count: int) -> Iterator[tuple[Labelled, Labelled]]:
    """*count* pairs of short replies that tell of different things."""
    short = [reply for reply in REPLIES if len(reply.text) < LONGEST]
    while count:
        one, other = rnd.sample(short, 2)
        first, second = read_as(one, one.text).keys(), read_as(one, other.text).keys()
        if first and second and not first & second and not (first & WHEN and second & WHEN):
            count -= 1
            yield one, other


def test_two_replies_in_one_say_what_both_say() -> None:
    for mark, share in ((". ", 0.98), (", ", 0.96)):
        rnd = random.Random(2)
        both = [
            same(
                read_as(one, one.text.rstrip(".!? ") + mark + other.text),
                read_as(one, one.text) | read_as(one, other.text),
            )
            for one, other in pairs(rnd, 700)
        ]
        assert sum(both) >= share * len(both)


def test_neither_the_place_nor_a_remark_hides_a_sign() -> None:
    hidden = []
    told = [(Danger(code), text) for code, texts in SIGNS["said"].items() for text in texts]
    told = random.Random(3).sample(told, 160)
    for code, text in told:
        for words in (*PLACES, *ASIDES):
            for said in (f"{text} {words}", f"{words} {text}"):
                if not read(said, AT, "Europe/London", 25).danger:
                    hidden.append((code, said))
    assert len(hidden) <= 0.005 * len(told) * 2 * len((*PLACES, *ASIDES)), hidden


def test_openings_kisses_and_dashes_change_no_fact() -> None:
    put: dict[str, Callable[[str], str]] = {
        "kiss": lambda text: f"{text} xx",
        "laugh": lambda text: f"{text.rstrip('.!? ')} lol",
        "opening": lambda text: f"ok {text}",
        "apology": lambda text: f"sorry, {text}",
        "dash": lambda text: text.replace(", ", " - "),
    }
    for name, change in put.items():
        told = random.Random(4).sample(REPLIES, 500)
        kept = [same(read_as(reply, change(reply.text)), read_as(reply, reply.text)) for reply in told]
        assert sum(kept) >= 0.96 * len(kept), name


def test_a_new_line_parts_what_is_told() -> None:
    assert facts("did 20\n\nleft knee sore", AT) == facts("did 20. left knee sore", AT)
    assert facts("got covid\nskipped", AT) == facts("got covid. skipped", AT)
