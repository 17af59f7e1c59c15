"""What one stretch of a reply says of the body."""

from dataclasses import dataclass

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.clauses import Places, note
from bot.reading.tags import Tag, pattern

BREAKS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.BUT, Tag.AND, Tag.THEN, Tag.BECAUSE})


@dataclass(slots=True)
class Piece:
    """One stretch between joints: what it says of the body, by index of item. *joint*: the mark before it."""

    joint: str
    start: int
    end: int
    parts: Places = ()
    senses: Places = ()
    sudden: Places = ()
    courses: Places = ()
    levels: Places = ()
    nobear: Places = ()
    well: Places = ()
    negs: Places = ()
    wholes: Places = ()

    @property
    def says(self) -> bool:
        """Whether it says anything of a complaint besides naming a part."""
        return bool(self.senses or self.sudden or self.nobear)


MOST = 12
"""So many parts, senses and the like of one stretch are read: nobody means more, and time stays linear."""


_FIELDS: dict[str, str] = {
    Tag.PART: "parts", Tag.SENSE: "senses", Tag.SUDDEN: "sudden", Tag.COURSE: "courses", Tag.NOBEAR: "nobear",
    Tag.WELL: "well", Tag.NEG: "negs",
}  # fmt: skip


_MEANT = frozenset({*_FIELDS, Tag.SHARE, Tag.RATIO, Tag.ABOUT})


_WHOLLY = frozenset({"whole", "full", "entire", "all"})


_MOODY = listed("body", "mood")
"""These speak of a part only beside it; alone they are how somebody feels."""


_SO_LONG = pattern("THE? [NUM DUR]")


def _wholly(page: Page, index: int) -> bool:
    """`the whole 20`, `all the 27 minutes`."""
    item = page.items[index]
    return not _WHOLLY.isdisjoint(page.words[item.first : item.last + 1])


_TIMELY = frozenset({"way", "step", "start", "minute", "session", "run", "walk", "beginning", "workout", "end"})
"""Words of "the whole way", "every step": with a complaint they say that it was there throughout."""


_PRAISE = frozenset({"good", "great", "perfect", "happy", "sweet", "grand"})
"""Before a noun these say nothing of a part: "cold hands but good manners"."""


def _means_nothing(page: Page, index: int) -> bool:
    """`gone weak` is not well, as "gone" is only at the end of what is said; "can't shake the pain" denies none."""
    item = page.items[index]
    if page.line[index] == Tag.NEG:
        return page.words[max(0, item.first - 1)] in _UNABLE
    if page.line[index] == Tag.SENSE and _SORE_FROM.search(page.line[:index]):
        return True
    if page.words[item.last] == "bad" and Tag.SENSE in (
        page.line[index - 1 : index],
        page.line[index + 1 : index + 2],
    ):
        return True
    kept = (
        page.words[max(0, item.first - 1)] in ("kept", "was", "been") and page.line[index - 2 : index - 1] == Tag.SELF
    )
    if page.line[index] == Tag.SENSE and (kept or page.line[index - 1 : index] == Tag.SELF):
        return page.line[index + 1 : index + 2] == Tag.ABOUT and page.words[item.last + 1] == "about"
    if page.line[index] == Tag.WELL and page.words[item.last] in _PRAISE:
        return page.line[index + 1 : index + 2] == Tag.WORD
    gone = page.line[index] == Tag.WELL and page.words[item.last] == "gone"
    if gone and page.words[item.last + 1 : item.last + 2] and page.words[item.last + 1].endswith("ly"):
        return False
    return gone and page.line[index + 1 : index + 2] in (Tag.WORD, Tag.SENSE)


_SORE_FROM = pattern(
    "SENSE [^STOP ASK COMMA BUT AND THEN BECAUSE PART]* FROM [^STOP ASK COMMA BUT AND THEN BECAUSE PART]{0,3}$"
)
"""`sore from the heavy bags`: what it is sore from, no second complaint."""


def _praised(page: Page, piece: Piece) -> None:
    """`my knees have been marvellous`: a good word for a part says that it is well, and is no mood."""
    for index in range(piece.start, piece.end):
        if page.line[index] == Tag.MOOD and page.items[index].value == "good":
            note(piece, "well", index)
            page.claim(index, index + 1)


_UNABLE = frozenset({"can", "could", "will", "would"})
"""After these "not" says what can't be done; it denies no complaint."""


_AMOUNTS = frozenset({Tag.DUR, Tag.DIST, Tag.NUM})
TELLING = frozenset({Tag.DONE, Tag.WHOLE, Tag.STOPPED})


def _is_no_ache(page: Page, index: int, signs: frozenset[int]) -> bool:
    """Whether a sense without a part is a feeling, or a word of a sign that has no part."""
    item = page.items[index]
    return page.words[item.last] in _MOODY or item.first in signs


def _is_all(page: Page, index: int, signs: frozenset[int]) -> bool:
    """`everything went black`: what was seen, no part."""
    item = page.items[index]
    return item.first in signs and page.line[index] == Tag.PART and page.words[item.first] == "everything"


_PARTLESS = frozenset({"self_harm", "eating", "heart", "sugar", "faint", "nerve", "stroke"})


def _partless_signs(page: Page) -> frozenset[int]:
    """The tokens of signs that are no complaint of a part: "want to hurt myself", "my heart is pounding"."""
    return _signs_of(page, _PARTLESS)


def _signs_of(page: Page, codes: frozenset[str]) -> frozenset[int]:
    """The tokens of signs of danger with one of *codes*."""
    found = [fact for fact in page.found if fact.key is Key.DANGER and fact.value in codes]
    return frozenset(place for fact in found for place in range(fact.first, fact.last + 1))


def pieces_of(page: Page) -> list[Piece]:
    """The stretches of *page* between marks and joining words."""
    found: list[Piece] = []
    piece = Piece("", 0, 0)
    signs, harm = _partless_signs(page), _signs_of(page, frozenset({"self_harm"}))
    for index, tag in enumerate(page.line):
        if tag in BREAKS:
            piece.end = index
            found.append(piece)
            piece = Piece(tag, index + 1, index + 1)
        elif (
            tag not in _MEANT
            or page.items[index].first in harm
            or _means_nothing(page, index)
            or _is_all(page, index, signs)
        ):
            continue
        elif name := _FIELDS.get(tag):
            if len(getattr(piece, name)) < MOST:
                note(piece, name, index)
        elif (
            tag == Tag.SHARE
            and page.items[index].n == 1.0
            and not _over(page, index)
            and _TIMELY & set(page.words[page.items[index].first : page.items[index].last + 1])
        ):
            note(piece, "wholes", index)
        elif tag == Tag.ABOUT and _wholly(page, index) and piece.senses:
            if _SO_LONG.match(page.line, index + 1):
                note(piece, "wholes", index)
        elif tag == Tag.RATIO and page.items[index].m == 10:
            note(piece, "levels", index)
    piece.end = len(page.line)
    found.append(piece)
    for each in found:
        if each.parts and not each.senses and not each.sudden:
            _praised(page, each)
        if not each.parts:
            each.senses = [index for index in each.senses if not _is_no_ache(page, index, signs)]
            each.sudden = [index for index in each.sudden if page.items[index].first not in signs]
        ran = not each.parts and not each.senses and Tag.ACT in page.line[each.start : each.end]
        if each.wholes and (ran or _told_done(page, each)):
            each.wholes = []
    return found


def _told_done(page: Page, piece: Piece) -> bool:
    """Whether *piece* tells of a session, not only that somebody "had a stitch", and gives no amount of it."""
    if piece.senses and not _AMOUNTS.isdisjoint(page.line[piece.start : piece.end]):
        return False
    return any(
        page.line[index] in TELLING
        and not (page.words[page.items[index].last] == "had" and Tag.SENSE in page.line[index + 1 : index + 4])
        for index in range(piece.start, piece.end)
    )


def _over(page: Page, index: int) -> bool:
    """`session done`: told as done, not how long a complaint lasted."""
    item = page.items[index]
    return not _ENDED.isdisjoint(page.words[item.first : item.last + 1])


_ENDED = frozenset({"done", "finished", "completed"})
