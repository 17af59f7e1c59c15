"""From tokens to tagged items: the longest phrase that the lexicon knows at each place, numbers, unknown words."""

from collections.abc import Callable
from functools import lru_cache, partial

from bot.reading.lexicon import Sense, Tree, listed
from bot.reading.tags import Item, Letter, Tag, Token

_ORDINAL_ENDS = ("st", "nd", "rd", "th")


_item: Callable[[tuple[Letter, str, int, int, float, float]], Item] = partial(tuple.__new__, Item)
"""An item from its fields, as `tokens.py` makes tokens."""


def items_of(tokens: list[Token], words: list[str], phrases: Tree) -> list[Item]:
    """The items of *tokens*, whose words are *words*, in order, each token in exactly one."""
    found: list[Item] = []
    first, count = 0, len(words)
    while first < count:
        if words[first] not in phrases and tokens[first].number is None:
            found.append(_single(tokens[first], first))
            first += 1
            continue
        meant, last = _phrase(tokens, words, first, phrases)
        if meant is None:
            found.append(_single(tokens[first], first))
        else:
            found.append(_item((meant.tag, meant.value, first, last, meant.n, 0.0)))
        first = last + 1
    return found


def _phrase(tokens: list[Token], words: list[str], first: int, root: Tree) -> tuple[Sense | None, int]:
    """The longest phrase that starts at token *first*, from the *root* of the tree on, and its last token."""
    meant, last = None, first
    node, place, count, idle = root, first, len(words), MOST_IDLE
    while place < count:
        word = words[place]
        after = node.get(word)
        if after is None and place > first and (node or node.closed):
            if word in _IDLE and idle and (skips := idle_words(words, place, _SKIPPED)):
                place, idle = place + skips, idle - 1
                continue
            if len(word) >= SHORTEST_INFLECTED:
                after = _other_form(node, word, root)
        if after is None and tokens[place].number is not None:
            after = node.get("#")
        if after is None:
            break
        node = after
        if node.closed:
            node.grow()
        if node.meaning is not None:
            meant, last = node.meaning, place
        place += 1
    return meant, last


@lru_cache(maxsize=4096)
def _forms(word: str) -> tuple[str, ...]:
    """Other forms of an inflected or plain *word*: ticked for tick, tick for ticked."""
    if not word.isalpha():
        return ()
    for end in ("ing", "ed"):
        if word.endswith(end):
            stem = word[: -len(end)]
            doubled = stem[-1:] == stem[-2:-1]
            return (stem, f"{stem}e", *([stem[:-1]] if doubled else []))
    if word.endswith("s") and not word.endswith("ss"):
        return (word[:-1], word[:-2]) if word.endswith("es") else (word[:-1],)
    stem = word.removesuffix("e")
    return (f"{stem}ed", f"{stem}ing", f"{stem}{stem[-1]}ed", f"{stem}{stem[-1]}ing")


SHORTEST_INFLECTED = 4


def _other_form(node: Tree, word: str, root: Tree) -> Tree | None:
    """The branch of *node* for another form of *word*, unless it means something by itself."""
    for form in _forms(word):
        if form in node:
            own = root.get(word)
            return None if own is not None and own.grow().meaning is not None else node[form]
    return None


MOST_IDLE = 3
"""So many words that change nothing may stand within one phrase: nobody says more, and time stays linear."""


def idle_words(words: list[str], place: int, single: frozenset[str]) -> int:
    """How many words from *place* on may stand within a phrase and change nothing, be it one of *single* ("can you
    just move it") or a pair ("came over a bit faint")."""
    word = words[place]
    if word in single:
        return 1
    return 2 if words[place + 1 : place + 2] in IDLE_PAIRS.get(word, ()) else 0


_SKIPPED = listed("scan", "skipped")
IDLE_PAIRS = {
    "a": (["bit"], ["little"], ["tad"], ["touch"]),
    "kind": (["of"],),
    "sort": (["of"],),
}
"""By their first word, the second ones."""
_IDLE = _SKIPPED | IDLE_PAIRS.keys()


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
    return _item((Tag.WORD, word, index, index, 0.0, 0.0))
