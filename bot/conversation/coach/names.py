"""Which runner a coach speaks of: by what they are called, or by their own id. Names are labels, never a right."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from bot.conversation.coach.lexicon import folded
from bot.conversation.known import Known

LONGEST_NAME = 60
MARK = re.compile(r"\s*(?::(?!\d)|\s[-–—]\s)\s*")
"""What stands between a name and what is said of its owner ("7:30" is no such place)."""

JOINT = re.compile(r"(?:'s\b|’s\b|,)?\s+")


@dataclass(frozen=True, slots=True)
class Addressed:
    """*runners*: all of one's own who bear the name (none: the name is nobody's); *rest*: what is said of them."""

    runners: tuple[Known, ...]
    rest: str


def shown(runner: Known) -> str:
    """What a runner is called."""
    return (runner.profile.called if runner.profile else "") or runner.who


def full(runner: Known) -> str:
    """What a runner is called, with their id: so that two of one name can be told apart."""
    return f"{shown(runner)} ({runner.who})"


def named(name: str, runners: Iterable[Known]) -> tuple[Known, ...]:
    """Those of the *runners* who bear that *name*; one whose id it is in full comes alone."""
    wanted = folded(name).strip(" .,!?@\"'")
    people = tuple(runners)
    exact = tuple(each for each in people if folded(full(each)) == wanted)
    return exact or tuple(each for each in people if wanted in (folded(shown(each)), folded(each.who)))


def addressed(text: str, runners: tuple[Known, ...]) -> Addressed | None:
    """The runner that *text* speaks of, and the rest of it. None: it names nobody.

    "sam: hold this week", "sam's thursday: 15 min", "sam hold this week", "hold sam this week".
    """
    said = text.strip()
    mark = MARK.search(said[: LONGEST_NAME + 2])
    if mark and mark.start() > 0 and (found := named(said[: mark.start()], runners)):
        return Addressed(found, said[mark.end() :].strip())
    for name in _names(runners):
        if folded(said[: len(name)]) == name and (joint := JOINT.match(said, len(name))):
            return Addressed(named(name, runners), said[joint.end() :].strip())
    if mark and mark.start() > 0 and len(said[: mark.start()].split()) <= 2:
        return Addressed((), said[mark.end() :].strip())
    return _inside(said, runners)


def _inside(said: str, runners: tuple[Known, ...]) -> Addressed | None:
    """A name in the middle: only if just one of the names stands there."""
    found = [
        (name, hit) for name in _names(runners) if (hit := re.search(rf"(?i)(?<!\w){re.escape(name)}(?!\w)", said))
    ]
    whom = {each.who for name, _ in found for each in named(name, runners)}
    if len(whom) != 1:
        return None
    name, hit = found[0]
    joint = JOINT.match(said, hit.end())
    rest = f"{said[: hit.start()]}{said[joint.end() if joint else hit.end() :]}"
    return Addressed(named(name, runners), rest.strip())


def _names(runners: tuple[Known, ...]) -> Iterator[str]:
    """All names of the *runners* in small letters, the longest first."""
    names = {folded(name) for each in runners for name in (full(each), shown(each), each.who)}
    yield from sorted(names, key=lambda name: (-len(name), name))
