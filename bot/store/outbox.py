"""Messages out: kept in the transaction of their cause, handed to a door, then marked."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import ColumnElement, delete, or_, select, update
from sqlalchemy.orm import Session as Transaction

from bot.messages import Attachment, Button, Outgoing
from bot.store.tables import AddressRow, ButtonRow, OutboxRow, PersonRow

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


def put(tx: Transaction, letter: Letter) -> None:
    """Keep a message to be sent; a second one with the same key has no effect."""
    if tx.scalars(select(OutboxRow.id).where(OutboxRow.key == letter.key)).first() is not None:
        return
    row = OutboxRow(
        door=letter.door,
        chat=letter.chat,
        who=letter.who,
        at=letter.at,
        text=letter.text,
        about=letter.about,
        buttons=(),
        files=letter.files,
        key=letter.key,
        sent=False,
    )
    tx.add(row)
    tx.flush()
    row.buttons = tuple(Button(f"b-{row.id}-{place}", each.label) for place, each in enumerate(letter.buttons, 1))
    for shown, each in zip(row.buttons, letter.buttons, strict=True):
        tx.add(ButtonRow(id=shown.id, who=letter.who, text=each.text, opens=each.opens, shown_at=letter.at, used=False))


def is_help() -> ColumnElement[bool]:
    """Whether a message waits for nothing."""
    return or_(*(OutboxRow.about.startswith(f'{{"kind": "{kind}"') for kind in FIRST))


def unsent(tx: Transaction, door: str) -> tuple[Outgoing, ...]:
    """Messages that wait for *door*, in order; help, and what tells a coach of it, overtakes all that waits."""
    there = (OutboxRow.sent.is_(False), OutboxRow.parked.is_(None), OutboxRow.door == door)
    wanted = select(OutboxRow).where(*there).order_by(is_help().desc(), OutboxRow.id)
    return tuple(map(outgoing, tx.scalars(wanted)))


def mark_sent(tx: Transaction, ids: Iterable[str]) -> None:
    """The door has taken these. What went to people of whom nothing is kept is not kept either."""
    rows = [int(each.removeprefix(PREFIX)) for each in ids]
    tx.execute(update(OutboxRow).where(OutboxRow.id.in_(rows)).values(sent=True))
    tx.execute(update(OutboxRow).where(OutboxRow.id.in_(rows), OutboxRow.key.startswith(SECRET)).values(text=""))
    known = select(PersonRow.who)
    tx.execute(delete(OutboxRow).where(OutboxRow.id.in_(rows), OutboxRow.who.not_in(known)))


def pressed(tx: Transaction, button_id: str, who: str) -> NewButton | None:
    """What the button does; None if it is unknown, was used, or was shown to somebody else."""
    row = tx.get(ButtonRow, button_id)
    if row is None or row.who != who or row.used:
        return None
    row.used = True
    return NewButton("", row.text, row.opens)


def set_address(tx: Transaction, who: str, door: str, chat: str, at: datetime) -> None:
    """*who* was last met in this private chat."""
    row = tx.get(AddressRow, (door, chat))
    if row is None:
        tx.add(AddressRow(door=door, chat=chat, who=who, used_at=at))
    else:
        row.used_at = at


def who_is(tx: Transaction, door: str, chat: str) -> str:
    """The person behind a private chat: as known, else the chat's own id."""
    row = tx.get(AddressRow, (door, chat))
    return chat if row is None else row.who


def address_of(tx: Transaction, who: str, door: str) -> tuple[str, str]:
    """Door and chat where *who* was last met; not met yet: behind *door*, by name."""
    wanted = select(AddressRow).where(AddressRow.who == who).order_by(AddressRow.used_at.desc()).limit(1)
    row = tx.scalars(wanted).first()
    return (door, who) if row is None else (row.door, row.chat)


def outgoing(row: OutboxRow) -> Outgoing:
    """The message that a row keeps."""
    return Outgoing(f"{PREFIX}{row.id}", row.door, row.chat, row.at, row.text, row.about, row.buttons, row.files)
