"""What was really done: kinds, amounts and shares, clause by clause."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from bot.reading.facts import Did
from bot.reading.page import Found, Key, Page
from bot.reading.rules.clauses import AMOUNTS, ENDS, Clause, clauses_of, minutes_of
from bot.reading.rules.kinds import SESSION, kind_of
from bot.reading.tags import Item, Tag, Token, pattern
from bot.reading.when import past_day

_JOINED = frozenset({Tag.COMMA, Tag.AND, Tag.THEN, Tag.COLON, Tag.OPEN})
_NOT_MINUTES = frozenset(
    {"steps", "bpm", "degrees", "%", "people", "c", "f", "kids", "calories", "kcal", "stairs", "hills", "weeks",
     "reps", "times", "laps", "lengths", "sessions", "years", "percent", "flights", "floors", "songs", "dogs", "st",
     "am", "pm", "lamp"}
)  # fmt: skip
_FINISHED = frozenset(
    {"done", "finished", "completed", "complete", "ticked", "dusted", "banked", "bag", "books", "bank", "nailed",
     "smashed", "crushed", "logged", "can", "bagged", "belt", "off", "accomplished", "achieved"}
)  # fmt: skip
_TIMES = frozenset(
    {"when", "whenever", "while", "if", "as", "since", "time", "before", "than", "until", "once", "during", "after"}
)
_BACK = frozenset({"back", "more", "another", "home", "extra", "again", "further", "later"})


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

    @property
    def amount(self) -> bool:
        """Whether an amount was said."""
        return self.minutes is not None or self.km is not None


@dataclass(slots=True)
class Story:
    """What the clauses so far told: entries, the day they are of, an activity that still lacks its amount."""

    entries: list[Entry]
    day: date | None = None
    open_act: Item | None = None
    planned: bool = False

    @property
    def last(self) -> Entry | None:
        """The entry told last."""
        return self.entries[-1] if self.entries else None


_TOGETHER = pattern("ACT (?:AND|SLASH|DASH|OR|COMMA) ACT")


def together(page: Page) -> None:
    """`walked and jogged`: both, not told apart."""
    for hit in _TOGETHER.finditer(page.line):
        first, last = page.items[hit.start()], page.items[hit.end() - 1]
        if {first.value, last.value} == {"walk", "run"} and not _own_amounts(page, hit.start(), hit.end()):
            page.items[hit.start()] = Item(Tag.ACT, "run_walk", first.first, last.last)
            page.line = page.line[: hit.start() + 1] + Tag.USED * (hit.end() - hit.start() - 1) + page.line[hit.end() :]


def _own_amounts(page: Page, start: int, end: int) -> bool:
    """`20 walk, run 10`: each with its own amount."""
    before = page.line[start - 1 : start]
    after = page.line[end : end + 1]
    amounts = (Tag.DUR, Tag.NUM, Tag.DIST)
    return before in amounts and after in amounts


_TOLD = frozenset({Tag.ACT, Tag.DONE, Tag.WHOLE, Tag.TICK, Tag.SHARE, Tag.GOT, *AMOUNTS})


def done(page: Page) -> None:
    """Find what was done, clause by clause."""
    if not page.there & _TOLD:
        return
    story = Story([_told(fact) for fact in page.found if fact.key is Key.DID and isinstance(fact.value, Did)])
    page.found = [fact for fact in page.found if fact.key is not Key.DID]
    for clause in clauses_of(page):
        if clause.joint in ENDS:
            story.open_act = None
            story.planned = False
        _note_day(page, clause, story)
        if _meant(clause, story) or _told_of_others(page, clause):
            story.open_act = None
            continue
        for entry in _entries(page, clause, story):
            entry.on = story.day
            story.entries.append(entry)
    for entry in _summed(story.entries):
        share = None if entry.amount else entry.share
        value = Did(kind_of(entry.act), entry.minutes, entry.km, share, entry.on, _doubtful(entry))
        page.found.append(Found(Key.DID, value, entry.first, entry.last, "done"))


def _told(fact: Found) -> Entry:
    """What another rule found done, as an entry to go on with."""
    value = fact.value
    assert isinstance(value, Did)
    act = value.kind.value
    return Entry(act, fact.first, fact.last, value.minutes, value.km, value.share, value.on)


def _meant(clause: Clause, story: Story) -> bool:
    """A plan or wish: what follows its first word in the clause was not done."""
    if clause.plan is None:
        if story.planned and clause.joint == Tag.AND and not clause.told:
            return True
        story.planned = False
        return False
    story.planned = not any(index < clause.plan for index in (*clause.acts, *clause.amounts, *clause.evidence))
    if not story.planned:
        for name in ("acts", "amounts", "shares"):
            setattr(clause, name, [index for index in getattr(clause, name) if index < clause.plan])
    return story.planned


def _told_of_others(page: Page, clause: Clause) -> bool:
    """A clause whose subject is somebody else, and that does not take the sender in."""
    joined = page.line[max(0, clause.start - 2) : clause.start] == Tag.SELF + Tag.AND
    if not clause.others or joined or (clause.selves and clause.selves[0] < clause.others[0]):
        return False
    first = clause.others[0]
    if any(index < first for index in (*clause.acts, *clause.evidence, *clause.amounts, *clause.stops)):
        return False
    return not any(index > first for index in clause.selves)


_THIS_DAY = frozenset({"tonight", "this_morning"})


def _note_day(page: Page, clause: Clause, story: Story) -> None:
    lead = page.items[clause.start - 1].first if clause.start else 0
    if clause.joint == Tag.BECAUSE and page.tokens[lead].word == "since":
        return
    if any(page.items[i].value in _THIS_DAY for i in range(clause.start, clause.end) if page.line[i] == Tag.PARTDAY):
        story.day = None
    for index in clause.dates:
        if Tag.SINCE in page.line[clause.start : index] or page.line[index - 1 : index] == Tag.FROM:
            continue
        if page.items[index].value.startswith("0-") and page.line[index - 1 : index] != Tag.ON:
            continue
        if page.items[index].value == "+0":
            story.day = None
        elif (day := past_day(page.items[index], page.today)) is not None:
            story.day = day if day != page.today else None


def _entries(page: Page, clause: Clause, story: Story) -> Iterator[Entry]:
    """The entries of one clause; it may also complete the entry before it."""
    amounts = [index for index in clause.amounts if _counts(page, clause, index)]
    if clause.acts:
        yield from _of_acts(page, clause, amounts, story)
    elif amounts:
        yield from _of_amounts(page, clause, amounts, story)
    elif clause.shares:
        yield from _of_share(page, clause, story)
    elif _whole(page, clause) and not clause.negs:
        index = clause.evidence[0]
        if story.open_act is not None:
            yield _entry(page, story.open_act.value, [], index, share=1.0)
            story.open_act = None
        elif story.last is None:
            yield _entry(page, SESSION, [], index, share=1.0)


def _counts(page: Page, clause: Clause, index: int) -> bool:
    """Whether an amount may be something done."""
    item, tag = page.items[index], page.line[index]
    before = page.line[index - 1] if index > clause.start else ""
    after = page.tokens[item.last + 1].word if item.last + 1 < len(page.tokens) else ""
    if before in (Tag.SINCE, Tag.UNTIL, Tag.BEFORE, Tag.INTENDED, Tag.UNIT) or (before == Tag.BY and not clause.acts):
        return False
    if _stopped_there(page, index):
        return True
    waited = item.first > 0 and before == Tag.IS and page.tokens[item.first - 1].word == "been" and not clause.told
    line = page.line[clause.start : clause.end]
    if (Tag.MOVE in line or Tag.QUEST in line) and not clause.told and not clause.acts:
        return False
    if {"pulse", "bpm", "hr", "heart"} & {token.word for token in page.tokens[max(0, item.first - 3) : item.first]}:
        return False
    if tag == Tag.RATIO and item.m <= MOST_OF_A_WEEK and page.has(Key.TALLY):
        return False
    others = sum(each in AMOUNTS for each in page.line) > 1
    if tag == Tag.DUR and before == Tag.AT and clause.aches and not clause.told and others:
        return False
    elapsed = page.line[index + 1 : index + 2] == Tag.SINCE
    if elapsed or waited or item.first in page.signs or after in _NOT_MINUTES:
        return False
    if clause.aches and not (clause.acts or clause.told or clause.sessions) and index > _opening(page, clause):
        return False
    if tag == Tag.NUM:
        if _counted_moves(page, index):
            return False
        told = bool(clause.acts or clause.told or clause.sessions) or not clause.words
        return 0 < item.n <= 999 and told and not (before == Tag.AT and not clause.told)
    if tag == Tag.RATIO:
        return item.m != 10 or (clause.told and page.planned_min == 10)
    return True


MOST_OF_A_WEEK = 14
"""Up to this many "3 of 4" beside a tally are sessions, not minutes."""
_MOVES = frozenset(
    {"squats", "lunges", "ups", "situps", "pushups", "pressups", "crunches", "raises", "burpees", "planks", "curls",
     "deadlifts", "lengths", "jacks", "bridges", "presses", "dips"}
)  # fmt: skip


def _counted_moves(page: Page, index: int) -> bool:
    """`20 squats` counts squats, not minutes."""
    after = page.items[index + 1] if index + 1 < len(page.items) else None
    return after is not None and after.tag is Tag.ACT and page.tokens[after.last].word in _MOVES


def _opening(page: Page, clause: Clause) -> int:
    """Index of the first item of *clause* that is no filler."""
    fillers = (Tag.FILL, Tag.ABOUT, Tag.ONLY)
    return next((i for i in range(clause.start, clause.end) if page.line[i] not in fillers), clause.start)


def _of_acts(page: Page, clause: Clause, amounts: list[int], story: Story) -> Iterator[Entry]:
    kinds = list(dict.fromkeys(page.items[index].value for index in clause.acts))
    if len(amounts) >= 2 and len(clause.acts) >= 2:
        for act, group in _paired(page, clause.acts, amounts):
            if group:
                yield _entry(page, page.items[act].value, group, act)
        return
    act = clause.acts[0]
    if clause.negs and clause.negs[0] < act and not amounts:
        return
    kind = kinds[0]
    if {"walk", "run"} <= set(kinds) and not amounts:
        kind = "run_walk"
    if amounts:
        story.open_act = None
        yield _entry(page, kind, amounts, act, total=clause.total)
    else:
        yield from _bare_act(page, clause, act, kind, story)


def _bare_act(page: Page, clause: Clause, act: int, kind: str, story: Story) -> Iterator[Entry]:
    """An activity without an amount in its clause."""
    last = story.last
    share = page.items[clause.shares[0]].n if clause.shares else None
    finished = any(_is_finish(page, index) for index in clause.evidence)
    names_it = (
        last is not None and last.act == SESSION and last.amount and kind != "stretch" and clause.joint in _JOINED
    )
    if last is not None and names_it and clause.words <= 2 and not clause.told and not clause.parts:
        last.act = kind
    elif _circumstance(page, act):
        return
    elif share is not None or finished or clause.evidence or _past(page, act) or kind == "stretch":
        full = finished and kind in ("walk", "run", "run_walk") and not _past(page, act)
        if clause.aches and not clause.evidence and share is None:
            return
        story.open_act = None
        entry = _entry(page, kind, [], act, share=share if share is not None else 1.0 if full else None)
        yield entry
    else:
        story.open_act = page.items[act]


def _circumstance(page: Page, act: int) -> bool:
    """`whenever I jogged`, `before the walk`: names a time, not a thing done."""
    first = page.items[act].first
    return any(token.word in _TIMES for token in page.tokens[max(0, first - 3) : first])


def _is_finish(page: Page, index: int) -> bool:
    if page.line[index] in (Tag.TICK, Tag.WHOLE):
        return True
    return page.tokens[page.items[index].last].word in _FINISHED


def _past(page: Page, act: int) -> bool:
    item = page.items[act]
    word = page.tokens[item.first].word
    return word.endswith("ed") or word in ("ran", "swam", "rode", "dug", "swept")


def _paired(page: Page, acts: list[int], amounts: list[int]) -> Iterator[tuple[int, list[int]]]:
    """Each activity with the amounts on its side: `walk 20 run 10` or `20 walk 10 run`."""
    first = amounts[0] < acts[0]
    for place, act in enumerate(acts):
        if first:
            low = acts[place - 1] if place else -1
            yield act, [index for index in amounts if low < index < act]
        else:
            high = acts[place + 1] if place + 1 < len(acts) else len(page.line)
            yield act, [index for index in amounts if act < index < high]


def _entry(page: Page, act: str, amounts: list[int], at: int, share: float | None = None, total: bool = False) -> Entry:
    """An entry of *act* with all its *amounts*."""
    places = [*amounts, at]
    entry = Entry(act, page.items[min(places)].first, page.items[max(places)].last, share=share, total=total)
    for index in amounts:
        item = _each_way(page, index)
        if page.line[index] == Tag.RATIO and item.n < item.m <= LARGEST_FRACTION:
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


def _repeated(last: Entry, entry: Entry) -> bool:
    """`I walked a mile. A mile!`"""
    return entry.amount and entry.minutes in (None, last.minutes) and entry.km in (None, last.km)


def _follows(clause: Clause) -> bool:
    """Whether a clause goes on from the one before, if only as a sentence that is nothing but an amount."""
    return clause.joint in _JOINED or (clause.joint in ENDS and not clause.words and not clause.told)


def _each_way(page: Page, index: int) -> Item:
    """The amount at *index*, twice if it was said to be each way."""
    item = page.items[index]
    after = page.items[index + 1] if index + 1 < len(page.items) else None
    double = after is not None and after.tag is Tag.EACH and after.n == 2 and item.tag is not Tag.CLOCKISH
    return item._replace(n=item.n * 2) if double else item


def _of_amounts(page: Page, clause: Clause, amounts: list[int], story: Story) -> Iterator[Entry]:
    """Amounts without an activity: they belong to the one before, or to the session."""
    entry = _entry(page, SESSION, amounts, amounts[0], total=clause.total)
    last = story.last
    plain = clause.words == 0 or any(token.word in _BACK for token in _tokens(page, clause))
    if last is not None and clause.joint in (*ENDS, Tag.BECAUSE) and plain and _repeated(last, entry):
        return
    if last is not None and last.on == story.day and _in_all(page, last, entry):
        last.minutes = entry.minutes
    elif story.open_act is not None and (plain or clause.told or clause.words <= 2):
        entry.act, story.open_act = story.open_act.value, None
        yield entry
    elif last is not None and last.on != story.day and clause.joint in _JOINED and not clause.words:
        entry.act = last.act
        yield entry
    elif last is not None and _follows(clause) and not clause.stops and _completes(last, entry) and clause.words <= 2:
        last.minutes = last.minutes if last.minutes is not None else entry.minutes
        last.km = last.km if last.km is not None else entry.km
        last.share = None
    elif (
        last is not None
        and last.minutes is not None
        and clause.joint in _JOINED
        and plain
        and last.act != SESSION
        and not clause.told
    ):
        last.minutes += entry.minutes or 0.0
    elif _session_said(page, clause, amounts):
        yield entry


def _in_all(page: Page, last: Entry, entry: Entry) -> bool:
    """`a stitch at 12, then finished the 20`: the whole session, not more of it."""
    part = last.act == SESSION and last.minutes is not None and entry.minutes is not None
    return part and entry.minutes == page.planned_min and (last.minutes or 0) < (entry.minutes or 0)


def _tokens(page: Page, clause: Clause) -> list[Token]:
    return page.tokens[page.items[clause.start].first : page.items[clause.end - 1].last + 1]


def _completes(last: Entry, entry: Entry) -> bool:
    """Whether *entry* gives what *last* lacks: the minutes of a distance, or the distance of minutes."""
    if last.act == SESSION and not last.amount:
        return False
    if last.act == "stretch" and last.amount:
        return False
    if not last.amount and last.share is None:
        return True
    if last.amount or last.share is None or last.act != SESSION:
        return (last.minutes is None and entry.km is None) or (last.km is None and entry.minutes is None)
    return False


_IT_WAS = Tag.IT + Tag.IS


def _session_said(page: Page, clause: Clause, amounts: list[int]) -> bool:
    """Whether amounts without an activity stand for the session."""
    if clause.told or clause.sessions or not clause.words:
        return True
    leads = all(tag in (Tag.FILL, Tag.ABOUT, Tag.ONLY) for tag in page.line[clause.start : amounts[0]])
    if (leads and clause.words <= 1) or _stopped_there(page, amounts[0]):
        return True
    tags = {page.line[index] for index in amounts}
    line = page.line[clause.start : clause.end]
    if line.startswith(_IT_WAS) and Tag.DUR in tags and clause.words <= 1 and _tokens(page, clause)[1].word == "was":
        return True
    return bool(tags & {Tag.DIST, Tag.RATIO}) or (Tag.CLOCKISH in tags and Tag.AT not in line)


def _stopped_there(page: Page, index: int) -> bool:
    """`dizzy at 11 min, stopped there`: a minute named before a stop without one of its own."""
    named = page.line[index - 1 : index] == Tag.AT or page.line[index + 1 : index + 2] == Tag.IN
    return named and page.line[index] == Tag.DUR and Tag.STOPPED in page.line[index:]


_OPENERS = frozenset({Tag.SELF, Tag.IS, Tag.FILL, Tag.ABOUT, Tag.ONLY})


def _of_share(page: Page, clause: Clause, story: Story) -> Iterator[Entry]:
    index = clause.shares[0]
    item = page.items[index]
    if clause.negs and clause.negs[0] < index:
        return
    opens = all(tag in _OPENERS for tag in page.line[clause.start : index])
    throughout = {token.word for token in page.tokens[item.first : item.last + 1]} & {
        "way",
        "step",
        "throughout",
        "time",
    }
    if clause.parts and not opens and not clause.told and item.n < 1:
        return
    said = clause.told or clause.sessions or clause.words <= 1 or item.n == 1.0 or opens
    if throughout and not clause.told and not clause.sessions and clause.end - clause.start > 1:
        return
    if opens and not clause.told and _place_of(page, clause, index):
        return
    if said and (story.last is None or story.last.on != story.day):
        yield _entry(page, SESSION, [], index, share=item.n)


def _place_of(page: Page, clause: Clause, index: int) -> bool:
    """`halfway round I blacked out`: where something happened, not how much was done."""
    words = [token.word for token in page.tokens[page.items[index].first : page.items[index].last + 1]]
    half_way = words[0] == "halfway" or words[:2] == ["half", "way"]
    return half_way and any(place > index for place in clause.selves)


def _whole(page: Page, clause: Clause) -> bool:
    """Whether a clause says of the whole session that it was done."""
    tags = {page.line[index] for index in clause.evidence}
    if Tag.WHOLE in tags or Tag.TICK in tags:
        return True
    if not clause.evidence or clause.words > 1 or clause.aches:
        return False
    return any(_is_finish(page, index) for index in clause.evidence) or bool(clause.sessions)


def _summed(entries: list[Entry]) -> list[Entry]:
    """The same kind of the same day as one entry; a total told with its parts is only the parts."""
    kept: list[Entry] = []
    for entry in entries:
        same = next((each for each in kept if each.act == entry.act and each.on == entry.on), None)
        if same is None:
            kept.append(entry)
        else:
            same.minutes = _sum(same.minutes, entry.minutes)
            same.km = _sum(same.km, entry.km)
    parts = [each for each in kept if each.act not in (SESSION, "stretch") and each.amount]
    whole = sum(each.minutes or 0.0 for each in parts)
    return [
        each
        for each in kept
        if not (parts and each.act == SESSION and (not each.amount or each.total or each.minutes == whole))
    ]


def _sum(a: float | None, b: float | None) -> float | None:
    return b if a is None else a if b is None else a + b


LARGEST_FRACTION = 5
"""Up to this "3/4" is a fraction of the session; above it "15/25" is minutes of minutes."""
LONGEST_MIN = 300
"""Above this an amount is asked back: five hours is more than any beginner's session or slow half marathon."""
FASTEST_KMH = {"walk": 9.0, "run": 14.0, "run_walk": 13.0, SESSION: 14.0}
"""Speeds that a beginner does not reach (PACE-07: brisk walking 5.5-6.4, beginner jogs 6-8 km/h; from memory)."""


def _doubtful(entry: Entry) -> bool:
    """Whether the amount is hard to believe, so that it is asked back before it is kept."""
    if entry.minutes is not None and entry.minutes > LONGEST_MIN:
        return True
    fastest = FASTEST_KMH.get(entry.act)
    if fastest is None or not entry.km:
        return bool(entry.km and entry.km > 200)
    too_fast = entry.minutes is not None and entry.km * 60 > fastest * max(entry.minutes, 0.01)
    return too_fast or entry.km > 45
