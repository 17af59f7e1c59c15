"""Bare answers to an open question: yes, no, a number, how a complaint went on."""

import re
import tomllib
from functools import cache
from importlib.resources import files

from planning.terms.choices import Course, Side

NAMES = re.compile(r"[\w&]+")
FEW = 2
"""Words of a reply that names its subject and no more."""

EDGES = " .,!?;:()\"'"


@cache
def _words(name: str) -> frozenset[str]:
    table = tomllib.loads(files("bot.conversation").joinpath("answers.toml").read_text(encoding="utf-8"))
    return frozenset(table[name])


def _bare(text: str) -> str:
    kind = text.casefold().replace("’", "'").strip(EDGES)
    return " ".join(kind.removesuffix("thanks").removesuffix("thank you").strip(EDGES).split())


def says_yes(text: str) -> bool:
    """Whether the whole reply is a yes."""
    return _bare(text) in _words("yes")


def says_no(text: str) -> bool:
    """Whether the whole reply is a no."""
    return _bare(text) in _words("no")


def bare_course(text: str) -> Course | None:
    """How a complaint went on, if the whole reply says just that."""
    bare = _bare(text)
    return next((course for course in Course if bare in _words(course.value)), None)


def bare_side(text: str) -> Side | None:
    """Which side, if the whole reply says just that."""
    bare = _bare(text)
    return next((side for side in Side if bare in _words(side.value)), None)


def bare_number(text: str) -> float | None:
    """The number of a reply that is a number, alone or "out of 10"."""
    bare = _bare(text).removesuffix("/10").removesuffix("out of 10").strip().replace(",", ".")
    digits = bare.replace(".", "", 1)
    return float(bare) if digits.isascii() and digits.isdigit() and len(digits) <= 6 else None


def says_tomorrow(text: str) -> bool:
    """Whether the whole reply is "tomorrow"."""
    return _bare(text) in _words("tomorrow")


def wants_count(text: str) -> bool:
    """Whether the whole reply asks to be counted along."""
    return _bare(text) in _words("count")


def speaks_of_race(text: str) -> bool:
    """Whether the reply names a race that is to come, as a new aim."""
    said = " ".join(text.casefold().split())
    return any(each in said for each in _words("race"))


def replaces_race(text: str) -> bool:
    """Whether the race of the reply stands instead of the one before."""
    said = " ".join(text.casefold().split())
    return any(each in said for each in _words("race_instead"))


def is_for_coach(text: str) -> bool:
    """Whether the reply begins as words for the coach do: "tell my coach ..."."""
    return " ".join(text.casefold().split()).startswith(tuple(_words("for_coach")))


def names_clinician(text: str) -> bool:
    """Whether the reply names somebody who may clear for training."""
    return not _words("clinician").isdisjoint(NAMES.findall(_bare(text).replace("'s", "")))


def no_heart_tablets(text: str, *, asked: bool) -> bool | None:
    """Whether the reply says that no tablets slow the heart: a clear no; some, or not sure; None: it says neither.

    *asked*: a bare yes or no, or the name of a tablet, answers it too.
    """
    bare = _bare(text).replace(",", "")
    if bare in _words("heart_none") or (asked and bare in _words("no") | _words("none_taken")):
        return True
    some = bare in _words("heart_some") or (asked and (bare in _words("yes") | _words("unsure") or _names_tablet(bare)))
    return False if some else None


def _names_tablet(bare: str) -> bool:
    return any(each in bare for each in _words("slows_heart"))


def speaks_of_cutoff(text: str) -> bool:
    """Whether the reply names the limit that an organiser sets."""
    said = text.casefold()
    return any(each in said for each in _words("cutoff"))


def asks_what_was_spent(text: str) -> bool:
    """Whether a question about energy is about what was done, with no word of food or of how much it ought to be."""
    said = frozenset(NAMES.findall(text.casefold()))
    return said.isdisjoint(_words("food")) and (len(said) <= FEW or not said.isdisjoint(_words("spent")))
