"""From tokens to tagged items: the longest phrase that the lexicon knows at each place, numbers, unknown words."""

from bot.reading.lexicon import Sense, Tree
from bot.reading.tags import Item, Tag, Token

_ORDINAL_ENDS = ("st", "nd", "rd", "th")


def items_of(tokens: list[Token], words: list[str], phrases: Tree) -> list[Item]:
    """The items of *tokens*, whose words are *words*, in order, each token in exactly one."""
    found: list[Item] = []
    first, count = 0, len(words)
    while first < count:
        meant, last = _phrase(tokens, words, first, phrases)
        if meant is None:
            found.append(_single(tokens[first], first))
        else:
            found.append(Item(meant.tag, meant.value, first, last, meant.n))
        first = last + 1
    return found


def _phrase(tokens: list[Token], words: list[str], first: int, node: Tree) -> tuple[Sense | None, int]:
    """The longest phrase that starts at token *first*, from the root *node* of the tree on, and its last token."""
    meant, last = None, first
    for place in range(first, len(words)):
        after = node.get(words[place])
        if after is None:
            if tokens[place].number is None:
                break
            after = node.get("#")
            if after is None:
                break
        node = after
        if node.closed:
            node.grow()
        if node.meaning is not None:
            meant, last = node.meaning, place
    return meant, last


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
