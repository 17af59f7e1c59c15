"""Strength moves and stretches in words: one line how, one line when not."""

import tomllib
from functools import cache
from importlib.resources import files


@cache
def _moves() -> dict[str, dict[str, str]]:
    return tomllib.loads(files("bot.words").joinpath("moves.toml").read_text("utf-8"))


def move_text(name: str) -> str:
    """How the move or stretch *name* is done, and when not."""
    return f"{_moves()[name]['how']} {_moves()[name]['when_not']}"
