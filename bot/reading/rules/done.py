"""What was really done: kinds, amounts and shares, clause by clause."""

from re import Match

from bot.reading.facts import Did
from bot.reading.lexicon import listed
from bot.reading.page import Found, Key, Page
from bot.reading.rules.clauses import ENDS, REASONED, Clause, clauses_of, totals_said
from bot.reading.rules.entries import LARGEST_FRACTION, Entry, doubtful, summed
from bot.reading.rules.kinds import SESSION, kind_of
from bot.reading.rules.story import ON_FOOT, Story
from bot.reading.rules.told import entries_of
from bot.reading.rules.whose import day_of_both, note_day, of_long_ago, told_of_others
from bot.reading.tags import Item, Tag, pattern

_TOGETHER = pattern("ACT (?:AND|SLASH|DASH|OR|COMMA|DASH AND DASH)? ACT")
_PARTLY = pattern("ACT (?:AND|COMMA|OF|IT|THE|SHARE|FILL|WORD|HALF){1,4} ACT")
_BITS_OF = frozenset({"bit", "bits", "some", "part", "partly", "half", "little", "parts", "sometimes", "mostly"})


def together(page: Page) -> None:
    """`walked and jogged`: both, not told apart."""
    if page.there.isdisjoint({Tag.PART, Tag.SENSE}):
        _walked_off(page)
    partly = [hit for hit in _PARTLY.finditer(page.line) if _is_partly(page, hit)]
    for hit in (*partly, *_TOGETHER.finditer(page.line)):
        first, last = page.items[hit.start()], page.items[hit.end() - 1]
        if {first.value, last.value} == {"walk", "run"} and not _own_amounts(page, hit.start(), hit.end()):
            page.items[hit.start()] = Item(Tag.ACT, "run_walk", first.first, last.last)
            page.line = page.line[: hit.start() + 1] + Tag.USED * (hit.end() - hit.start() - 1) + page.line[hit.end() :]


def _walked_off(page: Page) -> None:
    """`bad day at work, walked it off, 35 minutes`: no complaint that eased, but a walk."""
    for index, item in enumerate(page.items):
        act = _ON_FOOT.get(page.words[item.first]) if page.line[index] == Tag.COURSE else None
        if act:
            page.items[index] = item._replace(tag=Tag.ACT, value=act)
            page.line = page.line[:index] + Tag.ACT + page.line[index + 1 :]


_ON_FOOT = {"walked": "walk", "ran": "run", "jogged": "run"}


def _is_partly(page: Page, hit: Match[str]) -> bool:
    """`some jogged and some walked`, `a bit of walking, a bit of jogging`: both words are said twice."""
    first, last = page.items[hit.start()], page.items[hit.end() - 1]
    before, between = page.words[max(0, first.first - 4) : first.first], page.words[first.last + 1 : last.first]
    return not _BITS_OF.isdisjoint(before) and not _BITS_OF.isdisjoint(between)


def _own_amounts(page: Page, start: int, end: int) -> bool:
    """`20 walk, run 10`: each with its own amount."""
    before = page.line[start - 1 : start]
    after = page.line[end : end + 1]
    amounts = (Tag.DUR, Tag.NUM, Tag.DIST)
    return before in amounts and after in amounts


SHORT = 3
"""A sentence of so many items may be only the day of the next ("Yesterday, finally.")."""


def done(page: Page) -> None:
    """Find what was done, clause by clause."""
    story = Story([_told(fact) for fact in page.found if fact.key is Key.DID and isinstance(fact.value, Did)])
    told_before = list(story.entries)
    page.found = [fact for fact in page.found if fact.key is not Key.DID]
    asked = frozenset(
        place for fact in page.found if fact.key is Key.WANTS for place in range(fact.first, fact.last + 1)
    )
    for clause in clauses_of(page):
        if clause.acts and not clause.told and not clause.amounts and page.items[clause.start].first in asked:
            clause.acts = ()
        _note_act(page, clause, story)
        if clause.joint in ENDS:
            story.open_act = story.open_act if _goes_on(page, clause, story) else None
            story.planned = False
            if not story.told and (story.aside > SHORT or _rated(page, clause.start)):
                story.day = None
            story.aside, story.told = 0, False
        story.aside += clause.end - clause.start
        note_day(page, clause, story)
        for entry in told_before:
            if _stands_in(page, clause, entry):
                entry.on = entry.on or story.day
        story.told = story.told or _tells(page, clause)
        if _meant(page, clause, story) or told_of_others(page, clause) or of_long_ago(page, clause):
            story.open_act = None
            continue
        if day_of_both(page, clause, story):
            story.entries[-1].on = story.day
        before = story.last
        for entry in entries_of(page, clause, story):
            if before is not None and clause.joint == Tag.THEN and before.act == SESSION and before.share == 1.0:
                before.apart = entry.act not in ON_FOOT.values()
            entry.on = story.day
            story.entries.append(entry)
    _name_it(page, story.entries, asked)
    _work_out_rest(page, story.entries)
    for entry in summed(story.entries):
        share = None if entry.amount else entry.share
        value = Did(kind_of(entry.act), entry.minutes, entry.km, share, entry.on, doubtful(entry))
        page.found.append(Found(Key.DID, value, entry.first, entry.last, "done"))


def _name_it(page: Page, entries: list[Entry], asked: frozenset[int]) -> None:
    """`weights in the garage while bub napped, 25 mins`: the one amount is of the one activity named before it."""
    told = [entry for entry in entries if entry.amount]
    if len(told) != 1 or told[0].act != SESSION:
        return
    acts = [index for index, item in enumerate(page.items) if item.tag is Tag.ACT]
    kinds = {page.items[index].value for index in acts}
    if len(kinds) != 1 or any(each.act not in {SESSION, *kinds} for each in entries):
        return
    place = next(index for index, item in enumerate(page.items) if item.last >= told[0].first)
    alone = not _SAID_DONE.intersection(_around(page, place))
    if alone and acts[0] < place and _may_be_of(page, acts[0], asked):
        told[0].act = page.items[acts[0]].value
        entries[:] = told


_SAID_DONE = frozenset({Tag.DONE, Tag.TICK, Tag.WHOLE, Tag.STOPPED, Tag.SESSION, Tag.TOTAL})
_OF_SOMETHING_ELSE = frozenset({Tag.NEG, Tag.PART, Tag.SENSE, Tag.LONG_AGO, Tag.QUEST, Tag.BEFORE, Tag.AFTER, Tag.MISS})


def _around(page: Page, place: int) -> str:
    """The clause in which item *place* stands."""
    start = max((hit.end() for hit in REASONED.finditer(page.line, 0, place)), default=0)
    end = REASONED.search(page.line, place)
    return page.line[start : end.start() if end else len(page.line)]


def _may_be_of(page: Page, act: int, asked: frozenset[int]) -> bool:
    """Whether what is named at *act* may be what was done: not in a question, nor "on the jog bits"."""
    item = page.items[act]
    lead = page.words[max(0, item.first - 3) : item.first]
    after = page.words[item.last + 1 : item.last + 2]
    bits = page.words[item.last] in _BITS or (bool(after) and after[0] in _BITS | _NAMES | _HABIT)
    return not (
        item.value == "stretch"
        or page.words[item.last] == "gym"
        or item.first in asked
        or item.first in page.elsewhere
        or bits
        or not _WHEN.isdisjoint(lead)
        or not _OF_SOMETHING_ELSE.isdisjoint(_around(page, act))
    )


_BITS = frozenset({"bit", "bits", "part", "parts", "break", "breaks", "portion"})
_NAMES = frozenset({"group", "shop", "run", "club", "app", "magazine"})
"""After an activity these make the name of something else of it: "bus run", "running shop"."""
_HABIT = frozenset({"now", "nowadays", "regularly"})
"""After one of these is what somebody does: "told him i run now"."""
_WHEN = frozenset(
    {"when", "whenever", "while", "since", "as", "last", "second", "first", "next", "from", "blame", "about"}
)


def _work_out_rest(page: Page, entries: list[Entry]) -> None:
    """`jogged 10 of the 25, walked the rest`: what is left of the whole that was said."""
    rest = next((each for each in entries if each.rest and each.minutes is None), None)
    if rest is None:
        return
    wholes = [item.m for item in page.items if item.tag is Tag.RATIO and item.m > LARGEST_FRACTION]
    wholes += totals_said(page)
    wholes += [each.minutes for each in entries if each.act == SESSION and each.minutes]
    parts = sum(each.minutes or 0.0 for each in entries if each.act != SESSION)
    if wholes and parts < wholes[0]:
        rest.minutes = wholes[0] - parts


def _rated(page: Page, start: int) -> bool:
    """`9/10 confident for saturday. Half an hour of run/walk`: the day before *start* is of something else."""
    first = page.line.rfind(Tag.STOP, 0, start - 1) + 1
    return page.line[first] == Tag.USED


def _note_act(page: Page, clause: Clause, story: Story) -> None:
    """Keep the activity named last; "the whole of the walk" names one too."""
    if clause.acts:
        story.machine = _machine(page, clause) or story.machine
        story.named = page.items[clause.acts[-1]]
        return
    for item in page.items[clause.start : clause.end]:
        if item.tag is Tag.SHARE and (act := ON_FOOT.get(page.words[item.last])):
            story.named = item._replace(value=act)


def _goes_on(page: Page, clause: Clause, story: Story) -> bool:
    """`He talked me into badminton. Forty minutes of it`: a sentence that opens with how long it took."""
    act = story.open_act
    opens = page.line[clause.start : clause.start + 1] == Tag.DUR
    return opens and act is not None and act.value not in ("walk", "run", "run_walk", "house")


def _machine(page: Page, clause: Clause) -> Item | None:
    return next((page.items[index] for index in clause.acts if page.items[index].value in _MACHINES), None)


_MACHINES = frozenset({"bike", "elliptical", "row", "stairs"})
_WEAK = frozenset({"had", "have", "took", "made", "enjoyed", "joined", "hit", "spent"})


_OUT = listed("places", "out")


def _tells(page: Page, clause: Clause) -> bool:
    """Whether *clause* tells of a session: "had curry" does not."""
    if clause.acts or clause.sessions or clause.stops:
        return True
    firm = any(page.words[page.items[index].first] not in _WEAK for index in clause.evidence)
    return firm or (bool(clause.dates) and not _OUT.isdisjoint(page.said(clause)))


def _told(fact: Found) -> Entry:
    """What another rule found done, as an entry to go on with."""
    value = fact.value
    assert isinstance(value, Did)
    act = value.kind.value
    return Entry(act, fact.first, fact.last, value.minutes, value.km, value.share, value.on)


def _stands_in(page: Page, clause: Clause, entry: Entry) -> bool:
    return page.items[clause.start].first <= entry.first <= page.items[clause.end - 1].last


def _could(page: Page, clause: Clause) -> bool:
    """`today I could swim for twenty-five minutes`, as learners put it."""
    word = page.words[page.items[clause.plan or 0].last]
    today = any(page.items[index].value == "+0" for index in clause.dates)
    told = clause.acts or not _ACHIEVED.isdisjoint(page.said(clause))
    return word == "could" and today and bool(told and clause.amounts)


def _is_it_okay(page: Page, clause: Clause) -> bool:
    """`is it ok that I did 17 not 20?`: a question about something done."""
    words = page.said(clause)
    asked = page.words[page.items[clause.plan or 0].first] in ("is", "was")
    return asked and any(
        words[place : place + 2] in (["i", "did"], ["i", "walked"], ["i", "ran"]) for place in range(len(words))
    )


_ACHIEVED = frozenset({"complete", "finish", "cover", "achieve", "accomplish", "reach"})


def _meant(page: Page, clause: Clause, story: Story) -> bool:
    """A plan or wish: what follows its first word in the clause was not done."""
    if clause.plan is None or _could(page, clause) or _is_it_okay(page, clause):
        if story.planned and clause.joint in (Tag.AND, "") and not clause.told:
            return True
        story.planned = False
        return False
    story.planned = not any(index < clause.plan for index in (*clause.acts, *clause.amounts, *clause.evidence))
    if not story.planned:
        for name in ("acts", "amounts", "shares"):
            setattr(clause, name, [index for index in getattr(clause, name) if index < clause.plan])
    return story.planned
