"""What beginners ask, and which card answers it."""

from bot.conversation.cards.deck import Card, card_named, deck
from bot.conversation.cards.match import Found, find

__all__ = ["Card", "Found", "card_named", "deck", "find"]
