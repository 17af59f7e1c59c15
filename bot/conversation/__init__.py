"""The conversation: what is known of a person, what came in, and now -> what to keep and what to say."""

from bot.conversation.order import converse, whatever_fails

__all__ = ["converse", "whatever_fails"]
