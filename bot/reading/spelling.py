"""Misspelt words: two letters swapped, one doubled or one off a word of the lists, and only where no real word stands.

A word that alone is danger or denial is never guessed, and no word is ever guessed into one: "dizzu" stays what it is.
The common misspellings of such words stand in the lists themselves.
"""

import pkgutil
from collections.abc import Iterable
from functools import cache, lru_cache
from string import ascii_lowercase

from bot.reading import lexicon
from bot.reading.tags import Tag, Token
from bot.reading.tokens import NUMBER_WORDS, merged

SHORTEST, LONGEST = 5, 11
LONG = 9
"""From this length on two letters may be off."""
_GUESSED = frozenset(
    {Tag.ACT, Tag.DONE, Tag.STOPPED, Tag.SESSION, Tag.UNIT, Tag.PART, Tag.SIDE, Tag.DATE, Tag.MONTH, Tag.PARTDAY,
     Tag.REMIND, Tag.MOVE, Tag.INSTEAD, Tag.EFFORT_KEY, Tag.EFFORT, Tag.SENSE, Tag.OFF, Tag.MISS, Tag.MOOD,
     Tag.SURE_KEY, Tag.CHALLENGE, Tag.DEGREE, Tag.ILL, Tag.FEVER, Tag.HALF, Tag.BACK, Tag.WELL, Tag.PAST, Tag.QUEST,
     Tag.CHANGE, Tag.HAVE, Tag.WEIGH, Tag.RETURN, Tag.LATER, Tag.COURSE, Tag.SUDDEN, Tag.WANT, Tag.AND, Tag.THEN}
)  # fmt: skip

HARMLESS = frozenset({Tag.DATE, Tag.MONTH, Tag.PARTDAY, Tag.UNIT, Tag.SESSION})
"""Guessing one of these makes no danger, though signs of the past name days too."""


def mended(found: list[Token]) -> list[Token]:
    """The tokens *found* with misspelt words replaced by the words that they stand for."""
    strange = {token.word for token in found} - lexicon.vocabulary()
    guesses = {word: _guess(word) for word in strange if SHORTEST - 1 <= len(word) <= LONGEST}
    if not any(guesses.values()):
        return found
    found = [_replaced(token, guesses.get(token.word) or token.word) for token in found]
    return merged(found) if any(guess in NUMBER_WORDS for guess in guesses.values()) else found


def _replaced(token: Token, word: str) -> Token:
    return token if word == token.word else token._replace(word=word, number=NUMBER_WORDS.get(word))


_ENDS = (("nd", "ned"), ("kd", "ked"), ("shd", "shed"), ("pd", "ped"), ("td", "ted"))
"""Ends of words as they are said, and as they are written: "raind"."""


@lru_cache(maxsize=4096)
def _guess(word: str) -> str:
    """The one word of the lists that *word* is a slip of; empty if there is none or *word* is a real one."""
    if not (word.isalpha() and word.isascii()):
        return ""
    if word.endswith("in") and word + "g" in lexicon.vocabulary():
        return word + "g"
    if word in english():
        return ""
    for end, whole in _ENDS:
        if word.endswith(end) and (meant := word.removesuffix(end) + whole) in everyday()[word[0]]:
            return meant
    if len(word) < SHORTEST:
        return _slip(word, candidates()) or _slip(word, everyday(), sure=True)
    return _nearest(word) or _slip(word, candidates()) or _slip(word, everyday()) or _nearest_in_phrases(word)


def _nearest(word: str) -> str:
    """The word of `candidates` that is next to *word*; of several next ones any, if all mean the same."""
    best = _next_to(word, candidates()[word[0]])
    meanings = {NUMBER_WORDS.get(guess) or lexicon.phrases()[guess].grow().meaning for guess in best}
    return best[0] if len(meanings) == 1 else ""


def _nearest_in_phrases(word: str) -> str:
    """The one word of everyday phrases that is next to *word*."""
    best = _next_to(word, everyday()[word[0]])
    return best[0] if len(best) == 1 else ""


def _next_to(word: str, words: list[str]) -> list[str]:
    """Those of *words* that are the fewest letters off *word*, if few are."""
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    off = 2 if len(word) >= LONG else 1
    near = process.extract(word, words, scorer=OSA.distance, score_cutoff=off, limit=3)
    return [str(guess) for guess, distance, _ in near if distance == near[0][1]]


def _slip(word: str, words: dict[str, list[str]], sure: bool = False) -> str:
    """The one of *words* of which *word* is a slip of the fingers: two neighbouring letters swapped, one twice or once
    too few; unless it must be *sure*, also the key beside the right one, or one not hit."""
    places = range(1, len(word) - 1)
    swapped = {word[:at] + word[at + 1] + word[at] + word[at + 2 :] for at in places}
    doubled = {word[:at] + word[at + 1 :] for at in places if word[at] == word[at + 1]}
    halved = {word[: at + 1] + word[at:] for at in range(len(word))}
    beside = {word[:at] + key + word[at + 1 :] for at in range(1, len(word)) for key in _BESIDE[word[at]]}
    left_out = {word[:at] + key + word[at:] for at in range(1, len(word)) for key in ascii_lowercase}
    first = {word[1] + word[0] + word[2:]}
    for slips in (swapped | doubled | halved, *((beside, left_out) if not sure else ()), first):
        meant = {_usual(guess, words) for guess in slips} - {""}
        if meant:
            return meant.pop() if len(meant) == 1 else ""
    return ""


_KEYS = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
_BESIDE = {
    key: "".join(
        other for line, keys in enumerate(_KEYS) for at, other in enumerate(keys)
        if other != key and abs(line - row) <= 1 and abs(at + line / 2 - place - row / 2) <= 1
    )
    for row, row_keys in enumerate(_KEYS) for place, key in enumerate(row_keys)
}  # fmt: skip
"""The keys around each on the usual English keyboard."""


def _usual(word: str, words: dict[str, list[str]]) -> str:
    """*word*, or what it is short for, if it is one of *words*; else empty."""
    short = lexicon.spelling().get(word, ())
    word = short[0] if len(short) == 1 else word
    return word if word in words[word[0]] else ""


@cache
def english() -> frozenset[str]:
    """Real words, whatever they mean."""
    content = (pkgutil.get_data(lexicon.__name__, "english.txt") or b"").decode()
    return frozenset(word for line in content.splitlines() if not line.startswith("#") for word in line.split())


@cache
def everyday() -> dict[str, list[str]]:
    """The words of all phrases that are neither danger nor denial, by first letter."""
    return _by_letter(sorted((lexicon.everyday() | NUMBER_WORDS.keys()) - lexicon.grave()), SHORTEST - 2)


@cache
def candidates() -> dict[str, list[str]]:
    """The words that may be guessed, by first letter: single words of everyday lists, none of danger or denial."""
    grave = lexicon.grave()
    plain = (
        word
        for word, meaning in lexicon.phrases().alone()
        if meaning.tag in _GUESSED and (meaning.tag in HARMLESS or word not in grave)
    )
    return _by_letter([*plain, *NUMBER_WORDS], SHORTEST - 1)


def _by_letter(words: Iterable[str], shortest: int) -> dict[str, list[str]]:
    """Those of *words* that are of letters alone and not too short, by first letter."""
    found: dict[str, list[str]] = {letter: [] for letter in ascii_lowercase}
    for word in words:
        if len(word) >= shortest and word.isascii() and word.isalpha():
            found[word[0]].append(word)
    return found
