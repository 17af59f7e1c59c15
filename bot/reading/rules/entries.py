"""A thing done while it is put together, and what it comes to."""

from dataclasses import dataclass
from datetime import date

from bot.reading.lexicon import listed
from bot.reading.page import Page
from bot.reading.rules.clauses import minutes_of
from bot.reading.rules.kinds import SESSION
from bot.reading.tags import Item, Tag


@dataclass(slots=True, eq=False)
class Entry:
    """A thing done while it is put together; *act* is the lexicon's word for it, *total* a sum of other entries."""

    act: str
    first: int
    last: int
    minutes: float | None = None
    km: float | None = None
    share: float | None = None
    on: date | None = None
    total: bool = False
    rest: bool = False
    """What was left of the whole: "walked the rest"."""
    until: bool = False
    """The minutes are those at which it ended: "gave up at minute 11"."""
    apart: bool = False
    """Another thing was done after it: "all of it and then 10 min of squats"."""
    named: str = ""
    """How the word for one of many activities begins: tennis and golf are two things, "danced" and "dancing" one."""

    @property
    def amount(self) -> bool:
        """Whether an amount was said."""
        return self.minutes is not None or self.km is not None

    @property
    def bare(self) -> bool:
        """Whether only the activity was said."""
        return not self.amount and self.share is None

    def alike(self, other: "Entry") -> bool:
        """Whether both tell of the same activity on the same day."""
        return (self.act, self.named, self.on) == (other.act, other.named, other.on)


def entry_of(
    page: Page, act: str, amounts: list[int], at: int, share: float | None = None, total: bool = False
) -> Entry:
    """An entry of *act* with all its *amounts*."""
    places = [*amounts, at]
    entry = Entry(act, page.items[min(places)].first, page.items[max(places)].last, share=share, total=total)
    if act in _MANY:
        entry.named = page.words[page.items[at].first][:STEM]
    for index in amounts:
        item = _each_way(page, index)
        if page.line[index] == Tag.RATIO and item.n < item.m and (item.m <= LARGEST_FRACTION or _of_bouts(page, item)):
            entry.share = round(item.n / item.m, 2)
        elif page.line[index] == Tag.DIST:
            entry.km = (entry.km or 0.0) + item.n
        elif page.line[index] == Tag.NUM and entry.minutes is not None:
            continue
        elif page.line[index] == Tag.RATIO or entry.minutes is None:
            entry.minutes = minutes_of(item)
        elif page.line[index] == Tag.DUR:
            entry.minutes += item.n
    return entry


_BOUTS = listed("counted", "bouts")


def _of_bouts(page: Page, item: Item) -> bool:
    """`3 of 6 intervals`: a share, no minutes."""
    return not _BOUTS.isdisjoint(page.words[item.last + 1 : item.last + 2])


STEM = 4
_MANY = frozenset({"class", "games", "house"})
"""Words of the lexicon that stand for many activities."""


def _each_way(page: Page, index: int) -> Item:
    """The amount at *index*, twice if it was said to be each way."""
    item = page.items[index]
    after = page.items[index + 1] if index + 1 < len(page.items) else None
    if page.line[index + 1 : index + 3] in (Tag.FILL + Tag.EACH, Tag.ACT + Tag.EACH):
        after = page.items[index + 2]
    before = page.line[index - 1 : index] == Tag.EACH and page.items[index - 1].n == 1
    after_each = after is not None and after.tag is Tag.EACH
    if item.tag is Tag.CLOCKISH or not (before or after_each):
        return item
    times = after.n if after is not None and after_each and after.n > 1 else _laps(page, index)
    return item._replace(n=item.n * times)


LAPS_AGO = 14
"""Items; the count of laps stands no further before the length of one."""


def _laps(page: Page, index: int) -> float:
    """How often, of "2 laps of the lake, 1.5 miles each" or "both ways, 18 min each"; 1 if nobody said."""
    for place in range(index - 1, max(-1, index - LAPS_AGO), -1):
        if page.line[place] == Tag.EACH and page.items[place].n > 1:
            return page.items[place].n
        if place and page.line[place] == Tag.TIMES and page.line[place - 1] in (Tag.NUM, Tag.ONE):
            return page.items[place - 1].n
    return 1.0


def summed(entries: list[Entry]) -> list[Entry]:
    """The same kind of the same day as one entry; a total told with its parts is only the parts."""
    if len(entries) < 2:
        return entries
    *parts, last = entries
    if last.total and all(each.bare for each in parts) and {each.act for each in parts} == {"walk", "run"}:
        last.act = "run_walk"
        return [last]
    kept: list[Entry] = []
    beside = all(each.act in _BESIDE for each in entries if each.act != SESSION)
    for entry in entries:
        same = next((each for each in kept if each.alike(entry)), None)
        if same is None:
            kept.append(entry)
        else:
            ends = same.until and entry.until
            same.minutes = max(same.minutes or 0.0, entry.minutes or 0.0) if ends else _sum(same.minutes, entry.minutes)
            same.km = _sum(same.km, entry.km)
    told = [each for each in kept if each.act not in (SESSION, "stretch") and each.amount]
    whole, way = sum(each.minutes or 0.0 for each in told), sum(each.km or 0.0 for each in told)
    return [
        each
        for each in kept
        if not (
            told
            and each.act == SESSION
            and not each.apart
            and not (beside and each.share is not None and each.share < 1.0)
            and (not each.amount or each.total or each.minutes == whole or (bool(each.km) and each.km == way))
        )
    ]


_BESIDE = frozenset({"games", "class", "swim", "bike", "house", "strength"})
"""Beside a part of the session these are something else."""


def _sum(a: float | None, b: float | None) -> float | None:
    return b if a is None else a if b is None else a + b


LARGEST_FRACTION = 5
"""Up to this "3/4" is a fraction of the session; above it "15/25" is minutes of minutes."""

LONGEST_MIN = 300
"""Above this an amount is asked back: five hours is more than any beginner's session or slow half marathon."""

FASTEST_KMH = {"walk": 9.0, "run": 14.0, "run_walk": 13.0, SESSION: 14.0}
"""Speeds that a beginner does not reach (PACE-07: brisk walking 5.5-6.4, beginner jogs 6-8 km/h; from memory)."""


def doubtful(entry: Entry) -> bool:
    """Whether the amount is hard to believe, so that it is asked back before it is kept."""
    if entry.minutes is not None and entry.minutes > LONGEST_MIN:
        return True
    fastest = FASTEST_KMH.get(entry.act)
    if fastest is None or not entry.km:
        return bool(entry.km and entry.km > 200)
    too_fast = entry.minutes is not None and entry.km * 60 > fastest * max(entry.minutes, 0.01)
    return too_fast or entry.km > 45
