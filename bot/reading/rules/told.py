"""The entries that one clause tells: activities with their amounts, amounts alone, shares, "all done"."""

from collections.abc import Iterator

from bot.reading.amounts import KM_PER_MILE
from bot.reading.page import Key, Page
from bot.reading.rules.alone import of_amounts
from bot.reading.rules.clauses import ENDS, Clause, Places
from bot.reading.rules.counted import counts
from bot.reading.rules.entries import Entry, entry_of
from bot.reading.rules.finished import LAPS, is_finish, of_another_time, says_whole
from bot.reading.rules.kinds import SESSION
from bot.reading.rules.story import JOINED, ON_FOOT, Story
from bot.reading.tags import Tag, pattern

_TIMES = frozenset(
    {"when", "whenever", "while", "if", "as", "since", "time", "before", "than", "until", "once", "during", "after"}
)


def entries_of(page: Page, clause: Clause, story: Story) -> Iterator[Entry]:
    """The entries of one clause; it may also complete the entry before it."""
    amounts = [index for index in clause.amounts if counts(page, clause, index)]
    clause.acts = [act for act in clause.acts if not _is_met(page, act)]
    if clause.acts and (told := amounts or clause.shares):
        clause.acts = [act for act in clause.acts if Tag.BEFORE not in page.line[told[0] : act]]
    if clause.acts:
        yield from _of_acts(page, clause, amounts, story)
    elif amounts:
        yield from of_amounts(page, clause, amounts, story)
    elif clause.shares:
        yield from _of_share(page, clause, story)
    elif says_whole(page, clause) and not _denied(page, clause) and not of_another_time(page, clause):
        index = clause.evidence[0]
        if story.open_act is not None:
            yield entry_of(page, story.open_act.value, [], index, share=1.0)
            story.open_act = None
        elif story.last is None:
            yield entry_of(page, SESSION, [], index, share=1.0)


def _denied(page: Page, clause: Clause) -> bool:
    """Whether a denial is of what was done: not in "completed it no pain"."""
    if not clause.negs or clause.negs[0] < clause.evidence[0]:
        return bool(clause.negs)
    return page.line[clause.negs[0] + 1 : clause.negs[0] + 2] not in (Tag.SENSE, Tag.PART)


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
        _in_same_unit(page, clause, amounts, told, story)
        if (whole := _same_whole(clause, told, story)) is not None:
            whole.act, whole.last = kind, told.last
            whole.minutes, whole.km = whole.minutes or told.minutes, whole.km or told.km
            return
        if (way := _same_way(page, act, told, story)) is not None:
            way.act, way.minutes, way.last = kind, told.minutes, told.last
            return
        yield told
    else:
        yield from _bare_act(page, clause, act, kind, story)


def _in_same_unit(page: Page, clause: Clause, amounts: list[int], told: Entry, story: Story) -> None:
    """`jogged one kilometre and walked two`: two of what was said before."""
    last = story.last
    joined = last is not None and last.km is not None and last.minutes is None and clause.joint in JOINED
    if (
        not joined
        or len(amounts) != 1
        or page.line[amounts[0]] not in (Tag.NUM, Tag.ONE)
        or page.items[amounts[0]].n > SMALL
    ):
        return
    length = next((item for item in reversed(page.items[: clause.start]) if item.tag is Tag.DIST), None)
    if length is not None:
        told.minutes, told.km = (
            None,
            page.items[amounts[0]].n * (length.m or (KM_PER_MILE if length.n == KM_PER_MILE else 1.0)),
        )


SMALL = 5
"""Up to this a number after a distance is of the same unit."""


def _same_way(page: Page, act: int, told: Entry, story: Story) -> Entry | None:
    """`to the lake are 4 km, I walked it in 50 minutes`: how long the way took whose length was told before."""
    way = story.last
    of_it = page.line[act + 1 : act + 2] == Tag.IT and told.km is None and told.minutes is not None
    if way is None or not of_it or way.act != SESSION or way.minutes is not None or way.km is None:
        return None
    return way


def _same_whole(clause: Clause, told: Entry, story: Story) -> Entry | None:
    """`36 min, 4.2k run/walk`: the session just told by its minutes alone, now by its distance."""
    last = story.last
    if (
        last is None
        or last.act != SESSION
        or last.share is not None
        or clause.joint not in (Tag.COMMA, Tag.AND, Tag.BUT, *ENDS)
    ):
        return None
    if clause.words > len(clause.shares):
        return None
    pair = (last.minutes is None) != (last.km is None) and (last.minutes is None) == (told.km is None)
    return last if pair and last.on == story.day and (told.minutes is None) != (told.km is None) else None


def _gym(page: Page, index: int) -> bool:
    """`the hotel gym had a cross-trainer`, `gym was roasting`: only the place, if anything else is told."""
    return page.words[page.items[index].last] == "gym"


def _bare_act(page: Page, clause: Clause, act: int, kind: str, story: Story) -> Iterator[Entry]:
    """An activity without an amount in its clause."""
    last = story.last
    share = page.items[clause.shares[0]].n if clause.shares else None
    finished = any(is_finish(page, index) for index in clause.evidence)
    names_it = last is not None and last.act == SESSION and last.amount and kind != "stretch" and clause.joint in JOINED
    alone = clause.joint in ENDS and clause.end - clause.start == 1
    names_it = names_it or (alone and last is not None and last.act == SESSION and last.amount and kind == "run_walk")
    names_it = names_it and not (clause.others and page.line[act - 1 : act] in (Tag.FROM, Tag.TO, Tag.AT))
    names_it = names_it and _BLAMED.isdisjoint(page.said(clause)) and Tag.SINCE not in page.line[clause.start : act]
    names_it = names_it and page.line[act - 2 : act] not in (Tag.ABOUT + Tag.THE, Tag.WITH + Tag.THE, Tag.OF + Tag.THE)
    if not clause.amounts and _REST.search(page.line, clause.start, clause.end) and "rest" in page.said(clause):
        story.open_act = None
        entry = entry_of(page, kind, [], act)
        entry.rest = True
        yield entry
    elif share == 1.0 and last is not None and last.act == SESSION and last.amount and last.on == story.day:
        last.act = kind
    elif (
        last is not None
        and (names_it or _of_it(page, clause, act, last))
        and clause.words <= 2
        and not clause.told
        and not clause.parts
    ):
        whole = not _ALL.isdisjoint(page.said(clause))
        for entry in story.entries if whole else (last,):
            entry.act = kind if entry.act == SESSION and entry.on == last.on else entry.act
    elif _circumstance(page, clause, act) or (_gym(page, act) and page.line[act + 1 : act + 2] == Tag.IS):
        return
    elif kind == "house":
        story.open_act = page.items[act]
    elif share is not None or finished or clause.evidence or _past(page, act) or kind == "stretch":
        alone = clause.end - clause.start == len(clause.acts) + len(clause.evidence)
        full = finished and (alone or kind in _WHOLE_KINDS) and not _past(page, act)
        if clause.aches and not clause.evidence and share is None:
            story.open_act = page.items[act] if _past(page, act) else story.open_act
            return
        story.open_act = None
        entry = entry_of(page, kind, [], act, share=share if share is not None else 1.0 if full else None)
        yield entry
    else:
        both = story.open_act is not None and {story.open_act.value, kind} == {"walk", "run"}
        story.open_act = page.items[act]._replace(value="run_walk") if both else page.items[act]


def _of_it(page: Page, clause: Clause, act: int, last: Entry) -> bool:
    """`it's only 1.5 km but I jogged it`."""
    told = last.act == SESSION and last.amount and clause.joint in (Tag.BUT, Tag.COMMA, *ENDS)
    return told and page.line[act + 1 : act + 2] == Tag.IT


_ALL = frozenset({"all", "both", "each"})
_BLAMED = frozenset({"blame", "blaming", "thanks", "courtesy", "cheers"})
"""`20 done, legs tight, blame the deadlifts`: done before."""
_REST = pattern("THE OFF|OFF ACT|ACT OFF")
_WHOLE_KINDS = frozenset({"walk", "run", "run_walk", "strength", "stretch"})
"""Of these "done" says that all of it was done."""


def _is_met(page: Page, act: int) -> bool:
    """`nearly hit by a bike`, `with my lad on his bike`."""
    item = page.items[act]
    return item.value == "bike" and page.words[max(0, item.first - 2) : item.first] in _MET


def _circumstance(page: Page, clause: Clause, act: int) -> bool:
    """`whenever I jogged`, `before the walk`, `on the jog bits`: names a time, not a thing done."""
    first = page.items[act].first
    lead = max(page.items[clause.start].first, first - 3)
    during = page.words[max(0, first - 2) : first] == ["on", "the"] and page.words[page.items[act].last] in _BITS
    during = during or (page.words[max(0, first - 3) : first - 1] in _DURING and page.words[first - 1] in _WHICH)
    because = page.items[clause.start - 1] if clause.joint == Tag.BECAUSE else None
    joint = page.words[because.first : because.last + 1] if because else []
    item = page.items[act]
    thing = (
        item.value in _MACHINES
        and page.words[item.last + 1 : item.last + 2] in _HAS
        and page.line[act - 1 : act] == Tag.THE
    )
    ached = page.words[item.last].endswith("ing") and _ACHED.search(page.line[clause.start : act]) is not None
    watched = thing or ached or not _WATCHED.isdisjoint(page.words[max(0, first - 4) : first])
    return during or watched or not _TIMES.isdisjoint([*joint, *page.words[lead:first]])


_MACHINES = frozenset({"bike", "elliptical", "row", "stairs"})
_MET = (
    ["by", "a"],
    ["on", "his"],
    ["on", "her"],
    ["on", "their"],
    ["with", "his"],
    ["a", "pram"],
    ["of", "a"],
    ["past", "a"],
)
_ACHED = pattern("(?:PART|SENSE) FILL{0,2} $")
"""`my chest got tight just walking to the car`."""
_HAS = (["had"], ["has"], ["is"], ["was"], ["needs"], ["broke"])
"""`the bicycle had a crack`."""
_WATCHED = frozenset({"front", "watched", "watching", "telly", "saw", "seeing", "coaching", "refereeing"})
"""`nodded off in front of the cricket`."""
_DURING = (["on", "the"], ["on", "that"], ["on", "my"], ["in", "the"], ["from", "the"], ["after", "the"])
_WHICH = frozenset({"last", "first", "second", "third", "final", "fourth", "penultimate"})
_BITS = frozenset({"bit", "bits", "part", "parts", "section", "sections", "stretches", "intervals", "segments"})


def _past(page: Page, act: int) -> bool:
    item = page.items[act]
    word = page.words[item.first]
    went = item.first > 0 and page.words[item.first - 1] == "went"
    return went or word.endswith("ed") or word in ("ran", "swam", "rode", "dug", "swept")


def _paired(page: Page, acts: Places, amounts: list[int]) -> Iterator[tuple[int, list[int]]]:
    """Each activity with the amounts on its side: `walk 20 run 10` or `20 walk 10 run`."""
    if amounts[0] < acts[0]:
        for before, act in zip((-1, *acts), acts, strict=False):
            yield act, [index for index in amounts if before < index < act]
        return
    groups = [
        [index for index in amounts if act < index < after]
        for act, after in zip(acts, (*acts[1:], len(page.line)), strict=True)
    ]
    for place, after in enumerate(acts[1:]):
        own, others = groups[place], groups[place + 1]
        minutes = [index for index in own if page.line[index] != Tag.DIST]
        if len(minutes) > 1 and own[-1] == after - 1 and not others:
            others.append(own.pop())
    yield from zip(acts, groups, strict=True)


_OPENERS = frozenset({Tag.SELF, Tag.IS, Tag.FILL, Tag.ABOUT, Tag.ONLY})


def _of_share(page: Page, clause: Clause, story: Story) -> Iterator[Entry]:
    index = clause.shares[0]
    item = page.items[index]
    settled = "sorted" in page.words[item.first : item.last + 1]
    if settled and (page.elsewhere or page.has(Key.DANGER)):
        return
    if settled and Tag.LONG_AGO in page.line[page.line.rfind(Tag.STOP, 0, clause.start) + 1 : clause.start]:
        return
    if clause.negs and clause.negs[0] < index:
        return
    opens = all(tag in _OPENERS for tag in page.line[clause.start : index])
    if page.line[index + 1 : index + 3] == Tag.OF + Tag.WORD and not clause.told and _of_another(page, index + 2):
        return
    if page.words[item.last] == "halfway" and not (
        clause.told or clause.sessions or opens or "got" in page.said(clause)
    ):
        return
    throughout = set(page.words[item.first : item.last + 1]) & {
        "way",
        "step",
        "throughout",
        "time",
    }
    if page.line[index - 2 : index] == Tag.SELF + Tag.WORD and page.words[item.first - 1] not in _DEEDS:
        return
    if clause.parts and not opens and not clause.told and item.n < 1:
        return
    said = clause.told or clause.sessions or clause.words <= 1 or item.n == 1.0 or opens
    if throughout and not clause.told and not clause.sessions and clause.end - clause.start > 1:
        return
    if opens and not clause.told and _place_of(page, clause, index):
        return
    if said and (story.last is None or story.last.on != story.day):
        yield entry_of(page, ON_FOOT.get(page.words[item.last], SESSION), [], index, share=item.n)


_DEEDS = frozenset({"make", "do", "finish", "managed", "nailed", "smashed", "covered", "completed", "got", "did"})


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
