"""Where help is in a country: the numbers, and the words for where none is known."""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Any

ELSEWHERE = "elsewhere"


@dataclass(frozen=True, slots=True)
class HelpLine:
    """Words for whom to call: in danger (*emergency*), in despair (*crisis*), about eating.

    *source* and *checked* (the day on which the entry was last gone over) are empty for the fallback.
    """

    emergency: str
    crisis: str
    eating: str
    source: str = ""
    checked: date | None = None


def help_line(country: str | None) -> HelpLine:
    """Whom to call in *country* (ISO 3166-1 code). Never raises: for any other text words without a number."""
    return help_lines().get(country or ELSEWHERE, elsewhere())


def help_slots(country: str | None, here: str | None) -> dict[str, str]:
    """The words to fill in. *here*: the country whose clock the person lives by; if it is another one, as on a journey,
    its emergency number comes first, since that is the one that answers there.
    """
    home = help_line(country or here)
    known = [help_lines()[code].emergency for code in (here, country) if code and code in help_lines()]
    numbers = dict.fromkeys(number for said in known for number in said.split(" or "))
    same = not numbers or set(known) == {home.emergency}
    return {
        "emergency": home.emergency if same else " or ".join(numbers),
        "crisis": home.crisis,
        "eating": home.eating,
    }


def elsewhere() -> HelpLine:
    """The words that are right everywhere."""
    return help_lines()[ELSEWHERE]


@cache
def help_lines() -> Mapping[str, HelpLine]:
    """All entries by country code, and the fallback; what an entry doesn't name is told in the fallback's words."""
    table = tomllib.loads(files("bot.words").joinpath("helplines.toml").read_text(encoding="utf-8"))
    rest = table[ELSEWHERE]
    return {code: _entry(row, rest) for code, row in table.items()}


def _entry(row: Mapping[str, Any], rest: Mapping[str, str]) -> HelpLine:
    return HelpLine(
        emergency=row["emergency"],
        crisis=_line(row.get("crisis", rest["crisis"])),
        eating=_line(row.get("eating", rest["eating"])),
        source=row.get("source", ""),
        checked=row.get("checked"),
    )


def _line(said: str | list[str]) -> str:
    return said if isinstance(said, str) else " on ".join(said)
