"""From a coach's sentence to an order. Near variants of plain words; what is not surely meant is asked back."""

import re
from datetime import date, datetime
from re import Match

from bot.conversation.coach.days import days_in
from bot.conversation.coach.lexicon import bare, folded, pattern_of, whole
from bot.conversation.coach.names import LONGEST_NAME, MARK, addressed, named
from bot.conversation.coach.orders import (
    About,
    All,
    Away,
    Back,
    Help,
    Invite,
    LookAt,
    Nobody,
    Order,
    Promised,
    Seen,
    Several,
    Tell,
    Unclear,
    Undo,
    WhoNeeds,
)
from bot.conversation.known import Known

EVER = date.max
"""Away with no day named: until "back"."""


def order_of(text: str, runners: tuple[Known, ...], here: datetime, waiting: tuple[str, ...] = ()) -> Order:
    """What the message asks for.

    *runners*: the coach's own; *here*: now on the coach's own clock; *waiting*: whom unseen messages are about.
    """
    return (
        _plain(bare(text))
        or _all(text)
        or _promised(text, runners, here)
        or _tell(text, runners)
        or _look_at(bare(text), runners)
        or _away(bare(text), here)
        or _about(text, runners, waiting)
    )


def _plain(said: str) -> Order | None:
    """The sentences that name no runner."""
    if not said or whole("sentence", "help", said):
        return Help()
    if whole("sentence", "who_needs", said):
        return WhoNeeds()
    if whole("sentence", "seen", said):
        return Seen()
    if whole("sentence", "undo", said):
        return Undo()
    if whole("sentence", "back", said):
        return Back()
    if whole("sentence", "no_deputy", said):
        return Back(alone=True)
    return Invite() if whole("sentence", "invite", said) else None


def _all(text: str) -> Order | None:
    """ "all: heat Thursday, before 8"; the words stay as they were written."""
    found = pattern_of("all", "heads").match(folded(text.strip()))
    words = text.strip()[len(found.group()) :].lstrip() if found else ""
    return All(words[1:].strip()) if words.startswith(":") and words[1:].strip() else None


def _promised(text: str, runners: tuple[Known, ...], here: datetime) -> Order | None:
    """ "ask sam thursday", "remind me to call sam on friday"."""
    said = whole("promise", "words", bare(text))
    if said is None:
        return None
    rest = said["rest"]
    days, found = days_in(rest, here).coming, _head(rest, runners)
    return Promised(found[0][0], days[0]) if found and len(found[0]) == 1 and days else None


def _look_at(said: str, runners: tuple[Known, ...]) -> Order | None:
    """ "how is sam", "sam: history"."""
    found = whole("look", "at", said)
    whom = named(found["name"], runners) if found else ()
    return LookAt(whom[0]) if len(whom) == 1 else None


def _away(said: str, here: datetime) -> Order | None:
    """ "away until monday, deputy lee", "deputy lee"."""
    head, *clauses = [each.strip() for each in re.split(r"[,;.]|\band\b", said) if each.strip()] or [""]
    away = whole("sentence", "away", head)
    deputy = next((name for each in (*clauses, head, _after_deputy(head)) if (name := _deputy(each))), None)
    if away is None:
        return Away(deputy) if deputy and not clauses else None
    days = days_in(said, here)
    return Away(deputy, days.coming[-1] if days.coming else EVER)


def _after_deputy(head: str) -> str:
    """The end of "away until monday deputy lee", with no comma in it."""
    place = head.find("deputy")
    return head[place:] if place > 0 else ""


def _deputy(said: str) -> str | None:
    found = whole("sentence", "deputy", said)
    return found["name"] if found else None


def _tell(text: str, runners: tuple[Known, ...]) -> Order | None:
    """ "tell sam: well done"; the words stay as they were written."""
    said = text.strip()
    verb = pattern_of("tell", "verbs").match(folded(said))
    if verb is None:
        return None
    rest = said[len(verb.group()) :].strip()
    found = _head(rest, runners)
    if found is None:
        return None
    whom, words = found
    if len(whom) != 1:
        return Several(whom) if whom else Nobody()
    return Tell(whom[0], words) if words else Unclear()


def _head(rest: str, runners: tuple[Known, ...]) -> tuple[tuple[Known, ...], str] | None:
    """The name at the front of what follows "tell", and the words after it."""
    mark = MARK.search(rest[: LONGEST_NAME + 2])
    if mark and (len(rest[: mark.start()].split()) <= 2 or named(rest[: mark.start()], runners)):
        return named(rest[: mark.start()], runners), rest[mark.end() :].strip()
    for length in (4, 3, 2, 1):
        head = re.match(rf"\S+(?:\s+\S+){{{length - 1}}}", rest)
        if head and (found := named(head.group(), runners)):
            return found, rest[head.end() :].lstrip(" ,:-").strip()
    return None


def _about(text: str, runners: tuple[Known, ...], waiting: tuple[str, ...]) -> Order:
    seen: Match[str] | None = whole("sentence", "seen_name", bare(text))
    if seen and (named(seen["name"], runners) or seen["name"] in map(folded, waiting)):
        return Seen(seen["name"])
    found = addressed(text, runners)
    if found is None:
        return Unclear()
    if len(found.runners) != 1:
        return Several(found.runners) if found.runners else Nobody()
    return About(found.runners[0], found.rest)
