"""The words of coaches, read once from the data file beside this one."""

import re
import tomllib
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from re import Match, Pattern

from bot.conversation.survey.text import CURLY, EDGES, pattern


@cache
def _tables() -> Mapping[str, Mapping[str, tuple[str, ...]]]:
    raw = tomllib.loads(files(__package__).joinpath("words.toml").read_text(encoding="utf-8"))
    return {table: {name: tuple(said) for name, said in rows.items()} for table, rows in raw.items()}


def words(table: str, name: str) -> tuple[str, ...]:
    """The phrases of one row."""
    return _tables()[table][name]


@cache
def _whole(table: str, name: str) -> Pattern[str]:
    """One pattern for a row; each of its named groups may stand in several lines, so the lines are tried apart."""
    return re.compile("|".join(f"(?:{re.sub('[(][?]P<[a-z]+>', '(', line)})" for line in words(table, name)))


@cache
def _lines(table: str, name: str) -> tuple[Pattern[str], ...]:
    return tuple(re.compile(line) for line in words(table, name))


def whole(table: str, name: str, text: str) -> Match[str] | None:
    """The match of the plain *text* as a whole with one line of a row."""
    if _whole(table, name).fullmatch(text) is None:
        return None
    return next(found for line in _lines(table, name) if (found := line.fullmatch(text)))


def within(table: str, name: str, text: str) -> Match[str] | None:
    """Where one of the phrases of a row stands in the plain *text*, as whole words."""
    return pattern_of(table, name).search(text)


def pattern_of(table: str, name: str) -> Pattern[str]:
    """A pattern of the phrases of a row, as whole words."""
    return pattern(words(table, name))


def folded(text: str) -> str:
    """*text* in small letters with straight quotes and single spaces."""
    return " ".join(text.translate(CURLY).casefold().split())


def bare(text: str) -> str:
    """The plain *text* without punctuation at its ends and without courtesies."""
    said = folded(text).strip(EDGES)
    while front := pattern(words("courtesy", "front")).match(said):
        if not (shorter := said[front.end() :].strip(EDGES)):
            break
        said = shorter
    while back := _ending(said):
        said = said[: -len(back)].strip(EDGES)
    return said


def _ending(said: str) -> str | None:
    endings = (each for each in words("courtesy", "back") if said.endswith(f" {each}"))
    return max(endings, key=len, default=None)
