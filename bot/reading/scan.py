"""From tokens to tagged items: the longest phrase that the lexicon knows at each place, numbers, unknown words."""

from typing import Any

from bot.reading.lexicon import END, Sense, Tree
from bot.reading.tags import Item, Tag, Token

_ORDINAL_ENDS = ("st", "nd", "rd", "th")


def items_of(tokens: list[Token], phrases: Tree) -> list[Item]:
    """The items of *tokens*, in order, each token in exactly one."""
    found: list[Item] = []
    index = 0
    while index < len(tokens):
        item = _phrase(tokens, index, phrases) or _single(tokens[index], index)
        found.append(item)
        index = item.last + 1
    return found


def _phrase(tokens: list[Token], index: int, phrases: Tree) -> Item | None:
    """The longest phrase that starts at *index*."""
    node: dict[str, Any] | None = phrases
    best: Item | None = None
    place = index
    while node is not None and place < len(tokens):
        node = node.get(tokens[place].word) or (node.get("#") if tokens[place].number is not None else None)
        if node is not None:
            meaning: Sense | None = node.get(END)
            if meaning is not None:
                best = Item(meaning.tag, meaning.value, index, place, meaning.n)
            place += 1
    return best


def _single(token: Token, index: int) -> Item:
    """The item of a token that starts no phrase."""
    word = token.word
    if token.number is not None:
        return Item(Tag.ONE if word == "one" else Tag.NUM, word, index, index, token.number)
    if ":" in word and word[0] in "0123456789":
        return Item(Tag.CLOCKISH, word, index, index)
    if word[0] in "0123456789":
        if word.endswith(_ORDINAL_ENDS):
            return Item(Tag.ORDINAL, word, index, index, float(word[:-2]))
        return Item(Tag.CLOCKISH, word.replace("h", ":"), index, index, 1)
    if not word[0].isalnum():
        return Item(Tag.FILL if word.isascii() else Tag.COMMA, word, index, index)
    return Item(Tag.WORD, word, index, index)
