"""The conversation: what is known of a person, what came in, and now -> what to keep and what to say."""

from bot.conversation.order import converse, help_alone, hold_of, speaks_of_danger, whatever_fails
from bot.conversation.rush import counted, held_back
from bot.conversation.topics.ahead import asks_ahead

__all__ = [
    "asks_ahead",
    "converse",
    "counted",
    "held_back",
    "help_alone",
    "hold_of",
    "speaks_of_danger",
    "whatever_fails",
]
