"""The conversation: what is known of a person, what came in, and now -> what to keep and what to say."""

from bot.conversation.order import converse, help_alone, hold_of, speaks_of_danger, whatever_fails

__all__ = ["converse", "help_alone", "hold_of", "speaks_of_danger", "whatever_fails"]
