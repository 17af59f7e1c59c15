"""Amounts without an activity: of the one told before, or of the session."""

from collections.abc import Iterator

from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.bare import MORE, is_the_plan, out_with
from bot.reading.rules.clauses import ENDS, Amount, Clause, opening
from bot.reading.rules.counted import is_own, of_a_day, stopped_there
from bot.reading.rules.entries import Entry, entry_of
from bot.reading.rules.kinds import SESSION
from bot.reading.rules.story import JOINED, Story
from bot.reading.rules.whose import told_of_others
from bot.reading.tags import Item, Tag, pattern

_BACK = frozenset({"back", "another", "more", "home", "extra", "again", "further", "later"})


def _repeated(last: Entry, entry: Entry) -> bool:
    """`I walked a mile. A mile!`"""
    return entry.amount and entry.minutes in (None, last.minutes) and entry.km in (None, last.km)


def _follows(page: Page, clause: Clause, last: Entry) -> bool:
    """Whether a clause goes on from the one before, if only as a sentence that begins with an amount."""
    if page.said(clause)[:1] == ["took"] and last.km is not None and last.minutes is None:
        return True
    lacks = last.minutes is None or (last.act != SESSION and last.km is None and clause.words == 0)
    if clause.joint in ENDS and not clause.told and clause.amounts[0] == clause.start and (lacks or not last.amount):
        return last.share is None or not clause.words
    return clause.joint in JOINED or (clause.joint in ENDS and not clause.words and not clause.told)


def of_amounts(page: Page, clause: Clause, amounts: list[int], story: Story) -> Iterator[Entry]:
    """Amounts without an activity: they belong to the one before, or to the session."""
    entry = entry_of(page, SESSION, amounts, amounts[0], total=clause.total)
    entry.until = bool(clause.stops)
    last = story.last
    plain = clause.words == 0 or not _BACK.isdisjoint(page.said(clause))
    echo = (
        clause.joint == Tag.COMMA
        and clause.end - clause.start == 1
        and page.line[clause.end : clause.end + 1] == Tag.STOP
    )
    if last is not None and (echo or clause.joint in (*ENDS, Tag.BECAUSE)) and plain and _repeated(last, entry):
        return
    if last is not None and last.rest and clause.total:
        yield entry
    elif last is not None and last.on == story.day and _in_all(page, last, entry, clause.total or _so(page, clause)):
        last.minutes = entry.minutes
    elif story.named is not None and _played(page, clause, story.named):
        entry.act = story.named.value
        yield entry
    elif story.machine is not None and page.said(clause)[-2:] == ["on", "it"]:
        entry.act = story.machine.value
        yield entry
    elif story.named is not None and _takes_up(page, clause, amounts[-1]):
        entry.act, story.open_act = (story.open_act or story.named).value, None
        if last is not None and last.act == entry.act and last.on == story.day:
            _lengthen(last, entry)
        else:
            yield entry
    elif story.open_act is not None and _of_open(page, clause, amounts[0], story.open_act.value, plain):
        entry.act, story.open_act = story.open_act.value, None
        yield entry
    elif last is not None and last.on != story.day and clause.joint in JOINED and not clause.words:
        entry.act = last.act
        yield entry
    elif entry.total and story.undivided:
        yield entry
    elif last is not None and last.on == story.day and _fills(page, clause, last, entry):
        _fill(last, entry)
    elif (
        last is not None
        and last.minutes is not None
        and clause.joint in JOINED
        and plain
        and (last.act != SESSION or not MORE.isdisjoint(page.said(clause)))
        and not clause.told
    ):
        last.minutes += entry.minutes or 0.0
        last.last = max(last.last, entry.last)
    elif (
        last is not None and last.km is not None and entry.km and clause.joint == Tag.AND and plain and not clause.told
    ):
        last.km += entry.km
    elif _session_said(page, clause, amounts):
        yield entry


def _played(page: Page, clause: Clause, named: Item) -> bool:
    """`the children wanted to play basketball, so I played with them for 45 minutes`."""
    return "played" in page.said(clause) and named.value == "games"


def _fills(page: Page, clause: Clause, last: Entry, entry: Entry) -> bool:
    """Whether a clause goes on from *last* and its *entry* gives what *last* lacks."""
    if not _follows(page, clause, last) or (clause.stops and not _lasted(page, clause)):
        return False
    return _completes(last, entry) and _brief(clause, last)


def _fill(last: Entry, entry: Entry) -> None:
    """Give *last* what it lacks."""
    last.minutes = last.minutes if last.minutes is not None else entry.minutes
    last.km = last.km if last.km is not None else entry.km
    last.share = None
    last.last = max(last.last, entry.last)


def _of_open(page: Page, clause: Clause, index: int, act: str, plain: bool) -> bool:
    """Whether an amount is of *act*, which was named without one: of a chore only if it opens its clause."""
    if clause.joint == Tag.COLON and index == opening(page, clause):
        return True
    if act == "house":
        return index == opening(page, clause) and not clause.told and not _idle(page, clause, index)
    return plain or clause.told or clause.words <= 2


def _lengthen(last: Entry, more: Entry) -> None:
    """Add *more* to *last*: how long it lasted, or another part of the way."""
    last.share = None
    if more.minutes is not None:
        last.minutes = (last.minutes or 0.0) + more.minutes
    if more.km is not None:
        last.km = (last.km or 0.0) + more.km


def _takes_up(page: Page, clause: Clause, index: int) -> bool:
    """`sore after the push ups, 10 min of em`, `after the bicycle, 30 minutes, ...`: of the activity just named."""
    if _after(page, clause, index) in _OF_THEM or page.said(clause)[:2] in (["which", "lasted"], ["which", "took"]):
        return True
    alone = clause.joint == Tag.COMMA and clause.end - clause.start == 1
    return alone and _AFTER_ACT.search(page.line[: clause.start]) is not None


_OF_THEM = (["of", "it"], ["of", "them"], ["of", "em"], ["of", "those"], ["of", "that"])
_AFTER_ACT = pattern("(?:AFTER (?:THE)? ACT|SHARE) COMMA $")


def _brief(clause: Clause, last: Entry) -> bool:
    return clause.words <= MOST_WORDS or (clause.joint in ENDS and not last.amount)


MOST_WORDS = 2


def _lasted(page: Page, clause: Clause) -> bool:
    return "lasted" in page.said(clause)


def _in_all(page: Page, last: Entry, entry: Entry, total: bool) -> bool:
    """`a stitch at 12, then finished the 20`: the whole session, not more of it."""
    part = last.act == SESSION and last.minutes is not None and entry.minutes is not None
    return part and (total or entry.minutes == page.planned_min) and (last.minutes or 0) < (entry.minutes or 0)


def _so(page: Page, clause: Clause) -> bool:
    """`and 4 extra so 29`: what it comes to."""
    named = clause.joint == Tag.BECAUSE and page.words[page.items[clause.start - 1].last] == "so"
    return named and clause.end - clause.start == 1


def _completes(last: Entry, entry: Entry) -> bool:
    """Whether *entry* gives what *last* lacks: the minutes of a distance, or the distance of minutes."""
    if last.act == SESSION and not last.amount:
        return False
    if last.act == "stretch" and last.amount:
        return False
    if not last.amount and (last.share is None or last.act != SESSION):
        return True
    if last.amount or last.share is None or last.act != SESSION:
        return (last.minutes is None and entry.km is None) or (last.km is None and entry.minutes is None)
    return False


_IT_WAS = Tag.IT + Tag.IS


def _session_said(page: Page, clause: Clause, amounts: list[int]) -> bool:
    """Whether amounts without an activity stand for the session."""
    if _idle(page, clause, amounts[0]) or _on_the_way(page, clause, amounts[0]):
        return False
    amount = Amount.at(page, clause, amounts[0])
    each = amount.next == Tag.EACH or of_a_day(amount) or is_own(amount) or amount.whole
    if clause.told or clause.sessions or not clause.words or each:
        return True
    leads = all(tag in _LEADS for tag in page.line[clause.start : amounts[0]])
    if (leads and clause.words <= 1) or stopped_there(amount):
        return True
    if is_the_plan(amount) or (leads and _AGAINST.match(page.line, amounts[0] + 1) is not None):
        return True
    if leads and (_out_there(page, clause, amounts[0]) or out_with(amount)):
        return True
    tags = {page.line[index] for index in amounts}
    line = page.line[clause.start : clause.end]
    it_was = line.removeprefix(Tag.DATE).startswith(_IT_WAS)
    if it_was and Tag.DUR in tags and clause.words <= 2 and "was" in page.said(clause)[1:3]:
        return ELSEWHERE.isdisjoint(_sentence_so_far(page, clause))
    ratio = Tag.RATIO in tags and (clause.words <= 1 or page.items[amounts[0]].m == page.planned_min)
    if ratio or Tag.DIST in tags or (Tag.CLOCKISH in tags and Tag.AT not in line):
        return True
    return Tag.DUR in tags and _nothing_against(page, clause, amounts[0])


LONGEST_UNSAID = 150
"""Minutes; longer ones are a session only if the reply says so."""
ELSEWHERE = listed("counted", "elsewhere")
"""Beside one of these minutes were spent on something else."""


def _nothing_against(page: Page, clause: Clause, index: int) -> bool:
    """Whether nothing but the session can have taken so long: `wind in my face all 30 min`."""
    item = page.items[index]
    if item.n > LONGEST_UNSAID or told_of_others(page, clause) or page.line[index] != Tag.DUR:
        return False
    said = set(_sentence_so_far(page, clause))
    said -= {"from"} if page.words[item.last + 1 : item.last + 3] == ["from", "me"] else set()
    if not ELSEWHERE.isdisjoint(said) or page.line[index - 1 : index] in (Tag.IN, Tag.AFTER, Tag.AGO):
        return False
    first, last = page.items[clause.start].first, page.items[clause.end - 1].last
    signs = [fact for fact in page.found if fact.key in (Key.DANGER, Key.ALARM, Key.PAST_DANGER)]
    if any(fact.first <= last and first <= fact.last for fact in signs):
        return False
    if is_of_a_thing(page, clause.start, index):
        return False
    before = page.words[first : item.first]
    if before[-2:-1] == ["like"] and before[-1] in ("it", "this", "that"):
        return False
    if before[-1:] in (["for"], ["about"], ["a"], ["the"]):
        before = before[:-1]
    after = page.words[item.last + 1 : item.last + 2]
    return not (before and before[-1].endswith(("ed", "ing"))) and after not in (["of"], ["s"], ["'s"])


def is_of_a_thing(page: Page, start: int, index: int) -> bool:
    """`the sermon was 40 minutes long`, `the bread proves 40 minutes`: the length of a thing named from *start* on."""
    line = page.line[start:index]
    if _WHAT_LASTS.match(line) is None or not _ON_FOOT.isdisjoint(
        page.words[page.items[start].first : page.items[index].first]
    ):
        return False
    return line.rstrip(Tag.ABOUT)[-1] == Tag.IS or page.words[page.items[index].first - 1] in _LASTS


_WHAT_LASTS = pattern("THE (?:WORD|FILL){1,4} IS? ABOUT? $")
_ON_FOOT = listed("places", "routes")
_LASTS = listed("counted", "lasts")


_WAYS = listed("places", "ways")


def _on_the_way(page: Page, clause: Clause, index: int) -> bool:
    """`bank holiday traffic, two hours to the coast`: a way that nobody walked."""
    if clause.joint == Tag.BECAUSE or page.line[index] == Tag.RATIO:
        return False
    return not clause.told and not clause.sessions and not _WAYS.isdisjoint(_sentence_so_far(page, clause))


def _sentence_so_far(page: Page, clause: Clause) -> list[str]:
    """The words of the sentence in which *clause* stands, up to its end."""
    return page.words[page.items[page.sentence_start(clause.start)].first : page.items[clause.end - 1].last + 1]


_LEADS = frozenset({Tag.FILL, Tag.ABOUT, Tag.ONLY, Tag.DATE, Tag.PARTDAY, Tag.COLON})
_AGAINST = pattern("BEFORE THE? WORD{1,2} (?:SELF|CHANGE|THE)")
"""`13 minutes before rain chased me home`."""
_ABOUT_PLACE = listed("places", "along")
_OUTSIDE = listed("places", "outside")
_WEAK = frozenset({"had", "have", "got", "spent", "took"})
"""These tell of time as well as of a session: "I've had half an hour in the armchair"."""
_IDLE_PLACES = listed("places", "idle")


def _after(page: Page, clause: Clause, index: int) -> list[str]:
    """The words of *clause* after the amount at *index*."""
    return page.words[page.items[index].last + 1 : page.items[clause.end - 1].last + 1]


def _idle(page: Page, clause: Clause, index: int) -> bool:
    """`2 hours in traffic`, `three hours delay`: time that was spent, but on no session."""
    after = _after(page, clause, index)
    before = page.words[page.items[clause.start].first : page.items[index].first]
    before = before[:-1] if before[-1:] in (["of"], ["about"]) else before
    other = before[-1:] in (["was"], ["is"], ["took"], ["lasted"]) and before[-2:-1] != [] and before[-2] in ELSEWHERE
    if other or after[:1] in (["delay"], ["delays"], ["wait"], ["late"]):
        return True
    told = clause.stops or any(page.words[page.items[place].last] not in _WEAK for place in clause.evidence)
    if not told and after[:1] in (["stood"], ["standing"], ["sat"], ["sitting"], ["driving"], ["queuing"]):
        return True
    placed = after[:1] in (["in"], ["on"], ["at"], ["of"]) and after[1:2] not in (["before"], ["after"])
    parked = {"car"} if "park" in after[2:5] else frozenset()
    long = page.items[index].n > LONGEST_UNSAID
    return (long or not told) and placed and bool(_IDLE_PLACES & set(after[1:4]) - parked)


def _out_there(page: Page, clause: Clause, index: int) -> bool:
    """`24 mins round the rec`, `40 minutes in the rain`: an amount that opens its clause, and where it was done."""
    after = _after(page, clause, index)
    others = any(page.line[place - 2 : place] not in _COMPANY for place in clause.others)
    if page.line[index] not in (Tag.DUR, Tag.DIST) or not after or clause.aches or others or clause.negs:
        return False
    if Tag.OFF in page.line[clause.start : clause.end]:
        return False
    weather = bool(_OUTSIDE & set(after)) and after[0] in ("in", "on", "with", "at")
    return weather or (after[0] in _ABOUT_PLACE and len(after) > 1)


_COMPANY = frozenset({Tag.FILL + Tag.WITH, Tag.WORD + Tag.WITH, Tag.THE + Tag.WITH})
