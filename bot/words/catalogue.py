"""The catalogue of all sentences, labels and small words, read from data files."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

LISTS = ("say", "button", "part", "do", "how", "why", "need", "wait", "picture", "day")


@dataclass(frozen=True, slots=True)
class Catalogue:
    """All texts of one language. A sentence may have several wordings."""

    say: Mapping[str, tuple[str, ...]]
    button: Mapping[str, str]
    part: Mapping[str, str]
    do: Mapping[str, str]
    how: Mapping[str, str]
    why: Mapping[str, str]
    need: Mapping[str, str]
    wait: Mapping[str, str]
    picture: Mapping[str, str]
    today: str
    tomorrow: str
    weekdays: tuple[str, ...]
    months: tuple[str, ...]


@cache
def catalogue(language: str = "en") -> Catalogue:
    """The catalogue of *language*. Raises KeyError when a list is missing: our own bug."""
    merged: dict[str, dict[str, object]] = {name: {} for name in LISTS}
    for file in sorted(files("bot.words").joinpath(language).iterdir(), key=lambda each: each.name):
        if file.name.endswith(".toml"):
            for name, table in tomllib.loads(file.read_text(encoding="utf-8")).items():
                merged.setdefault(name, {}).update(table)
    day = merged["day"]
    return Catalogue(
        say={name: _wordings(value) for name, value in merged["say"].items()},
        button=_plain(merged["button"]),
        part=_plain(merged["part"]),
        do=_plain(merged["do"]),
        how=_plain(merged["how"]),
        why=_plain(merged["why"]),
        need=_plain(merged["need"]),
        wait=_plain(merged["wait"]),
        picture=_plain(merged["picture"]),
        today=str(day["today"]),
        tomorrow=str(day["tomorrow"]),
        weekdays=_wordings(day["names"]),
        months=_wordings(day["months"]),
    )


def _wordings(value: object) -> tuple[str, ...]:
    return tuple(map(str, value)) if isinstance(value, list) else (str(value),)


def _plain(table: Mapping[str, object]) -> dict[str, str]:
    return {name: str(value) for name, value in table.items()}
