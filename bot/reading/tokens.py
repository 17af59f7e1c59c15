"""From plain text to tokens: words in canonical spelling, numbers, marks. Patterns are bounded, time is linear."""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial

from bot.reading.normalise import Plain
from bot.reading.tags import Token

_PIECE = re.compile(
    r"(?P<word>[a-z]++(?:'[a-z]++){0,2}+)(?!\d)"
    r"|(?P<road>(?<=the )[abeimn]\d{1,4}\b)"
    r"|(?P<mixed>[a-z]{1,3}\d[a-z]{0,3}\b|[wrj]\d{1,2}\b|2(?:day|nite|night|moro|morrow|morow|mrw|moz|mz|mo|dy)\b)"
    r"|(?P<ordinal>(?:[23]?1st|2?2nd|2?3rd|[123]?\dth)\b)"
    r"|(?P<colon>\d{1,4}:\d{2}(?::\d{2})?|\d{1,2}h\d{2}\b)"
    r"|(?P<thousands>\d{1,3}(?:,\d{3}){1,2}\b)"
    r"|(?P<number>\d{1,8}(?:[.,]\d{1,3}(?!\d))?|\.\d{1,3}\b)"
    r"|(?P<letters>[a-z]+(?:'[a-z]+){0,2})"
    r"|(?P<mark>\S)"
    r"|(?P<line>\n)",
    re.ASCII,
)
"""What is most often met stands first; letters that a digit follows may be shorthand with a digit inside."""
_SUFFIXES = {"'m": ("am",), "'ve": ("have",), "'ll": ("will",), "'re": ("are",), "'d": ("would",), "'s": ("s",)}
_UNITS = (
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve",
    "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen",
)  # fmt: skip
_TENS = ("", "", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
NUMBER_WORDS = {word: float(value) for value, word in enumerate(_UNITS)} | {
    word: value * 10.0 for value, word in enumerate(_TENS) if word
}


_HOMOPHONES = {
    "to": 2.0,
    "too": 2.0,
    "tu": 2.0,
    "for": 4.0,
    "fore": 4.0,
    "ate": 8.0,
    "won": 1.0,
    "tree": 3.0,
    "sex": 6.0,
}
_AFTER_NUMBER = frozenset(
    {"minutes", "minute", "miles", "mile", "km", "k", "kilometres", "kilometers",
     "hours", "days", "weeks", "kilos", "stone", "rounds", "seconds", "times", "laps", "hundred", "lots", "sets",
     "goes", "reps"}
)  # fmt: skip
_BEFORE_EIGHT = frozenset({"walked", "jogged", "ran", "walk", "jog", "run", "an", "for", "at"})
_BEFORE_UNIT = frozenset({"next", "due", "down", "up", "close", "back", "as"})


def is_plain(words: tuple[str, ...]) -> bool:
    """Whether *words* are their own tokens: letters alone, no numbers, nothing that dictation writes for others."""
    return all(word.isalpha() and word.isascii() and word not in _SPECIAL for word in words)


_token: Callable[[tuple[str, int, int, float | None]], Token] = partial(tuple.__new__, Token)
"""A token from its fields: a reply makes so many that the usual way would be a good part of its time."""


def tokens_of(plain: Plain, spelling: Mapping[str, tuple[str, ...]]) -> list[Token]:
    """The tokens of *plain*; *spelling* maps shorthand and contractions to the words that they stand for.

    A word that stands between spaces is taken at once: most do, and a pattern takes three times as long.
    """
    found: list[Token] = []
    moved = plain.origin is not None
    place = 0
    for chunk in plain.text.split(" "):
        first, place = place, place + len(chunk) + 1
        if chunk.isalpha() and chunk.isascii() and not moved and chunk not in spelling:
            found.append(_token((chunk, first, place - 1, NUMBER_WORDS.get(chunk))))
        elif chunk:
            _pieces(plain, first, place - 1, spelling, found)
    said = {token.word for token in found}
    if "-" in said:
        _parted(found)
    if "would" in said:
        _past_perfect(found)
    if not said.isdisjoint(_HEARD):
        _hear(found)
    return found if _SPOKEN.isdisjoint([token.word for token in found]) else merged(found)


def _pieces(plain: Plain, first: int, end: int, spelling: Mapping[str, tuple[str, ...]], found: list[Token]) -> None:
    """Add to *found* the tokens of what stands between two spaces, from *first* to *end* of *plain*."""
    moved = plain.origin is not None
    for hit in _PIECE.finditer(plain.text, first, end):
        kind, piece = hit.lastgroup, hit[0]
        start, end = hit.span()
        if moved:
            start, end = plain.place(start), plain.place(end - 1) + 1
        if kind == "word" or kind == "letters":
            known = spelling.get(piece)
            if known is None and "'" not in piece:
                found.append(_token((piece, start, end, NUMBER_WORDS.get(piece))))
            else:
                words = known or _words(piece, spelling)
                found.extend([_token((word, start, end, NUMBER_WORDS.get(word))) for word in words])
        elif kind == "mixed":
            found.extend(_mixed(piece, start, spelling))
        elif kind == "line":
            if found and found[-1].word[-1].isalnum():
                found.append(Token(".", start, end))
        elif piece == "'" and found and found[-1].end == start and found[-1].word.isalpha():
            continue
        else:
            found.append(Token(piece, start, end, _number(kind, piece)))


def _parted(tokens: list[Token]) -> None:
    """`too much with two jobs - easier please`: a dash between spaces parts as a comma does, if no value follows."""
    for index in range(1, len(tokens) - 1):
        token, lead, after = tokens[index], tokens[index - 1], tokens[index + 1]
        apart = token.word == "-" and token.start > lead.end and after.start > token.end
        if not apart or (lead.word in _WEEKDAYS and after.word in _WEEKDAYS):
            continue
        if not after.word[0].isdigit() or not (lead.word[0].isdigit() or lead.word in _VALUED):
            tokens[index] = token._replace(word=",")


_VALUED = frozenset(
    {"effort", "rpe", "weight", "total", "level", "score", "tally", "sure", "confidence", "time", "distance", "walk",
     "run", "jog", "walked", "ran", "jogged", "walking", "running", "jogging", "session", "pain"}
)  # fmt: skip
"""Before a dash and a number these name what the number is of."""
_PARTICIPLES = frozenset({"done", "had", "been", "gone", "got", "run", "swum", "felt"})
_BETWEEN = frozenset({"just", "only", "already", "never", "not"})


def _past_perfect(tokens: list[Token]) -> None:
    """`I'd done twenty minutes`, `I'd 20 done`: had, not would."""
    for index in range(1, len(tokens) - 1):
        token, after = tokens[index], tokens[index + 1].word
        after = _word(tokens, index + 2) if after in _BETWEEN else after
        contracted = token.word == "would" and token.start == tokens[index - 1].start
        number = tokens[index + 1].number is not None and "done" in [each.word for each in tokens[index : index + 5]]
        if contracted and (number or after in _PARTICIPLES or (after.endswith("ed") and len(after) > LONGEST_BASE)):
            tokens[index] = token._replace(word="had")


LONGEST_BASE = 4
"""Shorter words in -ed ("need", "feed") are no participles."""


def _words(piece: str, spelling: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """The words that one written word stands for: `didn't` is did and not, `knee's` is knee and s."""
    known = spelling.get(piece)
    if known is not None:
        return known
    if "'" not in piece:
        return (piece,)
    if piece.endswith("n't"):
        return (*_words(piece[:-3], spelling), "not")
    for suffix, words in _SUFFIXES.items():
        if piece.endswith(suffix):
            return (*_words(piece[: -len(suffix)], spelling), *words)
    return _words(piece.replace("'", ""), spelling)


_LETTERS = {"w": "walk", "r": "run", "j": "jog"}
"""Shorthand of logs: w10 r5."""
_MIXED_SPLIT = re.compile(r"\d{1,8}|[a-z]+|\S")


def _mixed(piece: str, start: int, spelling: Mapping[str, tuple[str, ...]]) -> Iterator[Token]:
    """A word with a digit inside (`2nite`, `b4`, `l8r`) if it is known, else its letters and digits apart."""
    known = spelling.get(piece)
    if known is not None:
        for word in known:
            yield Token(word, start, start + len(piece), NUMBER_WORDS.get(word))
        return
    letter = _LETTERS.get(piece[0])
    if letter and piece[1:].isdigit():
        yield Token(letter, start, start + 1)
        yield Token(piece[1:], start + 1, start + len(piece), float(piece[1:]))
        return
    for hit in _MIXED_SPLIT.finditer(piece):
        place = (start + hit.start(), start + hit.end())
        if hit[0].isdigit():
            yield Token(hit[0], *place, float(hit[0]))
        else:
            for word in _words(hit[0], spelling):
                yield Token(word, *place, NUMBER_WORDS.get(word))


def _number(kind: str | None, piece: str) -> float | None:
    """The value of a number token; None for clock-like pieces, ordinals and marks."""
    if kind == "number":
        return float(piece.replace(",", "."))
    if kind == "thousands":
        return float(piece.replace(",", ""))
    return None


_SHORT = {
    "2": ("to", frozenset({"the", "do", "say", "be", "go", "get", "my", "work", "see", "tell", "log", "write", "put",
        "mention", "let", "bed", "sleep", "school", "town", "make", "move", "stop", "start", "ask", "add", "try",
        "take", "have", "you", "help", "sit", "stand", "lie", "rest", "train", "exercise", "lunch"})),
    "4": ("for", frozenset({"now", "a", "my", "me", "you", "sure", "ever", "once", "work", "it", "this", "that", "tea",
        "lunch", "dinner", "breakfast", "him", "her", "us", "real", "the", "our", "your", "dat"})),
}  # fmt: skip
"""Digits that stand for words: "ran 2 the shop", "pause it 4 now"."""
_WEEKDAYS = frozenset(
    {"monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday", "tomorrow", "tonight", "mon", "tue",
     "tues", "wed", "weds", "thu", "thurs", "thur", "fri", "sat", "sun", "half", "quarter", "noon", "lunchtime"}
)  # fmt: skip
_MOVED = frozenset(
    {"it", "this", "that", "session", "run", "walk", "one", "todays", "today", "me", "mine", "move", "shift", "back",
     "push", "moved", "shifted", "pushed", "workout", "forward", "on", "over", "swap", "bump", "switch", "change",
     "bumped", "swapped", "switched"}
)  # fmt: skip
"""After one of these "2" before a day or a time of day is "to": "shift it 2 6 am"."""
_THIS_ONE = frozenset(
    {"next", "this", "that", "last", "todays", "tomorrows", "easy", "long", "hard", "easier", "tough", "rough", "good",
     "bad", "quick", "short", "slow", "cold", "right", "left", "other"}
)  # fmt: skip
"""After one of these a bare "1" is no number."""
_TOO = frozenset({"hard", "easy", "much", "tired", "late", "long", "early", "busy", "hot", "cold", "sore", "many"})
_COUNTING = frozenset(
    {"at", "by", "to", "about", "until", "around", "for", "before", "after", "done", "did", "is", "on", "x", "times",
     "only", "got", "was", "just", "than", "of", "/", "-", "past", "st", "stone"}
)  # fmt: skip
_MEANT = {"he": "heel", "heal": "heel", "tow": "toe", "calve": "calf"}
_OF_A_HOLE = frozenset({"in", "on", "and", "that", "where", "by", "at"})
_TIMED = frozenset({"run", "walk", "jog", "ran", "walked", "jogged", "x", "of", "for", "rest"})
_SIDED = frozenset(
    {"foot", "knee", "shin", "calf", "ankle", "hip", "heel", "toe", "leg", "arm", "hand", "shoulder", "hamstring",
     "quad", "thigh", "achilles", "glute", "side", "elbow", "wrist", "groin", "big", "arch", "rib", "bum", "butt"}
)  # fmt: skip
"""Before one of these a bare "r" is right."""
_SIDES = frozenset({"left", "right", "big", "little"})


def _digit(tokens: list[Token], index: int) -> Token:
    """A digit that stands for a word by what is around it: "shift it 2 6 am", "2 hard", "next 1"."""
    token, lead, after = tokens[index], tokens[index - 1].word, tokens[index + 1 : index + 2]
    timed = bool(after) and (after[0].word in _WEEKDAYS or after[0].number is not None or ":" in after[0].word)
    if token.word == "2" and lead in _MOVED and timed and _word(tokens, index + 2) not in ("x", "times", "-"):
        return Token("to", token.start, token.end)
    if token.word == "2" and lead in _WEEKDAYS and after and after[0].word in _WEEKDAYS:
        return Token("to", token.start, token.end)
    if token.word == "2" and lead in _OBLIGED and after and after[0].word in _PACED:
        return Token("to", token.start, token.end)
    if token.word == "2" and after and after[0].word in _TOO and tokens[index - 1].number is None:
        return Token("too", token.start, token.end)
    if token.word == "2" and lead in _FIT and after and after[0].word in ("run", "walk", "jog"):
        return Token("to", token.start, token.end)
    if token.word == "1" and lead in _THIS_ONE and not (after and after[0].word in _AFTER_ONE):
        return Token("one", token.start, token.end, 1.0)
    return token


_FIT = frozenset({"clear", "cleared", "fit", "ready", "able", "okay", "ok", "allowed"})
"""After one of these "2" before an activity is "to": "all clear 2 run"."""
_OBLIGED = frozenset({"have", "had", "going", "want", "wanted", "need", "needed", "able", "got", "has", "meant"})
_DIGITS = frozenset({"1", "2"})
_AFTER_ONE = frozenset({"minutes", "minute", "mile", "miles", "km", "k", "hour", "week", "x", "/", ":", "of", "-", "."})


_PACED = frozenset({"walk", "walks", "walking", "jog", "jogs", "jogging", "run", "runs", "running", "rest", "plank"})
"""Before these a number and "s" are seconds ("90s jog"), and no decade."""


def _shortened(tokens: list[Token], places: list[int]) -> None:
    """Mend digits that stand for "to" and "for", and parts of the body that dictation heard as other words."""
    for index in places:
        token, after = tokens[index], _word(tokens, index + 1)
        counted = index > 0 and (tokens[index - 1].word in _COUNTING or tokens[index - 1].number is not None)
        if token.word in _SHORT and not counted and after in _SHORT[token.word][1]:
            tokens[index] = Token(_SHORT[token.word][0], token.start, token.end)
        elif token.word in _DIGITS and index > 0:
            tokens[index] = _digit(tokens, index)
        if token.word == "are" and token.end - token.start == 1 and after in _SIDED:
            tokens[index] = token._replace(word="right")
    for index in places:
        if index == 0:
            continue
        token, lead = tokens[index], tokens[index - 1]
        apart = token.start > lead.end or _word(tokens, index - 2) in _TIMED or _word(tokens, index + 1) in _PACED
        if token.word == "s" and lead.number is not None and token.end - token.start == 1 and apart:
            tokens[index] = token._replace(word="seconds")
        if token.word in _MEANT and lead.word in _SIDES:
            tokens[index] = token._replace(word=_MEANT[token.word])
            if token.word == "he" and _word(tokens, index + 1) == "will":
                del tokens[index + 1]
                return


_HEARD = frozenset({*_SHORT, *_DIGITS, *_MEANT, *_HOMOPHONES, "our", "hole", "are", "s"})
_SPOKEN = frozenset({*NUMBER_WORDS, "hundred"})
_SPECIAL = _SPOKEN | _HEARD


def _hear(tokens: list[Token]) -> None:
    """Dictation writes numbers as other words: "too miles", "ate minutes", "for kilometres"."""
    _shortened(tokens, _heard(tokens))
    places = _heard(tokens)
    for index in places:
        token = tokens[index]
        if token.word == "hole" and _word(tokens, index - 1) == "the" and _word(tokens, index + 1) not in _OF_A_HOLE:
            tokens[index] = token._replace(word="whole")
        if token.word == "our" and _word(tokens, index - 1) in ("an", "half", "one", "quarter", "a"):
            tokens[index] = token._replace(word="hour")
    places = [place for place in places if tokens[place].word in _HOMOPHONES]
    for index in places:
        token = tokens[index]
        if token.word == "ate" and _word(tokens, index - 1) in _BEFORE_EIGHT:
            tokens[index] = Token("#", token.start, token.end, 8.0)
        place = index + 2 if _word(tokens, index + 1) == "out" else index + 1
        goal = _word(tokens, place) == "of" and _word(tokens, place + 1) in NUMBER_WORDS
        halves = token.word in ("too", "to") and [t.word for t in tokens[index + 1 : index + 4]] == ["and", "a", "half"]
        if (goal and token.word in ("won", "to", "too", "for", "ate")) or halves:
            tokens[index] = Token("#", token.start, token.end, _HOMOPHONES[token.word])
    for index in places:
        token = tokens[index]
        value = _HOMOPHONES.get(token.word)
        after, before = _word(tokens, index + 1), _word(tokens, index - 1)
        unit = after in _AFTER_NUMBER and before not in _BEFORE_UNIT and _counts(tokens, index + 1)
        unit = unit or (token.word == "won" and after in ("kilometre", "kilometer", "hour"))
        unit = unit and not (token.word == "for" and after in _LONG and _word(tokens, index + 2) != "ago")
        if value is not None and after and (unit or before == "point"):
            tokens[index] = Token(_UNITS[int(value)], token.start, token.end, value)


_LONG = frozenset({"days", "weeks", "ages"})
"""`for weeks`: a long time, and hardly ever four of them."""
_REPEATS = frozenset({"lots", "sets", "goes", "reps"})


def _counts(tokens: list[Token], index: int) -> bool:
    """Whether what comes before is a number: "for lots of two minutes", not "for lots of people" nor "to minute 14"."""
    follows = tokens[index + 2 : index + 3]
    if tokens[index].word == "minute":
        return index + 1 >= len(tokens) or tokens[index + 1].number is None
    if tokens[index].word not in _REPEATS:
        return True
    return _word(tokens, index + 1) in ("of", "at") and bool(follows) and follows[0].number is not None


def _heard(tokens: list[Token]) -> list[int]:
    """The places of words that dictation may have heard wrong."""
    return [place for place, token in enumerate(tokens) if token.word in _HEARD]


def merged(tokens: list[Token]) -> list[Token]:
    """The same tokens with dictated numbers as one: `twenty five`, `a hundred and four`, `two point five`."""
    merged: list[Token] = []
    index = 0
    while index < len(tokens):
        value, length = _spoken(tokens, index)
        if length > 1 or tokens[index].word == "hundred":
            merged.append(Token("#", tokens[index].start, tokens[index + length - 1].end, value))
        else:
            merged.append(tokens[index])
        index += length
    return merged


def _spoken(tokens: list[Token], index: int) -> tuple[float | None, int]:
    """Value and length in tokens of the number said from *index* on."""
    if tokens[index].number is None and tokens[index].word != "hundred":
        return None, 1
    value, length = _below_hundred(tokens, index)
    after = index + length
    if _word(tokens, after) == "hundred" and value is not None and value < 10:
        value, length = value * 100, length + 1
    elif tokens[index].word == "hundred":
        value = 100.0
    if value is not None and value >= 100 and length <= 2:
        joint = 1 if _word(tokens, index + length) == "and" else 0
        more, count = _below_hundred(tokens, index + length + joint)
        if more is not None and tokens[index + length + joint].word in NUMBER_WORDS:
            value, length = value + more, length + joint + count
    if value is not None and _word(tokens, index + length) == "point":
        digit = NUMBER_WORDS.get(_word(tokens, index + length + 1))
        if digit is not None and digit < 10:
            return value + digit / 10, length + 2
    return value, length


def _below_hundred(tokens: list[Token], index: int) -> tuple[float | None, int]:
    word = _word(tokens, index)
    value = tokens[index].number if word else None
    if word not in NUMBER_WORDS or value is None or value < 20:
        return value, 1
    joint = 1 if _word(tokens, index + 1) == "-" else 0
    unit = NUMBER_WORDS.get(_word(tokens, index + 1 + joint), 0.0)
    return (value + unit, 2 + joint) if 0 < unit < 10 else (value, 1)


def _word(tokens: list[Token], index: int) -> str:
    return tokens[index].word if 0 <= index < len(tokens) else ""
