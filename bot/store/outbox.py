"""Messages out: kept in the transaction of their cause, handed to a door, then marked."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from typing import Any

from sqlalchemy import BindParameter, ColumnElement, Row, bindparam, delete, insert, or_, select, update
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.orm import Session as Transaction

from bot.messages import Attachment, Button, Outgoing
from bot.store.locks import has_many_writers
from bot.store.plain import plain
from bot.store.seen import Part, forget, seen
from bot.store.tables import ADDRESS, BUTTON, OUTBOX, PERSON, ButtonRow

SECRET = "code:"
"""What the keys of messages begin with whose words aren't kept once they are sent."""

PREFIX = "m-"
"""What the ids of messages begin with; the row's number follows."""


@dataclass(frozen=True, slots=True)
class NewButton:
    """A button to be shown: its label, and what pressing it does."""

    label: str
    text: str | None
    opens: str | None


@dataclass(frozen=True, slots=True)
class Letter:
    """A message to be sent. *key*: what makes it unique, whatever is tried again."""

    door: str
    chat: str
    who: str
    at: datetime
    text: str
    about: str
    key: str
    buttons: tuple[NewButton, ...] = ()
    files: tuple[Attachment, ...] = ()


FIRST = ("urgent", "care", "notice")
"""Kinds of messages that wait for nothing."""


# By whether other processes write too: on a server they do.
_PUT = {
    True: postgresql.insert(OUTBOX).on_conflict_do_nothing(),
    False: sqlite.insert(OUTBOX).on_conflict_do_nothing(),
}
_SHOW = {
    True: postgresql.insert(BUTTON).on_conflict_do_nothing(),
    False: sqlite.insert(BUTTON).on_conflict_do_nothing(),
}
_BEHIND = select(ADDRESS.c.who).where(ADDRESS.c.door == bindparam("door"), ADDRESS.c.chat == bindparam("chat"))
_ADDRESSES = select(ADDRESS).where(ADDRESS.c.who == bindparam("who")).order_by(ADDRESS.c.used_at.desc())


def put(tx: Transaction, *letters: Letter) -> None:
    """Keep messages to be sent, in order; a second one with the same key has no effect."""
    many = has_many_writers(tx)
    buttons = [each for letter in letters for each in _buttons_of(letter)]
    if letters:
        plain(tx).execute(_PUT[many], [_row_of(each) for each in letters])
    if buttons:
        plain(tx).execute(_SHOW[many], buttons)


def _row_of(letter: Letter) -> dict[str, object]:
    return {
        "door": letter.door,
        "chat": letter.chat,
        "who": letter.who,
        "at": letter.at,
        "text": letter.text,
        "about": letter.about,
        "buttons": tuple(Button(name, each.label) for name, each in _named(letter)),
        "files": letter.files,
        "key": letter.key,
        "sent": False,
    }


def _buttons_of(letter: Letter) -> list[dict[str, object]]:
    shown = {"who": letter.who, "shown_at": letter.at, "used": False}
    return [{"id": name, "text": each.text, "opens": each.opens, **shown} for name, each in _named(letter)]


def _named(letter: Letter) -> list[tuple[str, NewButton]]:
    """Its buttons with their ids: the same for the same key, whatever is tried again."""
    mark = sha256(letter.key.encode()).hexdigest()[:16]
    return [(f"b-{mark}-{place}", each) for place, each in enumerate(letter.buttons, 1)]


def is_help() -> ColumnElement[bool]:
    """Whether a message waits for nothing."""
    return or_(*(OUTBOX.c.about.startswith(f'{{"kind": "{kind}"') for kind in FIRST))


_ROWS: BindParameter[list[int]] = bindparam("rows", expanding=True)
_UNSENT = (
    select(OUTBOX)
    .where(OUTBOX.c.sent.is_(False), OUTBOX.c.parked.is_(None), OUTBOX.c.door == bindparam("door"))
    .order_by(is_help().desc(), OUTBOX.c.id)
)
_SENT = update(OUTBOX).where(OUTBOX.c.id.in_(_ROWS)).values(sent=True)
_BLANK = update(OUTBOX).where(OUTBOX.c.id.in_(_ROWS), OUTBOX.c.key.startswith(SECRET)).values(text="")
_OF_STRANGERS = delete(OUTBOX).where(OUTBOX.c.id.in_(_ROWS), OUTBOX.c.who.not_in(select(PERSON.c.who)))


def unsent(tx: Transaction, door: str) -> tuple[Outgoing, ...]:
    """Messages that wait for *door*, in order; help, and what tells a coach of it, overtakes all that waits."""
    return tuple(map(outgoing, plain(tx).execute(_UNSENT, {"door": door})))


def mark_sent(tx: Transaction, ids: Iterable[str]) -> None:
    """The door has taken these. What went to people of whom nothing is kept is not kept either."""
    rows = {"rows": [int(each.removeprefix(PREFIX)) for each in ids]}
    for statement in (_SENT, _BLANK, _OF_STRANGERS):
        plain(tx).execute(statement, rows)


def pressed(tx: Transaction, button_id: str, who: str) -> NewButton | None:
    """What the button does; None if it is unknown, was used, or was shown to somebody else."""
    row = tx.get(ButtonRow, button_id)
    if row is None or row.who != who or row.used:
        return None
    row.used = True
    return NewButton("", row.text, row.opens)


def set_address(tx: Transaction, who: str, door: str, chat: str, at: datetime) -> None:
    """*who* was last met in this private chat."""
    if addresses_of(tx, who)[:1] == ((door, chat),):
        return
    forget(tx, who, Part.ADDRESSES)
    there = (ADDRESS.c.door == door, ADDRESS.c.chat == chat)
    again = update(ADDRESS).where(*there).values(used_at=at).returning(ADDRESS.c.who)
    if plain(tx).scalar(again) is None:
        plain(tx).execute(insert(ADDRESS), {"who": who, "door": door, "chat": chat, "used_at": at})


def who_is(tx: Transaction, door: str, chat: str) -> str:
    """The person behind a private chat: as known, else the chat's own id."""
    known: str | None = plain(tx).scalar(_BEHIND, {"door": door, "chat": chat})
    return chat if known is None else known


def addresses_of(tx: Transaction, who: str) -> tuple[tuple[str, str], ...]:
    """Door and chat of each private chat of *who*, the last used one first."""
    known = seen(tx, who)
    if known.addresses is None:
        known.addresses = tuple((row.door, row.chat) for row in plain(tx).execute(_ADDRESSES, {"who": who}))
    return known.addresses


def address_of(tx: Transaction, who: str, door: str) -> tuple[str, str]:
    """Door and chat where *who* was last met; not met yet: behind *door*, by name."""
    return next(iter(addresses_of(tx, who)), (door, who))


def outgoing(row: Row[Any]) -> Outgoing:
    """The message that a row keeps."""
    return Outgoing(f"{PREFIX}{row.id}", row.door, row.chat, row.at, row.text, row.about, row.buttons, row.files)
