"""What a coach's turn looks at besides the coach, and what a code opens."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from hashlib import sha256
from itertools import count
from secrets import token_bytes

from sqlalchemy.orm import Session as Transaction

from bot.conversation import speaks_of_danger
from bot.conversation.coach.codes import BYTES, beside_code, code_in, code_of, mark_of
from bot.conversation.coach.turn import names_runner
from bot.conversation.events import Event, Heard, Invited
from bot.conversation.known import Known
from bot.messages import Incoming
from bot.store import coaching, invites, people
from planning.calendar import local
from planning.terms.choices import Role

Draw = Callable[[int], bytes]
"""Random bytes for the n-th code."""


def by_chance(_number: int) -> bytes:
    """Bytes that nobody can guess."""
    return token_bytes(BYTES)


def by_count(number: int) -> bytes:
    """The same bytes for the same number, so that a run can be repeated to the byte.

    They can be guessed: for a program that speaks for everybody in its lines, never for a door that strangers reach.
    """
    return sha256(f"code {number}".encode()).digest()[:BYTES]


def with_team(tx: Transaction, known: Known, event: Event | None, now: datetime, draw: Draw = by_chance) -> Known:
    """*known* with the own runners if it is a coach; nobody else sees another person."""
    profile = known.profile
    if profile is None or profile.role is not Role.COACH:
        return known
    found = replace(people.find_team(tx, known.who, now), code=_fresh_code(tx, draw))
    if isinstance(event, Heard):
        named = names_runner(event.reading.text, found, local(now, profile.tz))
        found = replace(found, whole=people.find_whole(tx, named) if named else None)
    return replace(known, team=found)


def _fresh_code(tx: Transaction, draw: Draw) -> str:
    """A code that was not given out before."""
    codes = (code_of(draw(number)) for number in count(invites.made_so_far(tx)))
    return next(code for code in codes if not invites.is_made(tx, mark_of(code)))


def invited(tx: Transaction, known: Known, incoming: Incoming) -> Invited | None:
    """What the code in a message opens. None: there is none in it, or a wrong one from somebody who is enrolled."""
    text = incoming.text or ""
    code = code_in(text) if incoming.private else None
    enrolled = known.profile is not None
    if code is None or speaks_of_danger(beside_code(text), incoming.at):
        return None
    found = invites.look_up(tx, mark_of(code), incoming.door, incoming.sender, incoming.at)
    if found is None:
        return None if enrolled else Invited(incoming.id, text)
    called = coaching.called(tx, found.coach) if found.coach else ""
    return Invited(incoming.id, text, found.role, found.coach, called, found.mark)
