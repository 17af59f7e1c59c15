"""The two data files of the model: kinds of people, and what they write."""

import tomllib
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any


@dataclass(frozen=True, slots=True)
class Nature:
    """A kind of people. What each number means stands in `natures.toml`; all of them are invented."""

    name: str
    share: float
    drive: float
    weekend: float
    daunting: float
    talks: float
    owns_up: float
    answers: float
    nudged: float
    quits: float
    cools: float
    aches: float


def _table(name: str) -> dict[str, Any]:
    return tomllib.loads(files("bot.trial").joinpath(f"{name}.toml").read_text(encoding="utf-8"))


@cache
def natures() -> tuple[Nature, ...]:
    """All kinds of people."""
    return tuple(Nature(**each) for each in _table("natures")["nature"])


@cache
def phrases(name: str) -> tuple[str, ...]:
    """Ways to say one thing."""
    return tuple(_table("phrases")[name])


@cache
def answers(asks: str) -> tuple[str, ...]:
    """Ways to answer one question; none: nobody in the model answers it."""
    return tuple(_table("phrases")["answers"].get(asks, ()))


@cache
def parts() -> tuple[str, ...]:
    """Parts of the body that get sore in the model."""
    return tuple(_table("phrases")["parts"]["names"])
