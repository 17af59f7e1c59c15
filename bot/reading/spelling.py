"""Misspelt words: one letter off a word of the lists, and only where no real word stands.

A word of danger or denial is never guessed, and no word is ever guessed into one: "shun" stays what it is, "dizzu"
too. The common misspellings of such words stand in the lists themselves.
"""

import pkgutil
from functools import cache, lru_cache

from bot.reading import lexicon
from bot.reading.tags import Tag, Token

SHORTEST, LONGEST = 5, 11
LONG = 9
"""From this length on two letters may be off."""
_GUESSED = frozenset(
    {Tag.ACT, Tag.DONE, Tag.STOPPED, Tag.SESSION, Tag.UNIT, Tag.PART, Tag.SIDE, Tag.DATE, Tag.MONTH, Tag.PARTDAY,
     Tag.REMIND, Tag.MOVE, Tag.INSTEAD, Tag.EFFORT_KEY, Tag.EFFORT, Tag.SENSE, Tag.OFF, Tag.MISS, Tag.MOOD,
     Tag.SURE_KEY, Tag.CHALLENGE, Tag.DEGREE}
)  # fmt: skip

HARMLESS = frozenset({Tag.DATE, Tag.MONTH, Tag.PARTDAY, Tag.UNIT, Tag.SESSION})
"""Guessing one of these makes no danger, though signs of the past name days too."""


def mended(tokens: list[Token]) -> list[Token]:
    """*tokens* with misspelt words replaced by the words that they stand for."""
    strange = {token.word for token in tokens} - lexicon.vocabulary()
    guesses = {word: _guess(word) for word in strange if SHORTEST <= len(word) <= LONGEST}
    if not any(guesses.values()):
        return tokens
    return [token._replace(word=guesses.get(token.word) or token.word) for token in tokens]


@lru_cache(maxsize=4096)
def _guess(word: str) -> str:
    """The one word of the lists that *word* is a slip of; empty if there is none or *word* is a real one."""
    if not (word.isalpha() and word.isascii()):
        return ""
    if word.endswith("in") and word + "g" in lexicon.vocabulary():
        return word + "g"
    if word in english():
        return ""
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    off = 2 if len(word) >= LONG else 1
    near = process.extract(word, candidates()[word[0]], scorer=OSA.distance, score_cutoff=off, limit=3)
    best = [guess for guess, distance, _ in near if distance == near[0][1]]
    meanings = {lexicon.phrases()[guess].grow().meaning for guess in best}
    return str(best[0]) if len(meanings) == 1 else ""


@cache
def english() -> frozenset[str]:
    """Real words, whatever they mean."""
    content = (pkgutil.get_data(lexicon.__name__, "english.txt") or b"").decode()
    return frozenset(word for line in content.splitlines() if not line.startswith("#") for word in line.split())


@cache
def candidates() -> dict[str, list[str]]:
    """The words that may be guessed, by first letter: single words of everyday lists, none of danger or denial."""
    grave = lexicon.grave()
    found: dict[str, list[str]] = {chr(code): [] for code in range(ord("a"), ord("z") + 1)}
    for word, meaning in lexicon.phrases().alone():
        plain = meaning.tag in _GUESSED and (meaning.tag in HARMLESS or word not in grave)
        if plain and len(word) >= SHORTEST - 1 and word.isascii() and word.isalpha():
            found[word[0]].append(word)
    return found
