"""Complaints: parts of the body with what is wrong with them, and parts that are well again."""

from dataclasses import dataclass, field

from bot.reading.facts import Asked
from bot.reading.lexicon import listed
from bot.reading.page import Found, Key, Page
from bot.reading.rules.clauses import note
from bot.reading.rules.course import course_of, is_at_first, is_gone, is_long_gone, is_no_worse
from bot.reading.rules.piece import Piece
from bot.reading.tags import Item, Tag, pattern
from planning.terms.choices import Course, Part, Sense, Side
from planning.terms.entry import Complaint

_GRAVEST = (Sense.NUMB, Sense.UNSTABLE, Sense.SWOLLEN, Sense.PAIN, Sense.CRAMP, Sense.SORE, Sense.SKIN)
_BREAKS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.BUT, Tag.AND, Tag.THEN, Tag.BECAUSE})
_HARD = frozenset({Tag.STOP, Tag.ASK})


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


MOST = 12
"""So many parts, senses and the like of one stretch are read: nobody means more, and time stays linear."""
_FIELDS: dict[str, str] = {
    Tag.PART: "parts", Tag.SENSE: "senses", Tag.SUDDEN: "sudden", Tag.COURSE: "courses", Tag.NOBEAR: "nobear",
    Tag.WELL: "well", Tag.NEG: "negs",
}  # fmt: skip


_MEANT = frozenset({*_FIELDS, Tag.SHARE, Tag.RATIO})


_MOODY = listed("body", "mood")
"""These speak of a part only beside it; alone they are how somebody feels."""
_TIMELY = frozenset({"way", "step", "start", "minute", "session", "run", "walk", "beginning", "workout", "end"})
"""Words of "the whole way", "every step": with a complaint they say that it was there throughout."""


_PRAISE = frozenset({"good", "great", "perfect", "happy", "sweet", "grand"})
"""Before a noun these say nothing of a part: "cold hands but good manners"."""


def _means_nothing(page: Page, index: int) -> bool:
    """`gone weak` is not well, as "gone" is only at the end of what is said; "can't shake the pain" denies none."""
    item = page.items[index]
    if page.line[index] == Tag.NEG:
        return page.words[max(0, item.first - 1)] in _UNABLE
    if page.words[item.last] == "bad" and Tag.SENSE in (
        page.line[index - 1 : index],
        page.line[index + 1 : index + 2],
    ):
        return True
    kept = page.words[max(0, item.first - 1)] == "kept" and page.line[index - 2 : index - 1] == Tag.SELF
    if page.line[index] == Tag.SENSE and (kept or page.line[index - 1 : index] == Tag.SELF):
        return page.line[index + 1 : index + 2] == Tag.ABOUT and page.words[item.last + 1] == "about"
    if page.line[index] == Tag.WELL and page.words[item.last] in _PRAISE:
        return page.line[index + 1 : index + 2] == Tag.WORD
    gone = page.line[index] == Tag.WELL and page.words[item.last] == "gone"
    return gone and page.line[index + 1 : index + 2] in (Tag.WORD, Tag.SENSE)


def _praised(page: Page, piece: Piece) -> None:
    """`my knees have been marvellous`: a good word for a part says that it is well, and is no mood."""
    for index in range(piece.start, piece.end):
        if page.line[index] == Tag.MOOD and page.items[index].value == "good":
            note(piece, "well", index)
            page.claim(index, index + 1)


_UNABLE = frozenset({"can", "could", "will", "would"})
"""After these "not" says what can't be done; it denies no complaint."""
_TELLING = frozenset({Tag.DONE, Tag.WHOLE, Tag.STOPPED})


_OF_SIGNS = frozenset({Tag.SENSE, Tag.SUDDEN})
_PARTLESS = frozenset({"self_harm", "eating", "heart", "sugar", "faint"})


def _partless_signs(page: Page) -> frozenset[int]:
    """The tokens of signs that are no complaint of a part: "want to hurt myself", "my heart is pounding"."""
    found = [fact for fact in page.found if fact.key is Key.DANGER and fact.value in _PARTLESS]
    return frozenset(place for fact in found for place in range(fact.first, fact.last + 1))


def pieces_of(page: Page) -> list[Piece]:
    """The stretches of *page* between marks and joining words."""
    found: list[Piece] = []
    piece = Piece("", 0, 0)
    signs = _partless_signs(page)
    for index, tag in enumerate(page.line):
        if tag in _BREAKS:
            piece.end = index
            found.append(piece)
            piece = Piece(tag, index + 1, index + 1)
        elif (
            tag not in _MEANT or _means_nothing(page, index) or (tag in _OF_SIGNS and page.items[index].first in signs)
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
        elif tag == Tag.RATIO and page.items[index].m == 10:
            note(piece, "levels", index)
    piece.end = len(page.line)
    found.append(piece)
    for each in found:
        if each.parts and not each.senses and not each.sudden:
            _praised(page, each)
        if not each.parts:
            each.senses = [index for index in each.senses if page.words[page.items[index].last] not in _MOODY]
        ran = not each.parts and not each.senses and Tag.ACT in page.line[each.start : each.end]
        if each.wholes and (ran or _told_done(page, each)):
            each.wholes = []
    return found


def _told_done(page: Page, piece: Piece) -> bool:
    """Whether *piece* tells of a session, not only that somebody "had a stitch"."""
    return any(
        page.line[index] in _TELLING
        and not (page.words[page.items[index].last] == "had" and Tag.SENSE in page.line[index + 1 : index + 4])
        for index in range(piece.start, piece.end)
    )


_AMOUNTS = frozenset({Tag.NUM, Tag.DUR, Tag.DIST})


def _tells_of_session(page: Page, piece: Piece) -> bool:
    """`nightshift legs but 24 done`: no more of the part that was only named."""
    tags = frozenset(page.line[piece.start : piece.end])
    return bool(tags & _AMOUNTS and tags & (_TELLING | {Tag.ACT})) and not piece.says and not piece.parts


def _over(page: Page, index: int) -> bool:
    """`session done`: told as done, not how long a complaint lasted."""
    item = page.items[index]
    return not _ENDED.isdisjoint(page.words[item.first : item.last + 1])


_ENDED = frozenset({"done", "finished", "completed"})


_LEVEL = pattern(
    "(?:SENSE NEAR{0,4} COMMA (?:FILL|ABOUT|THE|IS|IT|AT|WORD|EFFORT_KEY){1,3}|"
    "SENSE (?:ABOUT|IS|AT|OF|THE|FILL|COLON|DASH|WORD){0,3}|PART (?:IS|AT|ABOUT)* (?:THE|ABOUT)) "
    "[NUM ONE] (?=END|AND|SIDE|FILL|IN THE? SIDE? PART)"
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


def body(page: Page) -> None:
    """Find all complaints and all parts that are clear."""
    _levels(page)
    aches: list[Ache] = []
    waiting: list[Ache] = []
    before: list[Ache] = []
    moment = lately = limp = False
    loose: list[Sense] = []
    for piece in pieces_of(page):
        waiting = [] if _begins_anew(page, piece, waiting) else waiting
        if aches and _says_where(page, piece, aches[-1]):
            continue
        named = [_ache(page, index, piece) for index in _own_parts(page, piece)] or _other_one(page, piece, aches)
        if piece.joint in _HARD or piece.joint == Tag.BUT:
            others = Tag.OTHER in page.line[piece.start : piece.end]
            moment, lately = moment and lately and piece.joint in _HARD and not others, False
        if named:
            told_before = piece.joint == Tag.AND or (piece.joint == Tag.COMMA and _only_named(page, piece))
            if loose and told_before and not piece.says and not piece.well:
                for ache in named:
                    ache.senses.extend(loose)
            loose = []
            if moment and not piece.negs:
                for ache in named:
                    ache.sudden = True
            moment = moment and piece.joint == Tag.COMMA
            if limp and piece.joint == Tag.COMMA and not piece.says:
                named[0].bears = False
            aches.extend(named)
            lasting = piece.wholes and any(ache.senses for ache in named)
            if piece.says or piece.well or piece.levels or lasting or _felt_go(page, piece):
                told = [*waiting, *named] if _joined(page, piece) else named
                _tell(page, piece, told)
                waiting, before = [], told
            else:
                waiting = [*waiting, *named]
                for ache in named if piece.courses and not is_no_worse(page, piece) else ():
                    ache.course = course_of(page, piece)
                if before and (piece.joint == Tag.AND or _too(page, piece)) and not piece.courses:
                    _copy(before[-1], named)
                    waiting = []
        elif (before and page.said(piece) in _CRIES and before[-1].senses) or not _JAWS.isdisjoint(page.said(piece)):
            continue
        elif piece.says or piece.courses or piece.levels or piece.wholes or piece.well:
            aside = not piece.says and not piece.well and _THING.match(page.line[piece.start : piece.end])
            target = [] if aside or _of_its_own(page, piece) else waiting or before or _meant_again(page, piece, aches)
            if target and (piece.well or _denied(piece)) and page.said(piece)[0] == "mine":
                target[-1].first = target[-1].last = page.items[piece.start].first
                target[-1].forget()
            if target:
                _tell(page, piece, target)
                before, waiting = target, []
            else:
                moment = lately = bool(piece.sudden) and not piece.negs
                loose = [] if piece.negs else [Sense(page.items[index].value) for index in piece.senses]
                before = _partless(page, piece)
                aches.extend(before)
        limp = bool(piece.nobear) and not piece.parts
        _both_on_one_side(page, piece, aches)
    _keep(page, aches)


def _other_one(page: Page, piece: Piece, aches: list[Ache]) -> list[Ache]:
    """`right knee fine, left one a bit achy`: the same part on its other side."""
    if not aches or aches[-1].side is None or not (piece.says or piece.well):
        return []
    for index in range(piece.start, piece.end):
        item = page.items[index]
        alone = page.line[index] == Tag.SIDE and page.words[item.last] in ("one", item.value)
        if alone and item.value not in ("both", aches[-1].side) and page.line[index + 1 : index + 2] != Tag.WORD:
            return [Ache(aches[-1].part, Side(item.value), item.first, item.last)]
    return []


def _begins_anew(page: Page, piece: Piece, waiting: list[Ache]) -> bool:
    """Whether *piece* is no more of the parts that were only named: but for "left calf? stiff at first"."""
    asked_of = piece.joint == Tag.ASK and waiting and not piece.parts and bool(piece.senses)
    return (piece.joint in _HARD and not asked_of) or (piece.joint == Tag.BUT and _tells_of_session(page, piece))


def _both_on_one_side(page: Page, piece: Piece, aches: list[Ache]) -> None:
    """`hip niggle and a tight hamstring, both on the right`."""
    if (hit := _BOTH_ON.search(page.line, piece.start, piece.end)) is not None:
        for ache in aches:
            ache.side = Side(page.items[hit.end() - 1].value)


_BOTH_ON = pattern("EACH ON THE? SIDE")


def _only_named(page: Page, piece: Piece) -> bool:
    """`blister, left arch`: a part and its side, and no more."""
    return all(tag in (Tag.THE, Tag.SIDE, Tag.PART, Tag.ON, Tag.SELF) for tag in page.line[piece.start : piece.end])


_CRIES = (["ow"], ["ouch"])
_JAWS = frozenset({"jaw", "jaws", "tooth", "teeth", "gum", "gums", "ear", "ears", "eye", "eyes", "throat", "tongue"})
"""Of these a complaint is no body entry, and none of a part named before."""


def _of_its_own(page: Page, piece: Piece) -> bool:
    """`stitch`, `i heard a crack when i jumped`: a new sentence about none of the parts before."""
    words = page.said(piece)
    if piece.joint not in _HARD:
        return False
    fell = bool(piece.sudden) and not piece.senses and page.line[piece.start] == Tag.SELF and _AGAIN.isdisjoint(words)
    return fell or any(page.words[page.items[index].last].startswith("stitch") for index in piece.senses)


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
    if not aches or not words or not (words[0] in _AGAIN or piece.sudden):
        return []
    if _AGAIN.isdisjoint(words[:6]):
        return []
    aches[-1].first, aches[-1].last = page.items[piece.start].first, page.items[piece.end - 1].last
    return [aches[-1]]


def _joined(page: Page, piece: Piece) -> bool:
    """Whether *piece* goes on from the part before, and does not begin anew with "I"."""
    anew = piece.joint == Tag.COMMA and page.line[piece.start : piece.start + 1] == Tag.SELF
    return piece.joint in (Tag.AND, Tag.COMMA) and not anew


_ON = frozenset({Tag.ON, Tag.OF, Tag.IN})


def _own_parts(page: Page, piece: Piece) -> list[int]:
    """The parts of *piece*; of "the big toe on the right foot" only the toe."""
    kept: list[int] = []
    for index in piece.parts:
        if _of_another(page, index):
            continue
        if not kept or not _nested(page, kept[-1], index):
            kept.append(index)
    return kept


_ANOTHERS = frozenset({"his", "her", "their", "hers"})


def _of_another(page: Page, index: int) -> bool:
    """`his knees were killing him`, unless the sender's are set against them ("mine behaved")."""
    for place in range(index - 1, max(-1, index - 3), -1):
        if page.line[place] == Tag.OTHER:
            return page.words[page.items[place].last] in _ANOTHERS and "mine" not in page.words
        if page.line[place] not in (Tag.SIDE, Tag.FILL):
            return False
    return False


_WITHIN = {
    "foot": frozenset({Part.TOE, Part.HEEL, Part.ARCH}),
    "legs": frozenset({Part.CALF, Part.SHIN, Part.KNEE, Part.THIGH, Part.HAMSTRING}),
}


def _says_where(page: Page, piece: Piece, last: Ache) -> bool:
    """`numb toes, both feet`: only the side of the part told before; it is taken there."""
    if piece.joint != Tag.COMMA or piece.says or len(piece.parts) != 1:
        return False
    index = piece.parts[0]
    side = page.line[index - 1 : index] == Tag.SIDE and page.items[index - 1]
    if not side or last.side or last.part not in _WITHIN.get(page.items[index].value, ()):
        return False
    last.side = Side(side.value)
    return True


def _copy(told: Ache, named: list[Ache]) -> None:
    """`pain in my knee and hip`: the second part shares what was said of the first."""
    for ache in named:
        ache.senses, ache.clear = ache.senses or list(told.senses), told.clear


def _ache(page: Page, index: int, piece: Piece) -> Ache:
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
        if tag in _HARD or (tag == Tag.PART and not _nested(page, index, place)):
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
    if joint is None or any(tag in _BREAKS or tag == Tag.PART for tag in between):
        return False
    return all(tag in (Tag.THE, Tag.SIDE) for tag in between[joint + 1 :])


def _tell(page: Page, piece: Piece, aches: list[Ache]) -> None:
    """What *piece* says of *aches*."""
    denied = _denied(piece)
    for ache in aches:
        told_well = bool(piece.well) and not piece.sudden and not _negated_well(piece)
        well = told_well and (not piece.senses or is_gone(page, piece))
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
        ache.sudden = ache.sudden or bool(piece.sudden) or _felt_go(page, piece)
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


def _no_such(page: Page, index: int) -> bool:
    """`stiff, not swollen`: a sense with its own denial right before it."""
    return Tag.NEG in page.line[max(0, index - 2) : index]


_FELT = frozenset({"felt", "heard", "feel"})
_WENT = frozenset(
    {"go", "pop", "snap", "ping", "tear", "rip", "twang", "pull", "give", "crack", "tweak", "popped", "snapped", "went"}
)


def _felt_go(page: Page, piece: Piece) -> bool:
    """`felt my right calf go`, `my lower back went`, `did my ankle in`."""
    words = page.said(piece)
    done_in = words[-1] == "in" and "did" in words[:-1] and "head" not in words
    if piece.parts and (words[-1] == "went" or done_in) and not piece.senses:
        return True
    felt = next((place for place, word in enumerate(words) if word in _FELT), None)
    return felt is not None and any(word in _WENT for word in words[felt + 2 : felt + 7])


def _negated_well(piece: Piece) -> bool:
    return any(neg < well for neg in piece.negs for well in piece.well)


def _denied(piece: Piece) -> bool:
    """Whether a denial stands before the complaint in *piece*."""
    told = [*piece.senses, *piece.sudden]
    return bool(told) and any(neg < min(told) and min(told) - neg <= 5 for neg in piece.negs)


_FREE_OF = frozenset({"pain", "painfree", "painless", "ache", "niggle"})
_PLAIN_PAIN = listed("body", "pain")


def _partless(page: Page, piece: Piece) -> list[Ache]:
    """A complaint without a part: a stitch is of the ribs; "no pain" and "pain free" clear the body."""
    for index in piece.well:
        if page.words[page.items[index].first] in _FREE_OF:
            page.add(Key.CLEAR, Part.BODY.value, index, index + 1, "pain free")
            return []
    for index in piece.senses:
        item = page.items[index]
        word = page.words[item.last]
        if _denied(piece):
            if word in _PLAIN_PAIN:
                page.add(Key.CLEAR, Part.BODY.value, index, index + 1, "nothing hurts")
            return []
        if item.value == "cramp" and word.startswith("stitch"):
            side = _side(page, index, piece)
            stitch = Ache(Part.RIBS, Side(side.value) if side else None, item.first, item.last)
            _tell(page, piece, [stitch])
            return [stitch]
    return []


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
