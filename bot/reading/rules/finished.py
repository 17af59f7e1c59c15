"""Whether a clause says that all of the session was done: "done", "finished it", a tick."""

from bot.reading.facts import Asked
from bot.reading.lexicon import listed
from bot.reading.page import Key, Page
from bot.reading.rules.clauses import Clause
from bot.reading.tags import Tag, pattern

_FINISHED = listed("finished", "finished")


def is_finish(page: Page, index: int) -> bool:
    """Whether the item at *index* says that something is finished."""
    if page.line[index] in (Tag.TICK, Tag.WHOLE):
        return True
    made = page.words[max(0, page.items[index].last - 1) : page.items[index].last + 1] in _MADE
    return made or page.words[page.items[index].last] in _FINISHED


_MADE = (["is", "made"], ["was", "made"], ["are", "made"])
"""As learners put it: "the walk is made"."""


def of_another_time(page: Page, clause: Clause) -> bool:
    """`as I finished`, `before it's done`, `I finished an hour ago`: says when, not what was done."""
    index = clause.evidence[0]
    if "ago" in page.said(clause) and not clause.sessions:
        return True
    lead = page.items[clause.start - 1].first if clause.joint == Tag.BECAUSE else page.items[clause.start].first
    first = page.items[index].first
    return not _CONJUNCTIONS.isdisjoint(page.words[max(lead, first - 3) : first])


_CONJUNCTIONS = frozenset({"when", "while", "as", "since", "before", "until", "once", "till"})


_CHORE = pattern("HAVE THE WORD [WHOLE DONE]|THE WORD WHOLE|OFF WHOLE|WHOLE WORD|WORD IS WHOLE")
LAPS = listed("finished", "laps")


def _chore(page: Page, clause: Clause) -> bool:
    """`the washing is done`, `my holiday is finished`, `I've finished sulking`."""
    hit = _CHORE.search(page.line, clause.start, clause.end)
    if hit is None or Tag.WORD not in hit[0]:
        return hit is not None
    if hit[0][-1] == Tag.WORD:
        return page.words[page.items[hit.start() + 1].last].endswith("ing")
    return page.words[page.items[hit.start() + (hit[0][0] == Tag.THE)].last] not in LAPS


_CHORES = listed("counted", "chores")
_WHEN = frozenset(
    {"between", "before", "after", "during", "despite", "while", "amid", "ahead", "straight", "over", "early"}
)


def _of_chores(page: Page, clause: Clause) -> bool:
    """`the dishes are done`, `done with the ironing`, and not "done before dinner"."""
    words = page.said(clause)
    when = next((place for place, word in enumerate(words) if word in _WHEN), len(words))
    return not _CHORES.isdisjoint(words[:when])


def says_whole(page: Page, clause: Clause) -> bool:
    """Whether a clause says of the whole session that it was done."""
    if not clause.evidence or (not clause.sessions and _of_chores(page, clause)):
        return False
    counted = page.has(Key.TALLY) and Tag.USED in page.line[clause.start : clause.end]
    if counted or _chore(page, clause):
        return False
    tags = {page.line[index] for index in clause.evidence}
    if Tag.TICK in tags and page.asked is Asked.PAIN:
        return False
    named = Tag.PART in page.line[clause.start : clause.evidence[0]]
    if Tag.WHOLE in tags or (Tag.TICK in tags and not named):
        return True
    if _opens(page, clause) or _of_the_session(page, clause):
        return True
    if clause.words > 1 or clause.aches:
        return False
    return any(is_finish(page, index) for index in clause.evidence) or bool(clause.sessions)


def _opens(page: Page, clause: Clause) -> bool:
    """`done between nursery drop and the 9.30 call`: the reply begins with it, and goes on with when."""
    first = page.items[clause.start]
    if clause.start or clause.aches or page.words[first.last] not in ("done", "finished", "completed"):
        return False
    after = page.words[first.last + 1 : first.last + 2]
    return (bool(after) and after[0] in _WHEN) or _IN_A_GAP.match(page.line, 1) is not None


def _of_the_session(page: Page, clause: Clause) -> bool:
    """`I finished the training before the first prayer`."""
    index = clause.evidence[0]
    return is_finish(page, index) and page.line[index + 1 : index + 2] == Tag.SESSION and not clause.aches


_IN_A_GAP = pattern("IN THE? SPARE|[IN AT WITH ON] [THE ONE] [WORD SKY PLACE FILL PARTDAY]")
