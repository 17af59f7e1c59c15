"""Facts that one phrase or one number gives: effort, certainty, weight, mood, illness, tally, wishes."""

import re
from collections.abc import Iterable
from re import Match

from bot.reading.amounts import KG_PER_POUND
from bot.reading.facts import Asked, Want
from bot.reading.lexicon import listed
from bot.reading.page import Finding, Found, Key, Page, rule
from bot.reading.rules.clauses import JOINTS, REASONED
from bot.reading.tags import Item, Tag, pattern
from planning.terms.choices import Mood

_GRAVITY = (Want.LEAVE, Want.UNDO, Want.DATA, Want.CLEARED, Want.COACH, Want.PAUSE, Want.RESUME, Want.EASIER,
            Want.HARDER, Want.WHY, Want.REVIEW, Want.WEEK, Want.TODAY, Want.HELP)  # fmt: skip


def _ten(item: Item | None) -> float | None:
    """A rating of 0 to 10 from a bare number or from "6 of 10"."""
    if item is None:
        return None
    if item.tag is Tag.RATIO:
        return item.n if item.m == 10 and item.n <= 10 else None
    return item.n if 0 <= item.n <= 10 else None


def _effort_number(page: Page, hit: Match[str]) -> Iterable[Finding]:
    value = _ten(page.first(hit, Tag.NUM, Tag.ONE, Tag.RATIO))
    key = page.first(hit, Tag.EFFORT_KEY)
    weak = key is not None and key.value == "weak"
    number = page.first(hit, Tag.ONE)
    if number is not None and page.first(hit, Tag.WORD) is not None and page.words[number.first] == "one":
        return
    if weak and page.asked in (Asked.SURE, Asked.PAIN):
        return
    if value is not None and not (weak and any(tag in page.line for tag in (Tag.PART, Tag.SENSE, Tag.SURE_KEY))):
        yield Key.EFFORT, value


def _sure_number(page: Page, hit: Match[str]) -> Iterable[Finding]:
    value = _ten(page.first(hit, Tag.NUM, Tag.ONE, Tag.RATIO))
    if value is not None:
        yield Key.SURE, value


def _sure_share(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`90% sure` is nine of ten."""
    share = page.first(hit, Tag.SHARE)
    if share is not None:
        yield Key.SURE, round(share.n * 10, 1)


def _of_ten(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`tough one, 8/10`: numbers win."""
    ratio = page.first(hit, Tag.RATIO)
    clause = re.split(JOINTS, page.line[: hit.start()])[-1]
    if ratio is not None and ratio.m == 10 and not {Tag.PART, Tag.SENSE, Tag.SURE_KEY} & set(clause):
        yield Key.EFFORT, ratio.n


def _effort_word(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.EFFORT)
    if word is not None and not page.has(Key.EFFORT) and not _of_something_else(page, hit.start()):
        yield Key.EFFORT, word.n


_ELSE = listed("effort", "of_something_else")
_DEGREES = frozenset({"more", "too", "less"})
_SESSION_WORDS = frozenset({"session", "run", "walk", "workout", "it", "that", "this", "training", "jog", "effort"})


def _of_something_else(page: Page, start: int) -> bool:
    """Whether an effort word is denied ("not hard") or said of work, the week, the weather."""
    if Tag.NEG in page.line[max(0, start - 2) : start] or Tag.LONG_AGO in page.line[max(0, start - 4) : start]:
        return True
    first = page.items[start].first
    before = page.words[max(0, first - 5) : first]
    ends = [place for place, word in enumerate(before) if word in (".", "!", "?", "but")]
    before = before[ends[-1] + 1 :] if ends else before
    if before[-1:] and before[-1] in _DEGREES and any(fact.value in ("easier", "harder") for fact in page.found):
        return True
    clause = re.split(REASONED, page.line[:start])[-1]
    told = max(clause.rfind(tag) for tag in (Tag.NUM, Tag.DUR, Tag.DIST))
    if Tag.PART in clause[told + 1 :] or (
        _others_said(page, start, clause) and Tag.ACT not in clause and Tag.SESSION not in clause
    ):
        return True
    subject = next((word for word in reversed(before) if word in _ELSE or word in _SESSION_WORDS or word == ","), "")
    return subject in _ELSE


def _others_said(page: Page, start: int, clause: str) -> bool:
    """Whether *clause*, which ends before item *start*, speaks of somebody; "they" may be the minutes."""
    others = (page.items[place] for place in range(start - len(clause), start) if page.line[place] == Tag.OTHER)
    return any(page.words[item.last] != "they" for item in others)


def _weight(page: Page, hit: Match[str]) -> Iterable[Finding]:
    mass = page.first(hit, Tag.MASS)
    after = page.words[page.items[hit.end()].first] if page.line[hit.end() : hit.end() + 1] == Tag.WORD else ""
    if after.endswith("s") and after not in _NO_THINGS:
        return
    if mass is not None and 25 <= mass.n <= 400:
        yield Key.WEIGHT, round(mass.n, 2)


_NO_THINGS = frozenset({"this", "lbs", "is", "was", "yes", "thanks", "always", "as"})
"""After a mass other words in -s name what weighs so much: "16 stone patients"."""


def _weight_number(page: Page, hit: Match[str]) -> Iterable[Finding]:
    number = page.first(hit, Tag.NUM)
    if number is None:
        return
    kg = number.n * KG_PER_POUND if _POUNDS & set(page.words) else number.n
    if 30 <= kg <= 300:
        yield Key.WEIGHT, round(kg, 2)


def _after_change(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`down 3 lbs, now 198`: in the unit of the change."""
    mass, number = page.first(hit, Tag.MASS), page.first(hit, Tag.NUM)
    if mass is None or number is None or mass.value not in _UNIT_KG:
        return
    kg = number.n * _UNIT_KG[mass.value]
    if 30 <= kg <= 300:
        yield Key.WEIGHT, round(kg, 2)


_UNIT_KG = {"kg": 1.0, "lb": KG_PER_POUND}
_POUNDS = frozenset({"lb", "lbs", "pounds"})


def _mood(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.MOOD)
    before = re.split(JOINTS, page.line[: hit.start()])[-1]
    if word is None or (word.value == "good" and Tag.NEG in before[-3:]):
        return
    if page.has(Key.ILL) and page.words[word.last] in _POORLY:
        return
    if Tag.PLAN in before[-2:]:
        return
    if Tag.QUEST in before and "which" in page.words[: word.first]:
        return
    if word.first == word.last and _of_a_thing(page, hit.start()):
        return
    if page.words[word.first] in ("is", "was", "were") and _A_NOUN.search(page.line[: hit.start()]):
        noun = page.words[page.items[hit.start() - 1].last]
        if noun not in _FEELINGS:
            return
    yield Key.MOOD, Mood(word.value)


_A_NOUN = pattern("(?:^|[STOP COMMA AND BECAUSE BUT]) THE WORD $")
"""`my playlist was great`: said of a thing."""
_BEFORE_NOUN = frozenset(
    {Tag.THE, Tag.ONE, Tag.NUM, Tag.WORD, Tag.OTHER, Tag.OF, Tag.WITH, Tag.FROM, Tag.TO, Tag.BY, Tag.FOR, Tag.AT}
)
_FEELINGS = listed("mood", "feelings")


def _of_a_thing(page: Page, index: int) -> bool:
    """`two crying toddlers`: a word of feeling that only describes what comes after it."""
    if _OF_IT.search(page.line[:index]) or _word_before(page, index) in _SEEMS:
        return True
    before = page.line[index - 1 : index]
    if (
        before == Tag.COMMA
        and _A_THING.match(page.line, index + 1)
        and page.words[page.items[index + 1].first] not in _FEELINGS
    ):
        return True
    if before not in _BEFORE_NOUN or page.line[index + 1 : index + 2] != Tag.WORD:
        return False
    return page.words[page.items[index + 1].first] not in _FEELINGS


_A_THING = pattern("[WORD GARMENT] [COMMA STOP]")
"""`blistered heel, rubbish socks, ...`."""
_OF_IT = pattern("THE [WORD GARMENT]{1,3} IS (?:FILL)* $")
"""The weather was, the roses are: what comes next is said of a thing."""
_SEEMS = frozenset({"look", "looks", "looked", "smell", "smells", "smelled", "smelt", "taste", "tastes", "tasted"})


def _word_before(page: Page, index: int) -> str:
    first = page.items[index].first
    return page.words[first - 1] if first else ""


_POORLY = listed("mood", "poorly")
"""Beside an illness these say how the body feels."""


def _ill(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.ILL)
    if word is not None and word.value == "symptom" and _explained(page):
        return
    yield Key.ILL, True
    if page.first(hit, Tag.FEVER):
        yield Key.FEVER, True


def _fever_of(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`fever, 38.9`: degrees, and no minutes."""
    number = page.first(hit, Tag.NUM)
    if number is not None and is_fever(number.n + SLIGHT):
        page.claim(hit.start() + 1, hit.end())
    return ()


def _degrees(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`39 fever`, and not "walked 8, fever since"."""
    number = page.first(hit, Tag.NUM)
    if number is not None and is_fever(number.n + SLIGHT):
        page.claim(hit.start(), hit.end())
    return ()


SLIGHT = 0.5
"""Beside the word "fever" so much less is a temperature too."""
FEVER_C, FEVER_F = (37.5, 42.5), (99.5, 108.0)
"""Degrees that a thermometer shows in a fever, slight ones too (common practice, no source)."""


def is_fever(degrees: float) -> bool:
    """Whether a body temperature is a fever, be it in Celsius or in Fahrenheit."""
    return any(low <= degrees <= high for low, high in (FEVER_C, FEVER_F))


def _explained(page: Page) -> bool:
    """Whether sickness is already told as a sign of heat or of purging."""
    return any(fact.key is Key.DANGER and fact.value in ("heat", "eating") for fact in page.found)


def _not_ill(_page: Page, _hit: Match[str]) -> Iterable[Finding]:
    yield Key.WELL, None


def _well(page: Page, hit: Match[str]) -> Iterable[Finding]:
    denied = Tag.NEG in page.line[max(0, hit.start() - 2) : hit.start()]
    if not denied and page.items[hit.start()].first not in page.elsewhere:
        yield Key.WELL, True
        return
    yield Key.ILL, True


def _nothing(page: Page, hit: Match[str]) -> Iterable[Finding]:
    page.claim(hit.start(), hit.end())
    return ()


def _want(page: Page, hit: Match[str]) -> Iterable[Finding]:
    word = page.first(hit, Tag.WANT)
    theirs = Tag.OTHER in page.line[max(0, hit.start() - 2) : hit.start()]
    if word is not None and word.value == "leave" and _for_some_days(page, word, hit.end()):
        return
    if word is not None and not (theirs and word.value in ("harder", "easier")) and not _only_a_word(page, hit.start()):
        yield Key.WANTS, word.value


def _for_some_days(page: Page, word: Item, end: int) -> bool:
    """`leave me alone from Boxing Day`, `stop it all from the 20th`: days off, and not "stop all messages from ..."."""
    said = page.words[word.first : word.last + 1]
    return _FROM_A_DAY.match(page.line, end) is not None and (said[-1] == "alone" or said[-2:] == ["it", "all"])


_FROM_A_DAY = pattern("[FROM UNTIL] THE? DATE")
ONE_WORD = 4
"""A sentence of so many items may be a request of one word."""
_ASKING = frozenset(
    {"please", "can", "could", "would", "want", "need", "give", "make", "may", "like", "let", "send", "show", "get",
     "undo", "unpause", "resume", "sorry", "oops"}
)  # fmt: skip


def _only_a_word(page: Page, index: int) -> bool:
    """`heaven help us all, I did it`: one word that could be a wish, in a sentence that asks for nothing."""
    item = page.items[index]
    opens = not index or page.line[index - 1] in (Tag.STOP, Tag.ASK)
    if opens and page.words[item.first] in ("why", "help"):
        return False
    if item.first != item.last or page.words[item.first] in _ASKING:
        return False
    if page.words[max(0, item.first - 2) : item.first] in _TO_DO:
        return True
    start = page.sentence_start(index)
    end = page.sentence_end(index)
    words = set(page.words[page.items[start].first : page.items[end - 1].last + 1])
    asked = page.line[end : end + 1] == Tag.ASK
    return end - start > ONE_WORD and not asked and not words & _ASKING


_TO_DO = (["promised", "to"], ["have", "to"], ["had", "to"], ["got", "to"], ["going", "to"], ["used", "to"])
"""Before a word: "I promised to help at the fair"."""
_CLINICIANS = listed("clinicians", "both", "clear")
_ALLOWS = listed("clinicians", "allows")
_TRAINING = listed("clinicians", "training")


def clearance(page: Page) -> None:
    """`the doctor said that I can train again`: a clinician, a word that allows, and what it allows."""
    words = page.words
    if _CLINICIANS.isdisjoint(words):
        return
    for place, word in enumerate(words):
        if word not in _CLINICIANS:
            continue
        told = words[place + 1 : place + 13]
        allow = next((i for i, each in enumerate(told) if each in _ALLOWS), None)
        allowed = allow is not None and _TRAINING & set(told[max(0, allow - 3) : allow])
        if allow is None or {"not", "no", "if", "ask", "before", "until"} & set(told[: allow + 2]):
            continue
        wished = {fact.value for fact in page.found if fact.key is Key.WANTS}
        if (allowed or _TRAINING & set(told[allow + 1 : allow + 6])) and wished <= {"resume"}:
            page.found.append(Found(Key.WANTS, "cleared", place, place + 1 + allow, "clinician allows"))


def gravest(wants: Iterable[str]) -> Want:
    """The one wish that counts if several were said."""
    return min((Want(each) for each in wants), key=_GRAVITY.index)


N = "[NUM ONE RATIO]"
WANTS = (rule("wish", "WANT", _want),)
RATINGS = (
    rule(
        "effort then number",
        f"EFFORT_KEY BUT? (?:IS|IT|ABOUT|COLON|DASH|OF|FILL|WORD|AT|THE|ASK|SELF){{0,3}} {N} (?!UNIT)",
        _effort_number,
    ),
    rule(
        "number then effort",
        f"{N} (?:OF|FILL|FOR|ON|IN|THE|ABOUT|COMMA){{0,2}} EFFORT_KEY(?! (?:IS|COLON|FILL)? [EFFORT NUM RATIO])",
        _effort_number,
    ),
    rule(
        "effort word and number",
        "EFFORT (?:ONE|SESSION|WORD)? COMMA? (?:ABOUT|FILL|THE)* RATIO (?!FILL? SURE_KEY)",
        _of_ten,
    ),
    rule("number and effort word", "RATIO COMMA? (?:ABOUT|FILL|THE)* EFFORT", _of_ten),
    rule("number then sure", f"{N} (?:OF|FILL|FOR|ON|IN|THE|ABOUT){{0,2}} SURE_KEY", _sure_number),
    rule(
        "sure then number",
        f"SURE_KEY (?:FOR THE? [MOVE ONE SESSION DATE])? (?:IS|IT|ABOUT|COLON|DASH|OF|FILL|AT|THE){{0,3}} {N} (?!UNIT)",
        _sure_number,
    ),
)
SURE_SHARES = (
    rule(
        "how sure, then number",
        "SURE_KEY (?:SELF|IS|FILL|ABOUT|WORD){0,4} [STOP COMMA] "
        f"(?:SELF|FILL|IS|EFFORT_KEY|PLAN|WORD|ABOUT|THE){{0,4}} {N} (?!UNIT)",
        _sure_number,
    ),
    rule("percent sure", "SHARE (?:FILL)? SURE_KEY", _sure_share),
)
EFFORTS = (rule("effort word", "EFFORT", _effort_word),)
WEIGHTS = (
    rule(
        "weight after a change",
        "CHANGE (?:ABOUT|FILL|THE|ONLY|WORD|BY){0,2} MASS (?:COMMA|AND|FILL|AT|TO){1,3} NUM (?!UNIT)",
        _after_change,
    ),
    rule("change of weight", "CHANGE (?:ABOUT|FILL|THE|ONLY|WORD|BY){0,2} MASS", _nothing),
    rule("change of weight", "MASS (?:FILL|IN|THE|WORD){0,1} CHANGE", _nothing),
    rule("weight", "(?:WEIGH NEAR{0,4})? MASS (?:FROM NUM (?!UNIT))?", _weight),
    rule(
        "number on the scales",
        "(?<!PLAN)(?<!PLAN WORD)NUM (?:ON|FILL|PARTDAY|DATE){0,2} (?:THE|WORD){0,2} WEIGH "
        "(?=END|AND|FILL|DATE|PARTDAY)",
        _weight_number,
    ),
    rule(
        "weight without unit",
        "WEIGH (?:IS|AT|ABOUT|FILL|COLON|THE|WORD|IN|DATE|PARTDAY|IT|SELF){0,4} NUM (?!UNIT|OF|SLASH)",
        _weight_number,
    ),
)
MOODS = (rule("feeling", "MOOD", _mood),)
HEALTH = (
    rule("fever of so much", "FEVER COMMA NUM (?!ACT|DONE|UNIT|OF)", _fever_of, claims=False),
    rule("so much fever", "NUM (?=FEVER)", _degrees, claims=False),
    rule("illness over", "RECOVERED", _well),
    rule("no fever", "NEG (?:ABOUT|FILL|THE|IS|HAVE|MORE){0,3} (?:FEVER|ILL)", _not_ill),
    rule(
        "fever",
        "(?:NUM (?:DEGREE|UNIT) OF?|NUM OF)? FEVER (?:(?:OF|IS|AT|ABOUT|FILL|THE|BY|DATE){0,2} (?:NUM|DEGREE))?",
        _ill,
    ),
    rule("ill", "ILL", _ill),
)
