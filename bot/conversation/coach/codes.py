"""Codes by which people are invited: 60 random bits in letters and digits that can't be mixed up.

The alphabet is that of Crockford's base 32 (Douglas Crockford, "Base 32", crockford.com/base32.html): without I, L, O
and U; on reading I and L count as 1, O as 0.
"""

import re
from hashlib import sha256

ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
LENGTH = 12
BYTES = 8
"""So many random bytes are handed in; 60 of their 64 bits are used."""

GROUP = 4
ALIKE = str.maketrans("ILO", "110")
SHAPE = re.compile(r"(?<![0-9A-Za-z-])([0-9A-Za-z]{4})([- ]?)([0-9A-Za-z]{4})\2([0-9A-Za-z]{4})(?![0-9A-Za-z-])")
LOOKED_AT = 400


def code_of(bits: bytes) -> str:
    """The code for `BYTES` random bytes, in groups of four."""
    value = int.from_bytes(bits[:BYTES], "big")
    text = "".join(ALPHABET[value >> 5 * place & 31] for place in range(LENGTH))
    return "-".join(text[place : place + GROUP] for place in range(0, LENGTH, GROUP))


def code_in(text: str) -> str | None:
    """The code that stands in *text*, in its plain form; None: there is none. A word of twelve letters is no code."""
    for found in SHAPE.finditer(text[:LOOKED_AT]):
        plain = "".join(found.group(1, 3, 4)).upper().translate(ALIKE)
        digits = any(each.isdigit() for each in found.group())
        if set(plain) <= set(ALPHABET) and (digits or found.group(2) == "-"):
            return plain
    return None


def beside_code(text: str) -> str:
    """What stands in *text* besides a code: the letters of a code say nothing of how somebody is."""
    return SHAPE.sub(" ", text[:LOOKED_AT]) + text[LOOKED_AT:]


def mark_of(code: str) -> str:
    """What is kept of a code: nobody can tell the code from it."""
    plain = code.replace("-", "").upper().translate(ALIKE)
    return sha256(plain.encode()).hexdigest()
