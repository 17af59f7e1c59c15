"""One turn: what is known -> read -> converse -> words -> all of it kept in one transaction, or nothing."""

from bot.turn.turns import Turns

__all__ = ["Turns"]
