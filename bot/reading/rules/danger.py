"""Danger and alarm: the signs of the word lists, in the order of the lists."""

from datetime import date, timedelta
from itertools import pairwise

from bot.reading.bounds import SENTENCE_ENDS
from bot.reading.facts import PastDanger
from bot.reading.lexicon import Sign, excuses, groups, listed
from bot.reading.page import Found, Key, Page
from bot.reading.scope import TURNED, elsewhere, scope_of
from bot.reading.signs import Seen, heard, likely, looked_for, of_others, seen
from bot.reading.spots import Mention, masks_of, mentions_of, spots_of
from bot.reading.tags import Item, Letter, Tag
from bot.reading.when import past_day
from planning.terms.choices import Danger

PAST_DAYS = 14
"""A sign that is over is kept for so many days (common practice, no source)."""
_NUMBERED = frozenset({"sugar", "heart", "breath", "eating"})
"""Codes whose signs bring numbers of their own: blood sugar, heart rate, days without food."""
_PASSING = frozenset({"faint", "heat"})
"""Codes that are over if somebody says so of last week, last month or last year, without a day."""
_LASTING = frozenset({"eating", "self_harm"})
"""Codes that a good day does not end."""
_OVER = frozenset({"fine", "okay", "good", "gone", "better", "well", "grand", "normal", "nothing", "passed", "stopped"})
_SINCE = frozenset({"now", "today", "since", "again"})
_BETWEEN = frozenset(
    {"again", "all", "day", "right", "ever", "been", "is", "it", "i", "am", "feel", "feeling", "feels", "completely",
     "totally", "and", "then", "quite", "perfectly", "absolutely", "much", "back", "to", "have", "so", "far"}
)  # fmt: skip
"""What may stand between "fine" and "now"; "yesterday I was fine, now this" is not over."""
_NOT_OVER = frozenset({"still", "worse", "returned", "not", "no", "nearly", "almost", "until", "till"})


def danger(page: Page) -> None:
    """Find all signs of danger and alarm. They claim nothing: a sign may be a complaint too."""
    others: frozenset[int] = frozenset()
    over = others
    if page.there & TURNED:
        others, over = elsewhere(page.tokens, page.items)
        page.elsewhere = others | over
    words = heard(page.words)
    spots = spots_of(words, page.tokens, groups())
    *dangers, alarms = likely(spots)
    if not any(dangers) and not alarms:
        return
    away = spots_of(words, page.tokens, excuses(), idle=0)
    masks = masks_of(away)
    spots += away
    scope = scope_of(page.tokens, others, over)

    def mentions(signs: list[Sign]) -> dict[str, list[Mention]]:
        return mentions_of(spots, masks, looked_for(signs)) if signs else {}

    kept: set[str] = set()
    for signs in dangers:
        due = [sign for sign in signs if sign.code not in kept]
        for sign in seen(due, mentions(due), scope):
            _keep(page, sign, again=sign.sign.code in kept)
            kept.add(sign.sign.code)
    for sign in seen(alarms, mentions(alarms), scope):
        page.found.append(_found(Key.ALARM, sign.sign.code, sign))
    if scope.other:
        told = [sign for signs in dangers for sign in signs]
        for sign in of_others(told, mentions(told), scope, page.tokens):
            page.found.append(_found(Key.ALARM, "other", sign))
            return


def _keep(page: Page, sign: Seen, again: bool) -> None:
    """Keep *sign*; *again*: one of its code is kept already, so only its numbers count."""
    if _looked_at(page, sign):
        return
    if sign.sign.code in _PASSING and _long_over(page, sign):
        return
    day = _past_day(page, sign)
    if day is None and not again:
        page.found.append(_found(Key.DANGER, sign.sign.code, sign))
    elif day is not None:
        page.found.append(_found(Key.PAST_DANGER, PastDanger(Danger(sign.sign.code), day), sign))
    if sign.sign.code in _NUMBERED:
        page.signs |= frozenset(place for place in range(sign.first, sign.last + 1) if not _timed(page, sign, place))


_MOVED = listed("places", "moved")
_DID = frozenset({"did", "done", "walked", "ran", "jogged", "managed", "completed", "finished"})


def _timed(page: Page, sign: Seen, place: int) -> bool:
    """`did three minutes, then my sugar dropped`, `finished at 15 min and ...`: minutes of the session."""
    after = page.words[place + 1] if place + 1 < len(page.words) else ""
    stopped = page.words[max(0, place - 2) : place] in (["finished", "at"], ["stopped", "at"], ["stopped", "after"])
    if page.words[max(0, place - 1) : place] and page.words[place - 1] in _DID:
        return True
    moved = page.words[max(0, place - 1) : place] == ["for"] and not _MOVED.isdisjoint(
        page.words[max(0, place - 4) : place]
    )
    return (sign.sign.code == "sugar" or stopped or moved) and after in ("minutes", "minute")


def _found(key: Key, value: str | PastDanger, sign: Seen) -> Found:
    return Found(key, value, sign.first, sign.last, sign.sign.name)


def _looked_at(page: Page, sign: Seen) -> bool:
    """Whether a clinician checked a sign of some past time since and found nothing. Less is not enough."""
    if sign.sign.code in _LASTING or _looked_at_another(page, sign):
        return False
    words = set(page.words[sign.last + 1 :])
    if not (words & _CLINICIANS and words & _CHECKED and words & _FOUND_FINE) or words & _OPEN:
        return False
    return any(_is_past(page, item) for item in page.items if item.first <= sign.last + 6)


def _looked_at_another(page: Page, sign: Seen) -> bool:
    """`saw the nurse on monday for my jab`, `physio checked my knee last week`: a look at something else."""
    if _names_another(page, sign, frozenset({Tag.PART}), len(page.words)):
        return True
    return any(pair in _FOR_MY for pair in pairwise(page.words[sign.last + 1 :]))


_FOR_MY = frozenset({("for", "my"), ("about", "my"), ("for", "a"), ("about", "a"), ("about", "the"), ("for", "the")})


def _is_past(page: Page, item: Item) -> bool:
    if item.tag is not Tag.DATE:
        return " ".join(page.words[item.first : item.last + 1]) in _PAST_SPANS
    day = past_day(item, page.today)
    return day is not None and day < page.today


def _of_something_else(page: Page, sign: Seen, place: int) -> bool:
    """Whether the "fine" at token *place* is said of what is none of the sign's: a part, somebody, an illness ("my knee
    is fine now", "the dog was ill on monday, fine now")."""
    return _names_another(page, sign, _ELSE, place)


def _names_another(page: Page, sign: Seen, tags: frozenset[Letter], end: int) -> bool:
    """Whether an item of *tags* that is no word of *sign* stands after it, before token *end*."""
    own = page.words[sign.first : sign.last + 1]
    between = (item for item in page.items if sign.last < item.first < end and item.tag in tags)
    return any(page.words[item.first] not in own for item in between)


_ELSE = frozenset({Tag.PART, Tag.OTHER, Tag.ILL, Tag.FEVER, Tag.SENSE, Tag.GARMENT, Tag.ACT, Tag.OFF, Tag.MISS_IT})
_CLINICIANS = listed("clinicians", "both", "look")
_CHECKED = listed("clinicians", "checked")
_FOUND_FINE = listed("clinicians", "found_fine")
_OPEN = listed("clinicians", "still_open")
_PAST_SPANS = frozenset({"last week", "last weekend", "last month", "the other day", "the other week"})


def _long_over(page: Page, sign: Seen) -> bool:
    """`dizzy last month from the tablets, that's all sorted`: the month stands right after the sign, and no "today"."""
    after = page.words[sign.last + 1 :]
    spans = {" ".join(pair) for pair in pairwise(after[:_NEAR])}
    since = any(pair in _MONTHS_AGO_SINCE for pair in pairwise(after[:_NEAR]))
    now = since or not _THIS_DAY.isdisjoint(page.words) or not _STOPS.isdisjoint(after[:1])
    return bool(spans & _MONTHS_AGO) and not now and not _SETTLED.isdisjoint(after) and _NOT_OVER.isdisjoint(after)


_MONTHS_AGO_SINCE = frozenset((word, "last") for word in ("since", "all", "than", "as"))
"""`dizzy since last month`: still."""
_NEAR = 4
"""Words; the time of a sign follows it so soon."""
_STOPS = SENTENCE_ENDS | {","}
_THIS_DAY = frozenset({"today", "tonight", "again", "still", "ever", "started", "been", "on"})
"""With one of these a sign is not only of last week or last month."""


_MONTHS_AGO = frozenset({"last month", "last year", "last summer", "last winter", "last spring", "last autumn"})
_SETTLED = frozenset({"sorted", "fine", "gone", "okay"})


def _past_day(page: Page, sign: Seen) -> date | None:
    """The earlier day of a sign that is said to be over since; None if it is of today or not over."""
    if sign.sign.code in _LASTING or _of_today(page, sign) or not _said_over(page, sign):
        return None
    for item in page.items:
        since = item.first > 0 and page.words[item.first - 1] == "since"
        if item.tag is Tag.DATE and not since and item.first <= sign.last + 6:
            day = past_day(item, page.today)
            if day is not None and 0 < (page.today - day).days <= PAST_DAYS:
                return day
        near = sign.first - _NEAR <= item.first <= sign.last + _NEAR
        last_week = item.tag is Tag.SPAN and item.value == "last_week" and near and _THIS_DAY.isdisjoint(page.words)
        if last_week and sign.sign.code in _PASSING:
            return page.today - timedelta(days=7)
    return None


def _of_today(page: Page, sign: Seen) -> bool:
    """`heart racing at rest since this morning. Knee is fine again now`: it is told to be of today."""
    first = next((place for place in range(sign.first, 0, -1) if page.words[place - 1] in _ENDS), 0)
    said = page.words[first : sign.last + 2]
    return not _TODAY.isdisjoint(said) or any(pair in _THIS_MORNING for pair in pairwise(said))


_ENDS = frozenset({".", "!", "?"})
_TODAY = frozenset({"today", "tonight", "currently"})
_THIS_MORNING = frozenset({("this", "morning"), ("this", "evening"), ("this", "afternoon"), ("right", "now")})


def _said_over(page: Page, sign: Seen) -> bool:
    """Whether words after *sign* say that it is over by now: "fine now". In doubt it is not."""
    words = page.words[sign.last + 1 :]
    dated = {item.first - 1 - (sign.last + 1) for item in page.items if item.tag is Tag.DATE}
    ends = [place for place, word in enumerate(words) if word in _OVER]
    since = [place for place, word in enumerate(words) if word in _SINCE and place not in dated]
    for end in ends:
        denied = _NOT_OVER & set(words[max(0, end - 2) : end]) or _of_something_else(page, sign, sign.last + 1 + end)
        before = any(_BETWEEN.issuperset(set(words[place + 1 : end]) - {","}) for place in since if place < end)
        if not denied and (
            before or any(_BETWEEN.issuperset(words[end + 1 : place]) for place in since if place > end)
        ):
            return True
    return False
