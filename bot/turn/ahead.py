"""The whole plan, for the few messages that ask how it all goes on."""

from dataclasses import replace

from sqlalchemy.orm import Session as Transaction

from bot.conversation import asks_ahead
from bot.conversation.events import Event
from bot.conversation.known import Known
from bot.store import plans


def with_plan(tx: Transaction, known: Known, event: Event) -> Known:
    """*known* with the own whole plan, if the answer depends on it."""
    if known.profile is None or not known.profile.days or not asks_ahead(event):
        return known
    return replace(known, plan=plans.find_plan(tx, known.who))
