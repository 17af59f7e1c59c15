"""The English words of answers, read once from the data file beside this one."""

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files


@cache
def _tables() -> Mapping[str, Mapping[str, tuple[object, ...]]]:
    raw = tomllib.loads(files(__package__).joinpath("lexicon.toml").read_text(encoding="utf-8"))
    return {table: {name: tuple(words) for name, words in rows.items()} for table, rows in raw.items()}


@cache
def words(table: str, name: str) -> tuple[str, ...]:
    """The phrases of one row."""
    return tuple(str(each) for each in _tables()[table][name])


@cache
def rows(table: str) -> Mapping[str, tuple[str, ...]]:
    """All rows of a table of phrases, in order."""
    return {name: words(table, name) for name in _tables()[table]}


@cache
def numbered(name: str) -> Mapping[str, int]:
    """Names of the days (Monday 0) or the months (January 0), in all their forms, with their number."""
    forms = _tables()["calendar"][name]
    return {str(form): number for number, group in enumerate(forms) if isinstance(group, list) for form in group}
