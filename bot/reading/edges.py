"""What a reply opens and closes with, and says nothing: "ok", "well", a kiss."""

from bot.reading.lexicon import listed
from bot.reading.tags import Token


def trimmed(tokens: list[Token]) -> list[Token]:
    """*tokens* without a word that only opens the reply and without kisses at its end."""
    while len(tokens) > 1 and tokens[-1].word in _KISSES:
        tokens = tokens[:-1]
    if len(tokens) < 2 or tokens[0].word not in _OPENING:
        return tokens
    after = tokens[1]
    told = after.number is not None or after.word in _AFTER or (after.word[0].isdigit() and tokens[0].word != "right")
    return tokens[1:] if told else tokens


_KISSES = listed("edges", "kisses")
_OPENING = listed("edges", "opening")
_AFTER = listed("edges", "after_opening")
