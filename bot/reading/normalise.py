"""From text as it was sent to plain lower-case text, with a map from each character back to where it came from."""

import unicodedata
from typing import NamedTuple

MOST_CHARACTERS = 4096

_PLAIN = {
    "‘": "'", "’": "'", "ʼ": "'", "`": "'", "´": "'", "′": "'", "“": '"', "”": '"',
    "–": "-", "—": "-", "‐": "-", "‑": "-", "−": "-", "×": "x", "…": "...", "⁄": "/", "ł": "l", "ø": "o", "ß": "ss",
    "½": " 1/2 ", "¼": " 1/4 ", "¾": " 3/4 ", "⅓": " 1/3 ", "⅔": " 2/3 ", "°": " degrees ", "º": " degrees ",
    "？": "?", "！": "!", "。": ".", "，": ",",
}  # fmt: skip
_DROPPED = frozenset({"Cf", "Mn", "Me", "Sk", "Cs", "Co", "Cn"})


class Plain(NamedTuple):
    """Normalised text; character *i* of it came from character `origin[i]` of the original."""

    text: str
    origin: tuple[int, ...] | None = None
    """None: each where it stands."""

    def place(self, index: int) -> int:
        """Where character *index* came from."""
        return index if self.origin is None else self.origin[index]


def normalise(text: str) -> Plain:
    """*text*, at most its first 4,096 characters, in lower-case compatibility form without marks and controls."""
    text = text[:MOST_CHARACTERS]
    if text.isascii():
        return Plain(text.lower())
    pieces: list[str] = []
    origin: list[int] = []
    for index, char in enumerate(text):
        piece = char.lower() if char.isascii() else _plain(char)
        pieces.append(piece)
        origin.extend([index] * len(piece))
    origin.append(len(text))
    return Plain("".join(pieces), tuple(origin))


def _plain(char: str) -> str:
    """One character as the tokens know it; nothing for marks, modifiers and invisible ones."""
    if (known := _PLAIN.get(char)) is not None:
        return known
    decimal = unicodedata.decimal(char, None)
    if decimal is not None:
        return str(decimal)
    parts = unicodedata.normalize("NFKD", char)
    return "".join(each for each in parts.lower() if unicodedata.category(each) not in _DROPPED)
