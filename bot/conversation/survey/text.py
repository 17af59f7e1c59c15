"""An answer made plain, and words looked up in it. All patterns are bounded: an answer is short."""

import re
import unicodedata
from collections.abc import Iterable
from functools import cache

LIMIT = 400
"""Characters of an answer that are looked at; what a person writes to one question is shorter."""

CURLY = str.maketrans(
    {"’": "'", "‘": "'", "´": "'", "`": "'", "“": '"', "”": '"', "″": '"', "′": "'", "–": "-", "—": "-"}
)
EDGES = " \t\n.,;:!?\"'()"


def visible(text: str) -> str:
    """*text* in composed form on one line, without control and format characters, at most `LIMIT` long."""
    flat = unicodedata.normalize("NFKC", text[:LIMIT]).replace("\n", ", ")
    kept = (
        each for each in flat if unicodedata.category(each) not in ("Cc", "Cf", "Cs", "Co", "Cn") or each == "\u200d"
    )
    return " ".join("".join(kept).split())[:LIMIT]


def plain(text: str) -> str:
    """*text* in small letters with straight quotes and single spaces, at most `LIMIT` long."""
    return visible(text).lower().translate(CURLY)[:LIMIT]


def bare(text: str) -> str:
    """The plain *text* without punctuation at its ends."""
    return plain(text).strip(EDGES)


@cache
def pattern(phrases: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern of whole *phrases*, the longest first."""
    choices = "|".join(re.escape(each) for each in sorted(phrases, key=len, reverse=True))
    return re.compile(rf"(?<!\w)(?:{choices})(?!\w)")


def holds(text: str, phrases: Iterable[str]) -> bool:
    """Whether one of the *phrases* stands in the plain *text*."""
    return pattern(tuple(phrases)).search(text) is not None


def leads(text: str, phrases: Iterable[str]) -> str | None:
    """The longest of the *phrases* that the plain *text* begins with."""
    found = pattern(tuple(phrases)).match(text)
    return found.group() if found else None
