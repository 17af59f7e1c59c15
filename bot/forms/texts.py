"""The sentences that go out with a plan as data, kept in a file beside this one."""

import tomllib
from functools import cache
from importlib.resources import files


@cache
def _texts(name: str) -> dict[str, str]:
    found = tomllib.loads(files("bot.forms").joinpath(f"{name}.toml").read_text("utf-8"))
    return {key: str(text) for key, text in found.items()}


def warning_text(name: str) -> str:
    """One short sentence for the warning *name*."""
    return _texts("warnings")[name]


def limit_text(name: str) -> str:
    """One short sentence for the limit *name*: what it is for."""
    return _texts("limits")[name]


def care_text(name: str) -> str:
    """One or two sentences for what to mind on a day."""
    return _texts("care")[name]


def caution_text(name: str) -> str:
    """One or two sentences for what to mind on race day and after it."""
    return _texts("cautions")[name]
