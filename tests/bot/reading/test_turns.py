"""Who has a turn: a rule is passed over only where its pattern can't match."""

import random
from collections.abc import Iterator
from re import Pattern

import pytest

from bot.reading.amounts import REWRITES
from bot.reading.context import RETAGS
from bot.reading.leads import Led, lead, needs, sure
from bot.reading.page import Rule
from bot.reading.rules import beyond, missed, plain, plans, repeats
from bot.reading.tags import Tag, tags

RULES = tuple(
    each
    for room in (beyond, missed, plain, plans, repeats)
    for family in vars(room).values()
    if isinstance(family, tuple)
    for each in family
    if isinstance(each, Rule)
)
LETTERS = {name: value for name, value in vars(Tag).items() if name.isupper()}


def matching(shape: Pattern[str], chance: random.Random) -> Iterator[str]:
    """Lines of the pattern's own tags that it matches, as chance finds them."""
    own = [letter for letter in LETTERS.values() if letter in shape.pattern] or [Tag.WORD]
    for _ in range(800):
        line = "".join(chance.choices(own, k=chance.randrange(1, 8)))
        if shape.search(line):
            yield line


def test_what_matches_has_its_turn() -> None:
    chance = random.Random(20_260)
    for each in (*RULES, *RETAGS, *REWRITES):
        for line in matching(each.pattern, chance):
            assert each.needs <= set(line), each
            assert not each.lead or each.lead & set(line), each


def test_every_rule_is_looked_at() -> None:
    assert len(RULES) > 90


@pytest.mark.parametrize(
    ("text", "needed"),
    [
        ("REMIND NEAR{0,3} DUR", ["REMIND", "DUR"]),
        ("[NUM ONE] TIMES? (?:OF|THE)* DIST", ["NUM ONE", "DIST"]),
        ("(?:TALLY NUM|HAVE SESSION){1,2} END", ["TALLY HAVE"]),
        ("(?:TALLY|HAVE?) [^STOP]", []),
        ("(?<=AT)NUM{2} (?!UNIT)(?=DATE|PARTDAY)", ["AT", "NUM", "DATE PARTDAY"]),
        ("(?<=USED)SHARE", ["SHARE"]),
    ],
)
def test_a_pattern_needs_what_it_cannot_do_without(text: str, needed: list[str]) -> None:
    assert needs(text) == [tags(names) for names in needed]


def test_the_rarest_choice_leads() -> None:
    assert lead(needs("NUM TIMES [DUR DIST]")) == tags("TIMES")
    assert sure(needs("NUM TIMES [DUR DIST]")) == tags("NUM TIMES")


def test_things_are_due_in_their_order() -> None:
    led = Led([tags("DUR"), tags(""), tags("DIST DUR"), tags("SKY")])
    assert led.due(tags("DIST DUR")) == [0, 1, 2]
    assert led.due(tags("SKY")) == [1, 3]
