"""Which messages ask how it all goes on, so that the whole plan has to be looked at."""

from bot.conversation.events import Event, Heard
from bot.conversation.topics.questions import card_for

AHEAD = frozenset({"finish", "ready"})


def asks_ahead(event: Event) -> bool:
    """Whether the answer to *event* depends on the whole plan."""
    return isinstance(event, Heard) and card_for(event.reading) in AHEAD
