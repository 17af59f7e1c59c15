"""Every strength move and stretch that a plan can hold says how, and when not."""

import tomllib
from importlib.resources import files

import pytest

from bot.words.moves import move_text
from planning.facts import load


def names() -> set[str]:
    table = load("moves")
    moves = {move for level in table["level"] for move in level["moves"]} | {table["balance"]["move"]}
    return moves | {f"stretch_{part}" for parts in load("stretches")["after"].values() for part in parts}


def test_every_move_says_how_and_when_not() -> None:
    texts = tomllib.loads(files("bot.words").joinpath("moves.toml").read_text("utf-8"))
    assert set(texts) == names()
    assert all(
        "\n" not in each[key] and each[key].endswith(".") for each in texts.values() for key in ("how", "when_not")
    )


@pytest.mark.parametrize("name", sorted(names()))
def test_a_move_is_told_in_one_go(name: str) -> None:
    assert "Not " in move_text(name)
