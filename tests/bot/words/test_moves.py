"""Every strength move that a plan can hold says how, and when not."""

import tomllib
from importlib.resources import files

from planning.facts import load


def test_every_move_says_how_and_when_not() -> None:
    texts = tomllib.loads(files("bot.words").joinpath("moves.toml").read_text("utf-8"))
    table = load("moves")
    names = {move for level in table["level"] for move in level["moves"]} | {table["balance"]["move"]}
    assert set(texts) == names
    assert all(
        "\n" not in each[key] and each[key].endswith(".") for each in texts.values() for key in ("how", "when_not")
    )
