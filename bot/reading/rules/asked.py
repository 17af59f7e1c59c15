"""The open question: what a bare number, yes or no answers."""

from bot.reading.facts import Asked, Did
from bot.reading.page import Key, Page
from bot.reading.rules.clauses import REASONED
from bot.reading.tags import Tag
from planning.terms.choices import Activity, Part

ANSWER = "answer"
"""Name of the rule: a number that answers the open question."""
_NUMBERS = (Tag.NUM, Tag.ONE)


def asked(page: Page) -> None:
    """Read *page* as an answer to the open question, before the other rules."""
    question = page.asked
    if question is None:
        return
    rated = question in (Asked.EFFORT, Asked.SURE)
    index = next(
        (
            i
            for i, tag in enumerate(page.line)
            if (tag in _NUMBERS or tag == Tag.RATIO)
            and page.line[i + 1 : i + 2] != Tag.TIMES
            and not (rated and _of_something_named(page, i))
        ),
        None,
    )
    ratio = index is not None and page.line[index] == Tag.RATIO
    if rated and index is not None:
        item = page.items[index]
        if (ratio and item.m == 10) or (not ratio and 0 <= item.n <= 10 and not page.has(Key.EFFORT, Key.SURE)):
            _take(page, Key.EFFORT if question is Asked.EFFORT else Key.SURE, item.n, index)
    elif question is Asked.SURE and Tag.SHARE in page.line and not page.has(Key.SURE):
        place = page.line.index(Tag.SHARE)
        _take(page, Key.SURE, round(page.items[place].n * 10, 1), place)
    elif question is Asked.WEIGHT and index is not None and not ratio and not page.has(Key.WEIGHT):
        if 30 <= page.items[index].n <= 300:
            _take(page, Key.WEIGHT, round(page.items[index].n, 2), index)
    elif question is Asked.PAIN and index is not None and not ratio and page.items[index].n <= 10:
        _level(page, index)
    elif question is Asked.TIME:
        index = next((i for i, tag in enumerate(page.line) if tag in (Tag.NUM, Tag.DUR)), None)
        if index is not None and page.items[index].n >= 0:
            _take(page, Key.HAVE, page.items[index].n, index)


_NAMED = frozenset({Tag.ACT, Tag.PART, Tag.SENSE, Tag.STOPPED})
_SAID_OF = frozenset({Tag.IS, Tag.COLON, Tag.ABOUT, Tag.EFFORT_KEY, Tag.SURE_KEY, Tag.AT})


def _of_something_named(page: Page, index: int) -> bool:
    """Whether the number is of an activity or a complaint named before it in its clause ("left knee hurts 3/10")."""
    clause = REASONED.split(page.line[:index])[-1]
    if Tag.PART in clause or Tag.SENSE in clause:
        return True
    return bool(_NAMED & set(clause)) and clause[-1] not in _SAID_OF


def _level(page: Page, index: int) -> None:
    """A bare number after a question about pain: the level of the part that is named, else nothing."""
    if Tag.PART in page.line:
        item = page.items[index]
        page.items[index] = item._replace(tag=Tag.RATIO, m=10.0)
        page.line = page.line[:index] + Tag.RATIO + page.line[index + 1 :]
    elif not any(tag in page.line for tag in (Tag.ACT, Tag.DONE, Tag.UNIT)):
        page.claim(index, index + 1)


def _take(page: Page, key: Key, value: float, index: int) -> None:
    page.add(key, value, index, index + 1, ANSWER)
    page.claim(index, index + 1)


def yes_or_no(page: Page) -> None:
    """A bare yes or no, after the other rules have had their say."""
    if page.asked is not Asked.DONE and page.asked is not Asked.PAIN:
        return
    index = next(
        (i for i, item in enumerate(page.items) if item.tag not in (Tag.FILL, Tag.WORD, Tag.COMMA, Tag.STOP, Tag.SELF)),
        None,
    )
    if index is None:
        return
    tag = page.items[index].tag
    if page.asked is Asked.DONE and tag in (Tag.YES, Tag.TICK) and page.line[index + 1 : index + 2] == Tag.AND:
        _beside_it(page, index)
    if page.asked is Asked.DONE and not page.has(Key.DID, Key.MISSED):
        did = tag is Tag.DONE and page.words[page.items[index].last] == "did"
        everything = tag is Tag.PART and page.words[page.items[index].last] == "everything"
        did = did or (everything and Tag.SENSE not in page.there)
        if tag in (Tag.YES, Tag.TICK) or did:
            page.add(Key.DID, Did(Activity.SESSION, share=1.0), index, index + 1, "yes")
        elif tag in (Tag.NO, Tag.NEG, Tag.INSTEAD):
            page.add(Key.MISSED, True, index, index + 1, "no")
    elif page.asked is Asked.PAIN and not page.has(Key.BODY, Key.CLEAR):
        gone = tag is Tag.WELL and page.words[page.items[index].last] not in _NOT_QUITE
        if tag in (Tag.NO, Tag.NEG) or gone:
            page.add(Key.CLEAR, Part.BODY.value, index, index + 1, "no")


def _beside_it(page: Page, index: int) -> None:
    """`yes plus 10 min yoga`: the session, and more of another kind."""
    told = [fact.value.kind for fact in page.found if isinstance(fact.value, Did)]
    if told and _ON_FOOT.isdisjoint(told) and not page.has(Key.MISSED):
        page.add(Key.DID, Did(Activity.SESSION, share=1.0), index, index + 1, "yes")


_ON_FOOT = frozenset({Activity.SESSION, Activity.WALK, Activity.RUN, Activity.RUN_WALK})
_NOT_QUITE = frozenset({"better", "great", "happy", "good"})
"""After a question about pain these may speak of the session, or of less pain than before."""
