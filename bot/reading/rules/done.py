"""What was really done: kinds, amounts and shares, clause by clause."""

from collections.abc import Iterator

from bot.reading.facts import Did
from bot.reading.lexicon import listed
from bot.reading.page import Found, Key, Page
from bot.reading.rules.alone import of_amounts
from bot.reading.rules.clauses import ENDS, Clause, Places, clauses_of
from bot.reading.rules.counted import counts
from bot.reading.rules.entries import Entry, doubtful, entry_of, summed
from bot.reading.rules.finished import LAPS, is_finish, of_another_time, says_whole
from bot.reading.rules.kinds import SESSION, kind_of
from bot.reading.rules.story import JOINED, Story
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import past_day

_TIMES = frozenset(
    {"when", "whenever", "while", "if", "as", "since", "time", "before", "than", "until", "once", "during", "after"}
)


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


SHORT = 3
"""A sentence of so many items may be only the day of the next ("Yesterday, finally.")."""


def done(page: Page) -> None:
    """Find what was done, clause by clause."""
    story = Story([_told(fact) for fact in page.found if fact.key is Key.DID and isinstance(fact.value, Did)])
    told_before = list(story.entries)
    page.found = [fact for fact in page.found if fact.key is not Key.DID]
    for clause in clauses_of(page):
        _note_act(page, clause, story)
        if clause.joint in ENDS:
            story.open_act = story.open_act if _goes_on(page, clause, story) else None
            story.planned = False
            if story.aside > SHORT and not story.told:
                story.day = None
            story.aside, story.told = 0, False
        story.aside += clause.end - clause.start
        _note_day(page, clause, story)
        for entry in told_before:
            if _stands_in(page, clause, entry):
                entry.on = entry.on or story.day
        story.told = story.told or _tells(page, clause)
        if _meant(clause, story) or _told_of_others(page, clause):
            story.open_act = None
            continue
        for entry in _entries(page, clause, story):
            entry.on = story.day
            story.entries.append(entry)
    for entry in summed(story.entries):
        share = None if entry.amount else entry.share
        value = Did(kind_of(entry.act), entry.minutes, entry.km, share, entry.on, doubtful(entry))
        page.found.append(Found(Key.DID, value, entry.first, entry.last, "done"))


def _note_act(page: Page, clause: Clause, story: Story) -> None:
    """Keep the activity named last; "the whole of the walk" names one too."""
    if clause.acts:
        story.machine = _machine(page, clause) or story.machine
        story.named = page.items[clause.acts[-1]]
        return
    for item in page.items[clause.start : clause.end]:
        if item.tag is Tag.SHARE and (act := _ON_FOOT.get(page.words[item.last])):
            story.named = item._replace(value=act)


_ON_FOOT = {"walk": "walk", "run": "run", "jog": "run"}


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
    if not clause.others:
        return False
    joined = page.line[max(0, clause.start - 2) : clause.start] == Tag.SELF + Tag.AND
    if joined or (clause.selves and clause.selves[0] < clause.others[0]):
        return False
    first = clause.others[0]
    if not _OURS.isdisjoint(page.said(clause)):
        return False
    if any(index < first for index in (*clause.acts, *clause.evidence, *clause.amounts, *clause.stops)):
        return False
    return not any(index > first for index in clause.selves)


_OURS = frozenset({"our", "us", "ourselves"})
_THIS_DAY = frozenset({"tonight", "this_morning"})


def _note_day(page: Page, clause: Clause, story: Story) -> None:
    lead = page.items[clause.start - 1].first if clause.start else 0
    if clause.joint == Tag.BECAUSE and page.words[lead] == "since":
        return
    if Tag.PARTDAY in page.there:
        for index in range(clause.start, clause.end):
            if page.line[index] == Tag.PARTDAY and page.items[index].value in _THIS_DAY:
                story.day = None
    others = clause.others[0] if clause.others and _told_of_others(page, clause) else clause.end
    for index in clause.dates:
        if index > others or Tag.SINCE in page.line[clause.start : index] or page.line[index - 1 : index] == Tag.FROM:
            continue
        if page.items[index].value.startswith("0-") and page.line[index - 1 : index] != Tag.ON:
            continue
        if _of_her_day(page, clause, index):
            continue
        if page.items[index].value == "+0":
            story.day = None
        elif (day := past_day(page.items[index], page.today)) is not None:
            story.day = day if day != page.today else None


_SUBJECTS = frozenset({"she", "he", "they"})


def _of_her_day(page: Page, clause: Clause, index: int) -> bool:
    """`did the walk with my sister she had chest pain last thursday`: the day is of what she had."""
    told = [*clause.evidence, *clause.acts]
    hers = [place for place in clause.others if page.words[page.items[place].last] in _SUBJECTS and place < index]
    return bool(hers and told) and min(told) < hers[-1] and not any(hers[-1] < place < index for place in clause.selves)


def _entries(page: Page, clause: Clause, story: Story) -> Iterator[Entry]:
    """The entries of one clause; it may also complete the entry before it."""
    amounts = [index for index in clause.amounts if counts(page, clause, index)]
    if amounts and clause.acts:
        clause.acts = [act for act in clause.acts if Tag.BEFORE not in page.line[amounts[0] : act]]
    if clause.acts:
        yield from _of_acts(page, clause, amounts, story)
    elif amounts:
        yield from of_amounts(page, clause, amounts, story)
    elif clause.shares:
        yield from _of_share(page, clause, story)
    elif says_whole(page, clause) and not clause.negs and not of_another_time(page, clause):
        index = clause.evidence[0]
        if story.open_act is not None:
            yield entry_of(page, story.open_act.value, [], index, share=1.0)
            story.open_act = None
        elif story.last is None:
            yield entry_of(page, SESSION, [], index, share=1.0)


def _of_acts(page: Page, clause: Clause, amounts: list[int], story: Story) -> Iterator[Entry]:
    clause.acts = [index for index in clause.acts if page.line[index - 1 : index] != Tag.NEG] or clause.acts
    kinds = list(dict.fromkeys(page.items[index].value for index in clause.acts))
    if len(amounts) >= 2 and len(clause.acts) >= 2:
        for act, group in _paired(page, clause.acts, amounts):
            if group:
                yield entry_of(page, page.items[act].value, group, act)
        return
    act = next((index for index in clause.acts if not _gym(page, index)), clause.acts[0])
    if clause.negs and clause.negs[0] < act and not amounts:
        return
    kind = page.items[act].value
    if {"walk", "run"} <= set(kinds) and not amounts:
        kind = "run_walk"
    if amounts:
        story.open_act = None
        if page.line[clause.acts[-1] - 2 : clause.acts[-1]] == Tag.AT + Tag.THE:
            kind = page.items[clause.acts[-1]].value
        told = entry_of(page, kind, amounts, act, total=clause.total)
        if (way := _same_way(page, act, told, story)) is not None:
            way.act, way.minutes, way.last = kind, told.minutes, told.last
            return
        yield told
    else:
        yield from _bare_act(page, clause, act, kind, story)


def _same_way(page: Page, act: int, told: Entry, story: Story) -> Entry | None:
    """`to the lake are 4 km, I walked it in 50 minutes`: how long the way took whose length was told before."""
    way = story.last
    of_it = page.line[act + 1 : act + 2] == Tag.IT and told.km is None and told.minutes is not None
    if way is None or not of_it or way.act != SESSION or way.minutes is not None or way.km is None:
        return None
    return way


def _gym(page: Page, index: int) -> bool:
    """`the hotel gym had a cross-trainer`: the gym is only the place, if anything else is named."""
    return page.words[page.items[index].last] == "gym"


def _bare_act(page: Page, clause: Clause, act: int, kind: str, story: Story) -> Iterator[Entry]:
    """An activity without an amount in its clause."""
    last = story.last
    share = page.items[clause.shares[0]].n if clause.shares else None
    finished = any(is_finish(page, index) for index in clause.evidence)
    names_it = last is not None and last.act == SESSION and last.amount and kind != "stretch" and clause.joint in JOINED
    names_it = names_it and page.line[act - 2 : act] not in (Tag.ABOUT + Tag.THE, Tag.WITH + Tag.THE, Tag.OF + Tag.THE)
    if last is not None and names_it and clause.words <= 2 and not clause.told and not clause.parts:
        whole = "all" in page.said(clause)
        for entry in story.entries if whole else (last,):
            entry.act = kind if entry.act == SESSION and entry.on == last.on else entry.act
    elif _circumstance(page, act) or kind == "house":
        return
    elif share is not None or finished or clause.evidence or _past(page, act) or kind == "stretch":
        full = finished and kind in _WHOLE_KINDS and not _past(page, act)
        if clause.aches and not clause.evidence and share is None:
            return
        story.open_act = None
        entry = entry_of(page, kind, [], act, share=share if share is not None else 1.0 if full else None)
        yield entry
    else:
        both = story.open_act is not None and {story.open_act.value, kind} == {"walk", "run"}
        story.open_act = page.items[act]._replace(value="run_walk") if both else page.items[act]


_WHOLE_KINDS = frozenset({"walk", "run", "run_walk", "strength", "stretch"})
"""Of these "done" says that all of it was done."""


def _circumstance(page: Page, act: int) -> bool:
    """`whenever I jogged`, `before the walk`, `on the jog bits`: names a time, not a thing done."""
    first = page.items[act].first
    during = page.words[max(0, first - 2) : first] == ["on", "the"] and page.words[page.items[act].last] in _BITS
    return during or not _TIMES.isdisjoint(page.words[max(0, first - 3) : first])


_BITS = frozenset({"bit", "bits", "part", "parts", "section", "sections", "stretches", "intervals", "segments"})


def _past(page: Page, act: int) -> bool:
    item = page.items[act]
    word = page.words[item.first]
    went = item.first > 0 and page.words[item.first - 1] == "went"
    return went or word.endswith("ed") or word in ("ran", "swam", "rode", "dug", "swept")


def _paired(page: Page, acts: Places, amounts: list[int]) -> Iterator[tuple[int, list[int]]]:
    """Each activity with the amounts on its side: `walk 20 run 10` or `20 walk 10 run`."""
    first = amounts[0] < acts[0]
    for place, act in enumerate(acts):
        if first:
            low = acts[place - 1] if place else -1
            yield act, [index for index in amounts if low < index < act]
        else:
            high = acts[place + 1] if place + 1 < len(acts) else len(page.line)
            yield act, [index for index in amounts if act < index < high]


_OPENERS = frozenset({Tag.SELF, Tag.IS, Tag.FILL, Tag.ABOUT, Tag.ONLY})


def _of_share(page: Page, clause: Clause, story: Story) -> Iterator[Entry]:
    index = clause.shares[0]
    item = page.items[index]
    if clause.negs and clause.negs[0] < index:
        return
    opens = all(tag in _OPENERS for tag in page.line[clause.start : index])
    if page.line[index + 1 : index + 3] == Tag.OF + Tag.WORD and not clause.told and _of_another(page, index + 2):
        return
    throughout = set(page.words[item.first : item.last + 1]) & {
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
        yield entry_of(page, SESSION, [], index, share=item.n)


def _of_another(page: Page, index: int) -> bool:
    """`half of my face`, `most of the street`: a part of something else than the way."""
    return page.words[page.items[index].last] not in LAPS


def _place_of(page: Page, clause: Clause, index: int) -> bool:
    """`halfway round I blacked out`: where something happened, not how much was done."""
    words = page.words[page.items[index].first : page.items[index].last + 1]
    half_way = words[0] == "halfway" or words[:2] == ["half", "way"]
    ahead = page.words[page.items[index].last + 1 :][:1]
    on_the_way = bool(ahead) and ahead[0] in ("up", "down", "along", "across", "over", "to", "into", "back")
    through = on_the_way or (words[-1] == "through" and page.line[index + 1 : index + 3] == Tag.THE + Tag.WORD)
    return half_way and (through or any(place > index for place in clause.selves))
