"""The sentences that go out with a plan as data, kept in a file beside this one."""

import tomllib
from functools import cache
from importlib.resources import files


@cache
def _warnings() -> dict[str, str]:
    return {
        key: str(text)
        for key, text in tomllib.loads(files("bot.forms").joinpath("warnings.toml").read_text("utf-8")).items()
    }


def warning_text(name: str) -> str:
    """One short sentence for the warning *name*."""
    return _warnings()[name]
