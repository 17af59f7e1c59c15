"""From what a door brought to an event of the conversation."""

from datetime import timedelta

from sqlalchemy.orm import Session as Transaction

from bot.conversation.events import Event, Heard, Opened, Outdated, Shared
from bot.conversation.hearing import hear
from bot.conversation.known import Known
from bot.conversation.says import Asks
from bot.messages import Incoming
from bot.reading.facts import Asked
from bot.store import outbox
from bot.turn.coaching import invited
from planning.calendar import local

ASKED = {
    Asks.DONE: Asked.DONE,
    Asks.EFFORT: Asked.EFFORT,
    Asks.SURE: Asked.SURE,
    Asks.TIME: Asked.TIME,
    Asks.NEXT_MORNING: Asked.PAIN,
}
"""Open questions that change how a bare reply is read."""

STILL_OPEN = timedelta(days=2)
"""A question older than this no longer lends its meaning to a bare reply."""


def event_of(tx: Transaction, known: Known, incoming: Incoming) -> Event:
    """What the message is to the conversation. A pressed button is used up in *tx*."""
    if incoming.file is not None:
        return Shared(incoming.id, incoming.file.name)
    if incoming.press is None:
        return invited(tx, known, incoming) or _heard(known, incoming, incoming.text or "")
    button = outbox.pressed(tx, incoming.press, known.who)
    if button is None:
        return Outdated(incoming.id)
    if button.opens is not None:
        return Opened(incoming.id, Asks(button.opens))
    return _heard(known, incoming, button.text or "")


def _heard(known: Known, incoming: Incoming, text: str) -> Heard:
    tz = known.profile.tz if known.profile else "UTC"
    here = local(incoming.at, tz)
    question = known.question
    fresh = question is not None and here.date() - question.on <= STILL_OPEN
    asked = ASKED.get(question.asks) if question is not None and fresh and question.offer is None else None
    planned = next((each.minutes for each in known.sessions if each.on == here.date()), None)
    reading = hear(text, here.replace(tzinfo=None), tz, planned, asked)
    return Heard(incoming.id, reading, incoming.private, edited=incoming.edits is not None)
