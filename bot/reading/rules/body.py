"""Complaints: parts of the body with what is wrong with them, and parts that are well again."""

from dataclasses import dataclass, field

from bot.reading.facts import Asked
from bot.reading.lexicon import listed
from bot.reading.page import Found, Key, Page
from bot.reading.rules.ache import (
    HARD,
    Ache,
    ache_at,
    copy_told,
    felt_go,
    is_denied,
    other_one,
    own_parts,
    partless,
    says_where,
    tell,
)
from bot.reading.rules.course import course_of, is_no_worse
from bot.reading.rules.piece import TELLING, Piece, pieces_of
from bot.reading.tags import Tag, pattern
from planning.terms.choices import Course, Sense, Side
from planning.terms.entry import Complaint

_GRAVEST = (Sense.NUMB, Sense.UNSTABLE, Sense.SWOLLEN, Sense.PAIN, Sense.CRAMP, Sense.SORE, Sense.SKIN)


_AMOUNTS = frozenset({Tag.NUM, Tag.DUR, Tag.DIST})


def _tells_of_session(page: Page, piece: Piece) -> bool:
    """`nightshift legs but 24 done`: no more of the part that was only named."""
    tags = frozenset(page.line[piece.start : piece.end])
    return bool(tags & _AMOUNTS and tags & (TELLING | {Tag.ACT})) and not piece.says and not piece.parts


_LEVEL = pattern(
    "(?:SENSE NEAR{0,4} COMMA (?:FILL|ABOUT|THE|IS|IT|AT|WORD|SELF|EFFORT_KEY){1,3}|"
    "SENSE (?:ABOUT|IS|AT|OF|THE|FILL|COLON|DASH|WORD){0,3}|PART (?:IS|AT|ABOUT)* (?:THE|ABOUT)) "
    "(?:NUM|(?<![SENSE WORD])ONE) (?=END|AND|SIDE|FILL|IN THE? SIDE? PART)"
)


_LEVEL_WORDS = frozenset({"level", "score", "scored", "rating", "scale", "maybe", "only", "say", "rated", "probably"})


def _levels(page: Page) -> None:
    """`pain about a 3`, `sore, level 4`: a number up to ten right after a complaint is its level, as `3/10` is."""
    if Tag.NUM not in page.there and Tag.ONE not in page.there:
        return
    for hit in _LEVEL.finditer(page.line):
        number = page.items[hit.end() - 1]
        words = {page.words[item.first] for item in page.pick(hit, Tag.WORD)}
        strong = any(item.value != "weak" for item in page.pick(hit, Tag.EFFORT_KEY))
        strong = strong or (number.tag is Tag.ONE and page.line[hit.end() : hit.end() + 1] == Tag.IN)
        if number.n <= 10 and words <= _LEVEL_WORDS and not strong:
            place = hit.end() - 1
            page.items[place] = number._replace(tag=Tag.RATIO, m=10.0)
            page.line = page.line[:place] + Tag.RATIO + page.line[place + 1 :]


@dataclass(slots=True)
class Tale:
    """What the stretches so far told. *waiting*: parts only named yet; *before*: the parts told of last; *moment*: one
    moment was told, of no part yet, *lately* in the stretch before; *limp*: weight can't be put on something; *loose*:
    senses of no part yet; *aside*: the stretch before only said how the part was ("which ached")."""

    aches: list[Ache] = field(default_factory=list)
    waiting: list[Ache] = field(default_factory=list)
    before: list[Ache] = field(default_factory=list)
    loose: list[Sense] = field(default_factory=list)
    moment: bool = False
    lately: bool = False
    limp: bool = False
    aside: bool = False


def body(page: Page) -> None:
    """Find all complaints and all parts that are clear."""
    _levels(page)
    tale = Tale()
    for piece in pieces_of(page):
        if _begins_anew(page, piece, tale.waiting):
            tale.waiting = []
        if tale.aches and says_where(page, piece, tale.aches[-1]):
            continue
        if piece.joint in HARD or piece.joint == Tag.BUT:
            others = Tag.OTHER in page.line[piece.start : piece.end]
            tale.moment = tale.moment and tale.lately and piece.joint in HARD and not others
            tale.lately = False
        named = [ache_at(page, index, piece) for index in own_parts(page, piece)] or other_one(page, piece, tale.aches)
        if named:
            _of_parts(page, piece, named, tale)
        else:
            _of_no_part(page, piece, tale)
        tale.limp = bool(piece.nobear) and not piece.parts
        tale.aside = piece.joint == Tag.COMMA and page.said(piece)[:1] == ["which"]
        _both_on_one_side(page, piece, tale.aches)
    _keep(page, tale.aches)


def _of_parts(page: Page, piece: Piece, named: list[Ache], tale: Tale) -> None:
    """A stretch that names parts: what it says of them, and what was said of none before."""
    told_before = piece.joint == Tag.AND or (piece.joint == Tag.COMMA and _only_named(page, piece))
    if tale.loose and told_before and not piece.says and not piece.well:
        for ache in named:
            ache.senses.extend(tale.loose)
    tale.loose = []
    if tale.moment and not piece.negs:
        for ache in named:
            ache.sudden = True
    tale.moment = tale.moment and piece.joint == Tag.COMMA
    if tale.limp and piece.joint in (Tag.COMMA, Tag.BECAUSE) and (not piece.says or len(tale.aches) == 0):
        named[0].bears = False
    tale.aches.extend(named)
    lasting = piece.wholes and any(ache.senses for ache in named)
    if piece.says or piece.well or piece.levels or lasting or felt_go(page, piece):
        told = [*tale.waiting, *named] if _joined(page, piece) else named
        tell(page, piece, told)
        tale.waiting, tale.before = [], told
        return
    tale.waiting = [*tale.waiting, *named]
    for ache in named if piece.courses and not is_no_worse(page, piece) else ():
        ache.course = course_of(page, piece)
    if tale.before and (piece.joint == Tag.AND or _too(page, piece)) and not piece.courses and not _weak(page, piece):
        copy_told(tale.before[-1], named)
        tale.waiting = []


def _weak(page: Page, piece: Piece) -> bool:
    """`my back hurts and now my left leg has become weak`: something else, which is no complaint of a part."""
    return page.said(piece)[-1:] == ["weak"]


def _of_no_part(page: Page, piece: Piece, tale: Tale) -> None:
    """A stretch that names no part: it goes on about those before, or begins what the next ones name."""
    senses = [] if piece.negs else [Sense(page.items[index].value) for index in piece.senses]
    if tale.before and page.said(piece) in _CRIES and tale.before[-1].senses:
        return
    joined = piece.joint == Tag.AND and tale.waiting
    if not _JAWS.isdisjoint(page.said(piece)) and not piece.courses and not joined:
        tale.loose, tale.before = senses, []
    elif piece.says or piece.courses or piece.levels or piece.wholes or piece.well:
        aside = not piece.says and not piece.well and _THING.match(page.line[piece.start : piece.end])
        again = tale.waiting or tale.before or _meant_again(page, piece, tale.aches)
        only = bool(tale.before) and all(ache.clear for ache in tale.before) and _is_stitch(page, piece)
        target = [] if aside or only or _of_its_own(page, piece) else again
        if target and (piece.well or is_denied(piece)) and page.said(piece)[0] == "mine":
            target[-1].first = target[-1].last = page.items[piece.start].first
            target[-1].forget()
        if target:
            if tale.aside and piece.joint == Tag.COMMA and (piece.well or is_denied(piece)):
                for ache in target:
                    ache.forget()
            tell(page, piece, target)
            tale.before, tale.waiting = target, []
        else:
            tale.moment = tale.lately = bool(piece.sudden) and not piece.negs
            tale.loose = senses
            tale.before = partless(page, piece)
            tale.aches.extend(tale.before)


def _begins_anew(page: Page, piece: Piece, waiting: list[Ache]) -> bool:
    """Whether *piece* is no more of the parts that were only named: but for "left calf? stiff at first", and "left
    calf. hot and puffy" as an answer."""
    named = piece.joint == Tag.ASK or page.asked is Asked.PAIN
    asked_of = named and waiting and not piece.parts and bool(piece.senses)
    return (piece.joint in HARD and not asked_of) or (piece.joint == Tag.BUT and _tells_of_session(page, piece))


def _both_on_one_side(page: Page, piece: Piece, aches: list[Ache]) -> None:
    """`hip niggle and a tight hamstring, both on the right`."""
    if (hit := _BOTH_ON.search(page.line, piece.start, piece.end)) is not None:
        for ache in aches:
            ache.side = Side(page.items[hit.end() - 1].value)


_BOTH_ON = pattern("EACH ON THE? SIDE")


def _only_named(page: Page, piece: Piece) -> bool:
    """`blister, left arch`, `chafing, inside of left thigh`: a part and where on it, and no more."""
    return all(
        page.line[index] in _NAMING or page.words[page.items[index].last] in _WHERE_ON
        for index in range(piece.start, piece.end)
    )


_NAMING = frozenset({Tag.THE, Tag.SIDE, Tag.PART, Tag.ON, Tag.SELF, Tag.OF})
_WHERE_ON = frozenset({"inside", "inner", "outside", "outer", "front", "side", "edge", "top", "middle"})


_CRIES = (["ow"], ["ouch"])


_JAWS = listed("body", "jaws")
"""Of these a complaint is no body entry, and none of a part named before."""


def _of_its_own(page: Page, piece: Piece) -> bool:
    """`stitch`, `I am fine`, `nothing hurts`, `i heard a crack when i jumped`: a new sentence about none of the parts
    before."""
    words = page.said(piece)
    if piece.joint not in HARD:
        return False
    if is_denied(piece) and (words[:1] == ["nothing"] or "anywhere" in words):
        return True
    if piece.well and not piece.senses and page.line[piece.start] == Tag.SELF and _AGAIN.isdisjoint(words):
        return True
    fell = bool(piece.sudden) and not piece.senses and page.line[piece.start] == Tag.SELF and _AGAIN.isdisjoint(words)
    return fell or _is_stitch(page, piece)


def _is_stitch(page: Page, piece: Piece) -> bool:
    """Whether *piece* tells of a stitch, which is of the ribs: "no chest pain, only a stitch"."""
    return any(page.words[page.items[index].last].startswith("stitch") for index in piece.senses)


_THING = pattern("THE WORD")
"""`my language was worse`: said of something else than a part."""


_ALSO = frozenset({"too", "also", "same", "likewise", "well", "aswell"})


_AGAIN = frozenset({"it", "mine", "they", "both", "them", "that"})


def _too(page: Page, piece: Piece) -> bool:
    """`right elbow too`, `and so does my hip`: the part shares what was said before."""
    if piece.joint == Tag.BECAUSE and page.said(piece)[0] in (
        "does",
        "do",
        "is",
        "are",
        "did",
        "has",
    ):
        return True
    return not _ALSO.isdisjoint(page.said(piece))


def _meant_again(page: Page, piece: Piece, aches: list[Ache]) -> list[Ache]:
    """The part that "it" or "mine" takes up from the sentence before, when it is said to be well."""
    words = page.said(piece)
    if not aches or not words or not (words[0] in _AGAIN or words[-1] in _AGAIN or piece.sudden):
        return []
    if _AGAIN.isdisjoint(words[:6]):
        return []
    aches[-1].first, aches[-1].last = page.items[piece.start].first, page.items[piece.end - 1].last
    return [aches[-1]]


def _joined(page: Page, piece: Piece) -> bool:
    """Whether *piece* goes on from the part before, and does not begin anew with "I"."""
    anew = piece.joint == Tag.COMMA and page.line[piece.start : piece.start + 1] == Tag.SELF
    return piece.joint in (Tag.AND, Tag.COMMA) and not anew


def _keep(page: Page, aches: list[Ache]) -> None:
    for ache in aches:
        over = ache.course is Course.EASED and not ache.said
        if (ache.clear or over) and not ache.said:
            if any(each.said and each.part is ache.part and not _is_other_side(each, ache) for each in aches):
                continue
            page.found.append(_found(Key.CLEAR, ache.part.value, ache, "part is clear"))
        elif (
            ache.said
            or _answers(page, ache)
            or (ache.side and any(each.part is ache.part and each.said for each in aches))
        ):
            sense = min(ache.senses, key=_GRAVEST.index) if ache.senses else None
            complaint = Complaint(ache.part, ache.side, sense, ache.level, ache.sudden, ache.course, ache.bears)
            page.found.append(_found(Key.BODY, complaint, ache, "complaint"))


def _is_other_side(ache: Ache, other: Ache) -> bool:
    """`right knee fine, left one achy`."""
    return {ache.side, other.side} == {Side.LEFT, Side.RIGHT}


def _answers(page: Page, ache: Ache) -> bool:
    """Whether a part that is only named answers the question where it hurts."""
    asked = page.asked is Asked.PAIN and not ache.clear
    return asked and not {Tag.NEG, Tag.NO, Tag.ACT, Tag.DONE, Tag.WELL, Tag.STOPPED} & page.there


def _found(key: Key, value: Complaint | str, ache: Ache, name: str) -> Found:
    return Found(key, value, ache.first, ache.last, name)
