"""Sessions that were not done, and amounts that only look like something done."""

import re
from collections.abc import Iterable
from re import Match

from bot.reading.facts import Asked
from bot.reading.lexicon import listed
from bot.reading.page import Finding, Key, Page, rule
from bot.reading.rules.clauses import JOINTS
from bot.reading.rules.unmissed import is_no_miss
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import past_day


def _missed(page: Page, hit: Match[str]) -> Iterable[Finding]:
    if is_no_miss(page, hit):
        return
    stretch = _BUT_NO_STRETCH.match(page.line, hit.end())
    if stretch is not None and page.items[stretch.end() - 1].value == "stretch":
        page.claim(hit.start(), stretch.end())
        return
    item = page.first(hit, Tag.DATE) or _day_before(page, hit.start()) or _day_of_sentence(page, hit.start())
    day = past_day(item, page.today) if item else None
    yield Key.MISSED, day if day is not None and day != page.today else True


_BUT_NO_STRETCH = pattern("THE? ACT")
"""`I did not do the stretches, only the walking`."""
_REASON = pattern("(?<!SINCE)DATE BECAUSE $")
"""`too hot yesterday so i didn't go`."""


def _day_before(page: Page, start: int) -> Item | None:
    """The day of "stayed in bed yesterday and skipped it", "in bed all saturday so no session"."""
    lead = page.line[:start].rstrip(Tag.SELF + Tag.FILL)
    so = lead.endswith(Tag.ABOUT + Tag.DATE + Tag.BECAUSE) and page.words[page.items[len(lead) - 1].last] == "so"
    reason = _REASON.search(lead) is not None and page.words[page.items[len(lead) - 1].first] == "so"
    reason = reason and "night" not in page.words[: page.items[len(lead) - 1].first]
    if not (so or reason or lead.endswith(Tag.AND)) or lead[-2:-1] != Tag.DATE or lead[-3:-2] == Tag.SINCE:
        return None
    return page.items[len(lead) - 2]


def _day_of_sentence(page: Page, start: int) -> Item | None:
    """The one day with which a sentence begins ("Yesterday was a birthday, and so I did not do it"), or on which it
    was meant to be done."""
    first = page.sentence_start(start)
    places = [place for place in range(first, start) if page.line[place] == Tag.DATE]
    if len(places) != 1 or Tag.PARTDAY in page.line[first:start] or page.line[places[0] - 1 : places[0]] == Tag.SINCE:
        return None
    if page.line[places[0] + 1 : places[0] + 3] == Tag.IS + Tag.SESSION:
        return page.items[places[0]]
    opens = page.line[first : places[0]].strip(Tag.FILL + Tag.ON + Tag.COMMA) == ""
    opens = opens or _ALL_OF_IT.search(page.line[first : places[0]]) is not None
    return page.items[places[0]] if opens or Tag.INTENDED in page.line[first : places[0]] else None


_ALL_OF_IT = pattern("ABOUT OF? $")
"""`on the sofa all of Sunday, the session never happened`."""


def _nothing_that_day(page: Page, hit: Match[str]) -> Iterable[Finding]:
    if page.asked is Asked.PAIN:
        return
    word = page.first(hit, Tag.NEG)
    if Tag.OR in page.line[max(0, hit.start() - 2) : hit.end()]:
        return
    if word is not None and page.words[word.first] in ("nothing", "none", "zero", "zip", "nil", "naught"):
        yield from _missed(page, hit)


def _did_not(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`I didn't`, and no more; not "my watch died but I didn't, did all 28"."""
    word = page.first(hit, Tag.DONE)
    if page.line[hit.end() : hit.end() + 2] == Tag.COMMA + Tag.DONE:
        return
    if word is not None and page.words[word.first] == "did":
        yield from _missed(page, hit)


def _could_not(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`couldn't do thursday's`: a day that is past or today, and none that lies ahead."""
    word, item = page.first(hit, Tag.PLAN), page.first(hit, Tag.DATE)
    if word is None or item is None or page.words[word.last] != "could":
        return
    if past_day(item, page.today) is not None:
        yield from _missed(page, hit)


def _skipped(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """Skipping a walk or run is a miss; skipping the stretch is nothing."""
    act = page.first(hit, Tag.ACT)
    bits = act is not None and page.words[act.last] in ("bit", "bits", "part", "parts")
    if act is not None and act.value in ("run", "walk") and not bits:
        yield from _missed(page, hit)
        return
    page.claim(hit.start(), hit.end())


def _learners_miss(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`yesterday I don't go`: of a day that has passed."""
    verb, item = page.words[page.items[hit.end() - 1].last], page.first(hit, Tag.DATE)
    past = item is not None and past_day(item, page.today) is not None
    if past and verb in ("go", "run", "walk", "train", "exercise", "start") and "do" in page.words:
        yield from _missed(page, hit)


def _not_got(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`did not get my run in`."""
    word = page.first(hit, Tag.WORD)
    if word is not None and page.words[word.last] in ("get", "fit", "squeeze", "make", "manage"):
        yield from _missed(page, hit)


def _given(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`gave yesterday a miss`."""
    first, last = page.items[hit.start()].first, page.items[hit.end() - 1].last
    if page.words[first] in ("gave", "given", "give", "giving") and page.words[last] in ("miss", "swerve", "skip"):
        yield from _missed(page, hit)


def _none_of_it(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`0 min today`."""
    amount = page.first(hit, Tag.NUM, Tag.DUR)
    if amount is not None and amount.n == 0 and page.asked in (None, Asked.DONE):
        yield from _missed(page, hit)


def _no_machine(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`load shedding so no treadmill`: says nothing of the session."""
    if page.words[page.items[hit.end() - 1].last] == "treadmill":
        page.claim(hit.start(), hit.end())
    return ()


def _score(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`we lost 3-1 at home`, `6-2 to us`."""
    first, last = page.items[hit.start()].first, page.items[hit.end() - 1].last
    won = page.words[last + 1 : last + 3] in (["to", "us"], ["to", "them"], ["to", "the"])
    if won or not _PLAYED.isdisjoint(page.words[max(0, first - 3) : first]):
        page.claim(hit.start(), hit.end())
    return ()


_PLAYED = listed("missed", "played")


def _work_of(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`straight off a 12 hr shift`, `after a 3 hour drive`."""
    after = page.words[page.items[hit.start()].last + 1]
    article = page.words[max(0, page.items[hit.start()].first - 1)] in ("a", "an", "my", "the", "after")
    if after in _WORKS and ((article and after != "fast") or page.items[hit.start()].n >= HOURS_LONG):
        page.claim(hit.start(), hit.start() + 1)
    return ()


HOURS_LONG = 120
"""Minutes; so long is no walk but "12 hr shift"."""
_WORKS = listed("counted", "works")


def _sure_of(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`9/10 sure of the 25 on Sunday`."""
    if page.has(Key.SURE):
        page.claim(hit.start(), hit.end())
    return ()


def _unseen(page: Page, hit: Match[str]) -> Iterable[Finding]:
    page.claim(hit.start(), hit.end())
    return ()


def _time_ago(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`an hour ago`, and neither "did 45 earlier" nor "18 mins left on my break, that's all I've got"."""
    ago = page.items[hit.end() - 1]
    lead = page.line[: hit.start()].rstrip(Tag.THE)
    done_earlier = page.words[ago.last] in ("earlier", "early", "late") and lead.endswith((Tag.DONE, Tag.ACT))
    left = page.words[ago.last] == "left" and (
        lead.endswith((Tag.ONLY, Tag.HAVE)) or _SPARE.search(page.line, hit.end()) is not None
    )
    if not done_earlier and not left:
        page.claim(hit.start(), hit.end())
    return ()


_SPARE = pattern("(?<=COMMA)(?:THE IS|IS|IT IS)? SPARE")


def _time_after(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`breathing not settled, 15 min after stopping`."""
    if page.words[page.items[hit.end() - 1].last] in _RESTS:
        page.claim(hit.start(), hit.end())
    return ()


_RESTS = frozenset(
    {"stopping", "stopped", "finishing", "finished", "resting", "sitting", "ended", "stop", "finish", "in", "home"}
)


def _first_while(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`for the first ten minutes`, and not "in the park 50 min"."""
    noun = page.first(hit, Tag.WORD)
    if "my" in page.words[page.items[hit.start()].first : page.items[hit.end() - 1].first]:
        return ()
    if noun is None or page.words[noun.last] in _WHICH:
        page.claim(hit.start(), hit.end())
    return ()


_WHICH = frozenset({"first", "opening", "initial", "early", "last", "next", "final", "second", "whole", "closing"})


def _pace(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`avg pace 8:30`: minutes of a kilometre, not of the session."""
    if page.words[page.items[hit.start()].last] in ("pace", "split", "splits"):
        page.claim(hit.start(), hit.end())
    return ()


def _age(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`at school, I was 14`, `I am 71 and ...`: years."""
    then = page.items[hit.start()].first in page.elsewhere or not _SCHOOL.isdisjoint(page.words)
    word, number = page.words[page.items[hit.start() + 1].last], page.items[hit.end() - 1].n
    if (then and word == "was") or (word == "am" and page.asked is None and number >= GROWN):
        page.claim(hit.start(), hit.end())
    return ()


GROWN = 18
"""From here on "I am 71 and everything aches" is an age."""
_SCHOOL = listed("missed", "school")


def _last_while(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`the last ten minutes`, unless the clause says what was done in them."""
    clause = re.split(JOINTS, page.line[: hit.start()])[-1]
    done = page.line[hit.end() : hit.end() + 1] in (Tag.DONE, Tag.ACT)
    if done or page.words[page.items[hit.start() + 1].last] in ("entire", "whole", "full"):
        return ()
    if Tag.ACT not in clause and Tag.DONE not in clause:
        page.claim(hit.start(), hit.end())
    return ()


def no_session(page: Page) -> None:
    """`today no training`: a miss, if nothing else was done or asked for."""
    if page.has(Key.DID, Key.MISSED, Key.MOVE, Key.OFF, Key.HAVE, Key.LATER_MIN, Key.LATER_AT, Key.CLEAR):
        return
    for hit in _NO_SESSION.finditer(page.line):
        if any(item.value == "strength" and page.words[item.last] != "gym" for item in page.pick(hit, Tag.ACT)):
            continue
        set_against = (
            page.words[page.items[hit.start()].first] == "not" and page.line[hit.start() - 1 : hit.start()] == Tag.WORD
        )
        if set_against:
            continue
        named = page.first(hit, Tag.OFF, Tag.INSTEAD)
        lead = "not" if named is not None and named.tag is Tag.INSTEAD else "no"
        if named is not None and page.words[named.first] != lead:
            continue
        date = page.first(hit, Tag.DATE) or _day_before(page, hit.start())
        day = past_day(date, page.today) if date else None
        page.add(Key.MISSED, day if day and day != page.today else True, hit.start(), hit.end(), "no session")
        return


_NO_SESSION = pattern(
    "NEG FILL? [SESSION ACT] (?:DONE|FILL|CHALLENGE|FROM SELF|FROM THE [WORD PART]|IS|ON)* (?:DATE|PARTDAY|END)"
    "|(?<!SINCE)DATE (?:FILL|COMMA)* (?:NEG (?:SESSION|ACT)|OFF)|OFF DATE"
    "|(?:^|(?<=STOP))(?:FILL|COMMA)* INSTEAD (?=$|FILL|COMMA|STOP|BECAUSE)"
)
_DAY = "(?:ON|THE|FILL|OF|ABOUT|FOR)* DATE"
MISSES = (
    rule(
        "missed that day",
        f"(?<!SINCE)DATE (?:COMMA|COLON|DASH|SELF|ONE|THE|IS|FILL|PARTDAY){{0,3}} MISS_IT (?:{_DAY})?",
        _missed,
    ),
    rule("the so many missed", "THE [NUM DUR] MISS_IT", _missed),
    rule("none that day", "(?:^|(?<=[STOP COMMA BUT AND])) NEG DATE (?=$|STOP|COMMA|BUT|AND)", _nothing_that_day),
    rule("not bothered with", "MISS_IT [WITH FOR] (?:THE)* ACT", _skipped),
    rule("missed", f"MISS_IT DONE? (?:FROM SELF|CHALLENGE)? (?:{_DAY})?", _missed),
    rule(
        "skipped",
        "(?:DATE (?:SELF|COMMA|FILL|IS){0,2})? MISS (?:THE|FILL|ABOUT|DATE|PARTDAY|WORD)? ACT (?:AND ACT|SESSION)? "
        f"(?:{_DAY})?",
        _skipped,
    ),
    rule("missed day", "MISS (?:ON|THE|FILL|ABOUT|PARTDAY)* DATE (?:IS|PARTDAY)? SESSION?", _missed),
    rule("gave that day a miss", "WORD (?:DATE|SESSION|THE|IS|PARTDAY|ONE){1,5} WORD END", _given),
    rule("skip tonight", "MISS (?:THE|FILL|IT|ABOUT)* PARTDAY", _missed),
    rule("missed session", f"MISS (?:THE|FILL|ABOUT|ONE|WORD){{0,2}} SESSION (?:{_DAY})?", _missed),
    rule("missed day", "DATE (?:COMMA|SELF|FILL|IS|DASH|COLON|SESSION|PARTDAY|ONE|THE|GOT){0,3} MISS(?!WORD)", _missed),
    rule(
        "missed",
        "(?:^|(?<=[STOP COMMA SELF FILL SESSION IT BECAUSE AND BUT])) MISS "
        "(?=$|STOP|BECAUSE|AND|COMMA|FILL|BUT|ONE|IT)",
        _missed,
    ),
    rule("nothing that day", "DATE (?:COLON|DASH|COMMA|IS)? NEG(?=$|STOP|COMMA)", _nothing_that_day),
    rule(
        "could not that day",
        "PLAN NEG (?:WORD|DONE|GOT|MOVE|IT|THE|ON|SESSION|ACT){0,4} DATE IS? SESSION? END",
        _could_not,
    ),
    rule("I did not", "^(?:FILL|COMMA|NO|SELF)* DONE NEG (?:FILL|COMMA|NO|NEG)* (?=$|STOP|BECAUSE|BUT)", _did_not),
    rule("and I did not", "(?<=[AND BUT]) SELF DONE NEG (?=$|STOP|COMMA)", _did_not),
    rule("no, nothing", "^(?:FILL)* NO COMMA? NEG (?=$|STOP|BECAUSE)", _nothing_that_day),
    rule("activity skipped", "ACT (?:IS|FILL)+ MISS", _skipped),
    rule("session missed", "SESSION (?:IS|FILL|GOT)* MISS", _missed),
    rule("did not go", "DATE (?:SELF|COMMA)* WORD NEG [IS ACT WORD] (?=$|STOP|COMMA|BECAUSE)", _learners_miss),
    rule("did not get it in", "NEG WORD (?:THE|FILL)* [ACT SESSION] (?=IN|DONE)", _not_got),
    rule(
        "nothing of it",
        "(?:^|(?<=[STOP COMMA])) (?:FILL)* [NUM DUR] UNIT? (?:DATE|PARTDAY|DONE|FILL)* (?=END)",
        _none_of_it,
    ),
    rule("not done that day", "NEG DONE DATE IS? [ONE SESSION]", _missed),
    rule("no treadmill", "NEG DONE (?=$|STOP|COMMA)", _no_machine),
    rule("not done", "NEG (?:WHOLE|DONE SESSION|DONE (?=$|STOP|COMMA)) " + f"(?:{_DAY})?", _missed),
)
_PART = "(?:SELF|DONE|THE|FILL|ABOUT)*(?:[NUM DUR DIST] (?:OF|DASH|FILL|THE)* ACT|ACT (?:FOR|COLON)? [NUM DUR DIST])"
NOT_DONE = (
    rule(
        "meant to be", "INTENDED (?:ABOUT|THE|FILL|TO|IS|FOR|DONE|AT|DATE){0,3} (?:DUR|DIST|NUM|CLOCKISH) ACT?", _unseen
    ),
    rule(
        "a total before its parts",
        f"(?:[NUM DUR DIST] TOTAL|TOTAL (?:COLON|IS)? [NUM DUR DIST]) (?=[COLON DASH COMMA OPEN STOP]{{1,2}} {_PART} "
        f"(?:COMMA|AND|THEN|SLASH|FILL){{1,2}} {_PART})",
        _unseen,
    ),
    rule(
        "so many planned",
        "(?:^|(?<=[STOP COMMA])) (?:FILL)* [NUM DUR DIST] INTENDED (?=[COMMA BUT AND THEN STOP DASH])",
        _unseen,
    ),
    rule(
        "from so many",
        "(?:^|(?<=[STOP COMMA])) (?:FILL)* [FROM OF] (?:THE|ABOUT)? [DUR NUM] "
        "(?=COMMA? SELF? FILL? [DONE ACT STOPPED] NEAR{0,2} [DUR NUM])",
        _unseen,
    ),
    rule("a score", "NUM DASH NUM", _score),
    rule("a shift of so much", "[DUR NUM] [MOVE WORD]", _work_of),
    rule("sure of so much", "(?<=USED) (?:OF|ABOUT|FOR|THE|DONE){0,3} [NUM DUR] (?=DATE|PARTDAY|END)", _sure_of),
    rule("an age", "SELF IS NUM (?=[COMMA STOP AND BUT NEG]|$)", _age),
    rule("splits", "OPEN CLOCKISH (?:[COMMA SLASH DASH AND] CLOCKISH)+ CLOSE", _unseen),
    rule("a pace", "WORD (?:IS|COLON|OF|AT|ABOUT)? CLOCKISH", _pace),
    rule(
        "time ago",
        "[DUR DAYS NUM] (?:OF|FILL|UNIT|CHANGE|MORE)? "
        "(?:AGO(?! [ON OF] THE? [OFF PARTDAY])|SIDE (?=$|STOP|COMMA|TO|ON|IN|OF))",
        _time_ago,
    ),
    rule(
        "time after",
        "[DUR NUM] AFTER (?:SELF|THE|FILL)* [STOPPED WORD DONE GOT RETURN] (?=$|[STOP COMMA AND BUT])",
        _time_after,
    ),
    rule(
        "the first while",
        "(?:FOR|IN|AFTER|ABOUT|ONLY) (?:THE|ABOUT|FILL|WORD|ORDINAL){1,2} DUR (?=$|NEAR{0,3} [COURSE SENSE WELL])",
        _first_while,
    ),
    rule("the last while", "THE (?:WORD|FILL|ORDINAL) [DUR NUM]", _last_while),
)
