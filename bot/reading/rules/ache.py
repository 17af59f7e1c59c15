"""One complaint while it is put together: its part and side, and what is said of it."""

from dataclasses import dataclass, field

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.course import course_of, is_at_first, is_gone, is_long_gone, is_no_worse
from bot.reading.rules.piece import BREAKS, Piece
from bot.reading.tags import Item, Tag
from planning.terms.choices import Course, Part, Sense, Side

HARD = frozenset({Tag.STOP, Tag.ASK})
"""Marks that end a sentence."""


@dataclass(slots=True)
class Ache:
    """A complaint while it is put together."""

    part: Part
    side: Side | None
    first: int
    last: int
    senses: list[Sense] = field(default_factory=list)
    level: float | None = None
    sudden: bool = False
    course: Course | None = None
    bears: bool | None = None
    clear: bool = False
    past: bool = False

    def forget(self) -> None:
        """Drop what was said: it is over."""
        self.senses, self.sudden, self.level, self.course = [], False, None, None

    def cover(self, items: list[Item]) -> None:
        """Take the places of *items* into its own."""
        self.first = min([self.first, *(item.first for item in items)])
        self.last = max([self.last, *(item.last for item in items)])

    @property
    def said(self) -> bool:
        """Whether anything but the part was said."""
        worse = self.course is Course.WORSE
        return bool(self.senses) or self.sudden or self.bears is False or bool(self.level) or worse


def other_one(page: Page, piece: Piece, aches: list[Ache]) -> list[Ache]:
    """`right knee fine, left one a bit achy`: the same part on its other side."""
    if not aches or aches[-1].side is None or not (piece.says or piece.well):
        return []
    for index in range(piece.start, piece.end):
        item = page.items[index]
        alone = page.line[index] == Tag.SIDE and page.words[item.last] in ("one", item.value)
        if alone and item.value not in ("both", aches[-1].side) and page.line[index + 1 : index + 2] != Tag.WORD:
            return [Ache(aches[-1].part, Side(item.value), item.first, item.last)]
    return []


_ON = frozenset({Tag.ON, Tag.OF, Tag.IN})


def own_parts(page: Page, piece: Piece) -> list[int]:
    """The parts of *piece*; of "the big toe on the right foot" only the toe."""
    kept: list[int] = []
    for index in piece.parts:
        if _of_another(page, index) or _takes_up(page, index):
            continue
        if not kept or not _nested(page, kept[-1], index):
            kept.append(index)
    return kept


def _takes_up(page: Page, index: int) -> bool:
    """`a crack in my hip and now I can't stand on that leg`: the leg of the part named before, no other one."""
    part = page.items[index]
    if part.value != "legs" or page.words[part.first - 1 : part.first] != ["that"]:
        return False
    return any(item.tag is Tag.PART and item.value in _OF_A_LEG for item in page.items[:index])


_OF_A_LEG = frozenset(
    {"hip", "glute", "thigh", "hamstring", "groin", "knee", "shin", "calf", "achilles", "ankle", "heel", "foot"}
)
_ANOTHERS = frozenset({"his", "her", "their", "hers"})


def _of_another(page: Page, index: int) -> bool:
    """`his knees were killing him`, `my lad's calf`, unless the sender's are set against them ("mine behaved")."""
    owned = False
    for place in range(index - 1, max(-1, index - 4), -1):
        word = page.words[page.items[place].last]
        if page.line[place] == Tag.OTHER:
            return (word in _ANOTHERS or owned) and "mine" not in page.words
        owned = owned or (page.line[place] == Tag.IS and word == "s")
        if page.line[place] not in (Tag.SIDE, Tag.FILL) and not owned:
            return False
    return False


_WITHIN = {
    "foot": frozenset({Part.TOE, Part.HEEL, Part.ARCH}),
    "legs": frozenset({Part.CALF, Part.SHIN, Part.KNEE, Part.THIGH, Part.HAMSTRING}),
}


def says_where(page: Page, piece: Piece, last: Ache) -> bool:
    """`numb toes, both feet`: only the side of the part told before; it is taken there."""
    if piece.joint != Tag.COMMA or piece.says or len(piece.parts) != 1:
        return False
    index = piece.parts[0]
    side = page.line[index - 1 : index] == Tag.SIDE and page.items[index - 1]
    if not side or last.side or last.part not in _WITHIN.get(page.items[index].value, ()):
        return False
    last.side = Side(side.value)
    return True


def copy_told(told: Ache, named: list[Ache]) -> None:
    """`pain in my knee and hip`: the second part shares what was said of the first."""
    for ache in named:
        ache.senses, ache.clear = ache.senses or list(told.senses), told.clear


def ache_at(page: Page, index: int, piece: Piece) -> Ache:
    """The complaint that a part starts; some words name a part and its sense ("headache")."""
    item = page.items[index]
    part, _, sense = item.value.partition(":")
    ache = Ache(Part(part), None, item.first, item.last)
    if (side := _side(page, index, piece)) is not None:
        ache.side = Side(side.value)
        ache.cover([side])
    if sense and not any(neg < index and index - neg <= 5 for neg in piece.negs):
        ache.senses.append(Sense(sense))
    return ache


def _side(page: Page, index: int, piece: Piece) -> Item | None:
    """The side said just before the part, or after it in the same sentence without a part of its own."""
    for place in range(index - 1, max(index - 4, piece.start - 1), -1):
        if page.line[place] == Tag.SIDE:
            return page.items[place]
        if page.line[place] == Tag.PART:
            break
    for place in range(index + 1, len(page.line)):
        tag = page.line[place]
        alone = Tag.PART not in page.line[place + 1 : place + 3] or _nested(page, index, place + 1)
        if tag == Tag.SIDE and alone and page.line[place + 1 : place + 2] not in (Tag.QUEST, Tag.THEN):
            return page.items[place]
        if tag in HARD or (tag == Tag.PART and not _nested(page, index, place)):
            break
        if tag == Tag.SIDE and not _nested(page, index, place + 1):
            break
    return None


_OUTER = frozenset({"foot", "legs", "hand", "arm", "knee"})


def _nested(page: Page, part: int, inner: int) -> bool:
    """Whether the part at *inner* only says where the one at *part* is ("the toe on the right foot")."""
    between = page.line[part + 1 : inner]
    if inner >= len(page.line) or not between or page.items[inner].value not in _OUTER:
        return False
    joint = next((place for place, tag in enumerate(between) if tag in _ON), None)
    if joint is None or any(tag in BREAKS or tag == Tag.PART for tag in between):
        return False
    return all(tag in (Tag.THE, Tag.SIDE) for tag in between[joint + 1 :])


def tell(page: Page, piece: Piece, aches: list[Ache]) -> None:
    """What *piece* says of *aches*."""
    denied = is_denied(piece)
    for ache in aches:
        told_well = bool(piece.well) and not piece.sudden and not _negated_well(piece)
        well = told_well and (not piece.senses or is_gone(page, piece) or _well_again(page, piece))
        if well and ache.said and not ache.past and is_at_first(page, piece):
            ache.course = Course.EASED
            continue
        if denied or well:
            ache.clear = True
            ache.cover([page.items[index] for index in piece.well])
            if ache.past:
                ache.forget()
            continue
        ache.past = ache.past or is_long_gone(page, piece)
        ache.cover(
            [
                page.items[index]
                for index in (*piece.senses, *piece.sudden, *piece.courses, *piece.nobear, *piece.levels)
            ]
        )
        ache.senses.extend(Sense(page.items[index].value) for index in piece.senses if not _no_such(page, index))
        ache.sudden = ache.sudden or bool(piece.sudden) or felt_go(page, piece)
        if piece.wholes and not piece.courses and (piece.senses or ache.senses):
            ache.course = Course.SAME
            for index in piece.wholes:
                page.claim(index, index + 1)
        if piece.courses and not is_no_worse(page, piece):
            ache.course = course_of(page, piece)
        if piece.levels:
            ache.level = page.items[piece.levels[0]].n
        if piece.nobear:
            ache.bears = False


def _well_again(page: Page, piece: Piece) -> bool:
    """`my bad knee is quite well again`: what it is called, and how it is."""
    part, well = min(piece.parts, default=0), min(piece.well)
    return max(piece.senses) < part < well and Tag.IS in page.line[part:well]


def _no_such(page: Page, index: int) -> bool:
    """`stiff, not swollen`: a sense with its own denial right before it."""
    return Tag.NEG in page.line[max(0, index - 2) : index]


_FELT = frozenset({"felt", "heard", "feel"})


_WENT = frozenset(
    {"go", "pop", "snap", "ping", "tear", "rip", "twang", "pull", "give", "crack", "tweak", "popped", "snapped", "went"}
)


def felt_go(page: Page, piece: Piece) -> bool:
    """`felt my right calf go`, `my lower back went`, `did my ankle in`."""
    words = page.said(piece)
    done_in = words[-1] == "in" and "did" in words[:-1] and "head" not in words
    if piece.parts and (words[-1] == "went" or done_in) and not piece.senses:
        return True
    felt = next((place for place, word in enumerate(words) if word in _FELT), None)
    return felt is not None and any(word in _WENT for word in words[felt + 2 : felt + 7])


def _negated_well(piece: Piece) -> bool:
    return any(neg < well for neg in piece.negs for well in piece.well)


def is_denied(piece: Piece) -> bool:
    """Whether a denial stands before the complaint in *piece*."""
    told = [*piece.senses, *piece.sudden]
    return bool(told) and any(neg < min(told) and min(told) - neg <= 5 for neg in piece.negs)


_FREE_OF = frozenset({"pain", "painfree", "painless", "ache", "niggle"})


_PLAIN_PAIN = listed("body", "pain")


def partless(page: Page, piece: Piece) -> list[Ache]:
    """A complaint without a part: a stitch is of the ribs; "no pain" and "pain free" clear the body."""
    for index in piece.well:
        if page.words[page.items[index].first] in _FREE_OF:
            page.add(Key.CLEAR, Part.BODY.value, index, index + 1, "pain free")
            return []
    for index in piece.senses:
        item = page.items[index]
        word = page.words[item.last]
        if is_denied(piece):
            if word in _PLAIN_PAIN:
                page.add(Key.CLEAR, Part.BODY.value, index, index + 1, "nothing hurts")
            return []
        if item.value == "cramp" and word.startswith("stitch"):
            side = _side(page, index, piece)
            stitch = Ache(Part.RIBS, Side(side.value) if side else None, item.first, item.last)
            tell(page, piece, [stitch])
            return [stitch]
    return []
