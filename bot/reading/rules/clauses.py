"""A reply in stretches between marks and joining words, with the pieces that tell of something done and the amounts."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from bot.reading.page import Page
from bot.reading.rules.asking import question_spans
from bot.reading.tags import Item, Tag, pattern

_BREAKS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.BUT, Tag.AND, Tag.THEN, Tag.BECAUSE, Tag.COLON, Tag.OPEN})
JOINTS = pattern("[STOP ASK COMMA BUT AND THEN]")
REASONED = pattern("[STOP ASK COMMA BUT AND THEN BECAUSE]")
"""What parts a reply into clauses; the second one also at a reason."""
ENDS = frozenset({Tag.STOP, Tag.ASK})
AMOUNTS = frozenset({Tag.DUR, Tag.DIST, Tag.CLOCKISH, Tag.NUM, Tag.RATIO})


Places = Sequence[int]
"""Indices of items. What has none shares one empty tuple: most stretches hold little of all that there can be."""


@dataclass(slots=True)
class Clause:
    """One stretch between joints, by index of item. *joint*: the mark before it; *words*: unknown words in it."""

    joint: str
    start: int
    end: int
    acts: Places = ()
    amounts: Places = ()
    shares: Places = ()
    dates: Places = ()
    evidence: Places = ()
    sessions: Places = ()
    stops: Places = ()
    others: Places = ()
    selves: Places = ()
    negs: Places = ()
    plan: int | None = None
    words: int = 0
    aches: int = 0
    parts: int = 0
    total: bool = False

    @property
    def told(self) -> bool:
        """Whether it says that something was done."""
        return bool(self.evidence or self.stops)


_SLOTS: dict[str, str] = {
    Tag.ACT: "acts", Tag.SHARE: "shares", Tag.DATE: "dates", Tag.DONE: "evidence", Tag.WHOLE: "evidence",
     Tag.TICK: "evidence", Tag.GOT: "evidence", Tag.SESSION: "sessions", Tag.STOPPED: "stops", Tag.OTHER: "others",
     Tag.SELF: "selves", Tag.NEG: "negs", **dict.fromkeys(AMOUNTS, "amounts"),
}  # fmt: skip
_ACHES = frozenset({Tag.PART, Tag.SENSE, Tag.SUDDEN, Tag.WELL, Tag.COURSE})


def clauses_of(page: Page) -> list[Clause]:
    """The stretches of *page*, in order."""
    found: list[Clause] = []
    clause = Clause("", 0, 0)
    for index, tag in enumerate(page.line):
        if tag in _BREAKS or (tag == Tag.SELF and _starts_anew(page, clause, index)):
            clause.end = index
            found.append(clause)
            clause = Clause(tag, index + 1, index + 1)
        elif tag != Tag.ACT or not (_given_up(page, index) or _reminded_of(page, index)):
            _sort(clause, index, tag)
    clause.end = len(page.line)
    found.append(clause)
    asked = list(question_spans(page))
    return [each for each in found if each.end > each.start and not _in_question(page, each, asked)]


def _given_up(page: Page, index: int) -> bool:
    """`swapped the run for a swim`, `instead of the run I did yoga`: the run is not what was done."""
    first = page.items[index].first
    lead = page.words[max(0, first - 3) : first]
    while lead and lead[-1] in _POINTING:
        lead.pop()
    changed = lead[-1:] and lead[-1] in _CHANGED and page.line[index + 1 : index + 2] in (Tag.FOR, Tag.WITH)
    return bool(changed) or (len(lead) > 1 and (lead[-2], lead[-1]) in _INSTEAD)


def _reminded_of(page: Page, index: int) -> bool:
    """`remind me at 7 for the stretch`: what is yet to be done."""
    if _FOR_THE.search(page.line[:index]) is None:
        return False
    return any(item.tag is Tag.REMIND for item in page.items[page.sentence_start(index) : index])


_FOR_THE = pattern("[FOR ABOUT TO] THE? $")
_POINTING = frozenset({"the", "my", "a", "todays", "our", "this"})
_CHANGED = frozenset({"swapped", "traded", "exchanged", "replaced", "switched", "substituted"})
_INSTEAD = frozenset({("instead", "of"), ("rather", "than"), ("place", "of")})


def _starts_anew(page: Page, clause: Clause, index: int) -> bool:
    """Whether the "I" at *index* starts a clause, though no mark stands before it: `my wife did 20 i did 30`, `could we
    make the next one harder i did all of it`."""
    if clause.others and clause.told and clause.amounts:
        return True
    if clause.plan is None or clause.plan >= index - 1:
        return False
    asked = page.words[page.items[clause.plan].first] in _ASKING
    return asked and page.line[index - 1] != Tag.THE and page.line[index + 1 : index + 2] in (Tag.DONE, Tag.STOPPED)


_ASKING = frozenset({"can", "could", "would", "will"})


def _in_question(page: Page, clause: Clause, asked: list[tuple[int, int]]) -> bool:
    """Whether *clause* begins in a question: it tells of nothing."""
    first, last = page.items[clause.start].first, page.items[clause.end - 1].last
    return any(start <= last and first < end for start, end in asked)


def _sort(clause: Clause, index: int, tag: str) -> None:
    if tag == Tag.WORD:
        clause.words += 1
    elif name := _SLOTS.get(tag):
        note(clause, name, index)
    elif tag == Tag.PLAN and clause.plan is None:
        clause.plan = index
    elif tag == Tag.TOTAL:
        clause.total = True
    elif tag in _ACHES:
        clause.aches += 1
        clause.parts += tag != Tag.COURSE


def note(stretch: object, name: str, index: int) -> None:
    """Add *index* to the places called *name*."""
    if places := getattr(stretch, name):
        places.append(index)
    else:
        setattr(stretch, name, [index])


def minutes_of(item: Item) -> float:
    """Minutes of a duration, of a bare number, of `mm:ss`, `h:mm:ss` or `1h20`."""
    if item.tag is Tag.CLOCKISH:
        parts = [int(part) for part in item.value.split(":")]
        if len(parts) == 3 or item.n:
            return parts[0] * 60 + parts[1] + (parts[2] / 60 if len(parts) == 3 else 0)
        return parts[0] + parts[1] / 60
    return item.n


_IN_ALL = pattern("TOTAL (?:COLON|IS|OF)? [NUM DUR]|[NUM DUR] TOTAL")


def totals_said(page: Page) -> list[float]:
    """Minutes that *page* names as a whole: `total 34`, `25 in all`."""
    return [item.n for hit in _IN_ALL.finditer(page.line) for item in page.pick(hit, Tag.NUM, Tag.DUR)]


def sentences(line: str) -> Iterable[tuple[int, int]]:
    """Where each sentence of *line* starts and ends, as moves and breaks are told."""
    start = 0
    for index, char in enumerate(line):
        if char in (Tag.STOP, Tag.ASK, Tag.BUT):
            yield start, index
            start = index + 1
    yield start, len(line)


def opening(page: Page, clause: Clause) -> int:
    """Index of the first item of *clause* that is no filler."""
    fillers = (Tag.FILL, Tag.ABOUT, Tag.ONLY, Tag.THE, Tag.IS)
    return next((i for i in range(clause.start, clause.end) if page.line[i] not in fillers), clause.start)


class Amount(NamedTuple):
    """The *item* at *place* of *clause*. *before* and *next*: the tags around it, empty at the ends; the one before
    only in its own clause. *first*: its first token."""

    page: Page
    clause: Clause
    place: int
    item: Item
    before: str
    next: str
    first: int

    @classmethod
    def at(cls, page: Page, clause: Clause, place: int) -> "Amount":
        """The amount at item *place*."""
        item, line = page.items[place], page.line
        before = line[place - 1] if place > clause.start else ""
        return cls(page, clause, place, item, before, line[place + 1 : place + 2], item.first)

    @property
    def lead(self) -> list[str]:
        """The words of its clause before it."""
        return self.page.words[self.page.items[self.clause.start].first : self.first]

    @property
    def after(self) -> list[str]:
        """Three words after it."""
        return self.page.words[self.item.last + 1 : self.item.last + 4]

    @property
    def of_deed(self) -> bool:
        """Whether its clause tells of an activity, of something done or of the session."""
        return bool(self.clause.acts or self.clause.told or self.clause.sessions)

    @property
    def whole(self) -> bool:
        """`shins on fire the whole 20`, `could chat the entire 35 min`."""
        said = self.said(2)
        return said[-1:] in _WHOLE or said == ["all", "the"]

    @property
    def opens(self) -> bool:
        """Whether nothing but fillers stands before it in its clause."""
        return self.place == opening(self.page, self.clause)

    def behind(self, tags: int) -> str:
        """So many *tags* before it, fewer near the start."""
        return self.page.line[max(0, self.place - tags) : self.place]

    def said(self, words: int) -> list[str]:
        """So many *words* before it, fewer near the start."""
        return self.page.words[max(0, self.first - words) : self.first]


_WHOLE = (["entire"], ["whole"], ["full"])
