"""What was really done: amounts, kinds and shares, clause by clause; and sessions that were missed."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date
from re import Match

from bot.reading.facts import Did
from bot.reading.page import Finding, Found, Key, Page, rule
from bot.reading.tags import Item, Tag, pattern
from bot.reading.when import past_day
from planning.terms.choices import Activity

_KINDS = {"walk": Activity.WALK, "run": Activity.RUN, "run_walk": Activity.RUN_WALK, "stretch": Activity.STRETCH,
          "strength": Activity.STRENGTH}  # fmt: skip
_BREAKS = frozenset({Tag.STOP, Tag.ASK, Tag.COMMA, Tag.BUT, Tag.AND, Tag.THEN, Tag.BECAUSE})
_AMOUNTS = frozenset({Tag.DUR, Tag.DIST, Tag.CLOCKISH, Tag.NUM, Tag.RATIO})


@dataclass(slots=True)
class Clause:
    """One stretch between joints, by index of item."""

    joint: str
    start: int
    end: int
    acts: list[int] = field(default_factory=list)
    amounts: list[int] = field(default_factory=list)
    shares: list[int] = field(default_factory=list)
    dates: list[int] = field(default_factory=list)
    evidence: list[int] = field(default_factory=list)
    sessions: list[int] = field(default_factory=list)
    stops: list[int] = field(default_factory=list)
    plan: bool = False
    other: bool = False
    neg: bool = False
    words: int = 0
    """How many unknown words it holds."""


@dataclass(slots=True)
class Entry:
    """A thing done while it is put together; *act* is the lexicon's word for it."""

    act: str
    minutes: float | None
    km: float | None
    share: float | None
    on: date | None
    first: int
    last: int
    total: bool = False


_SLOTS = {Tag.ACT: "acts", Tag.SHARE: "shares", Tag.DATE: "dates", Tag.DONE: "evidence", Tag.WHOLE: "evidence",
          Tag.TICK: "evidence", Tag.SESSION: "sessions", Tag.STOPPED: "stops"}  # fmt: skip


def clauses_of(page: Page) -> list[Clause]:
    """The stretches of *page* between marks and joining words."""
    found: list[Clause] = []
    clause = Clause("", 0, 0)
    for index, tag in enumerate(page.line):
        if tag in _BREAKS:
            clause.end = index
            found.append(clause)
            clause = Clause(tag, index + 1, index + 1)
        else:
            _sort(clause, index, Tag(tag))
    clause.end = len(page.line)
    found.append(clause)
    return found


def _sort(clause: Clause, index: int, tag: Tag) -> None:
    if tag in _AMOUNTS:
        clause.amounts.append(index)
    elif name := _SLOTS.get(tag):
        getattr(clause, name).append(index)
    elif tag is Tag.PLAN:
        clause.plan = True
    elif tag is Tag.OTHER:
        clause.other = True
    elif tag in (Tag.NEG, Tag.NO):
        clause.neg = True
    elif tag is Tag.WORD:
        clause.words += 1


# -- before the clauses: repeats and what only looks like something done ------------------------------------------------


def _repeat(page: Page, hit: Match[str]) -> Iterable[Finding]:
    """`6 x (1 run, 2 walk)`: each part times the count."""
    count = next((page.items[i].n for i in range(hit.start(), hit.end()) if _before_times(page, i, hit.end())), 0.0)
    amount: Item | None = None
    act: Item | None = None
    for item in page.pick(hit, Tag.DUR, Tag.NUM, Tag.ACT, Tag.CLOCKISH):
        if item.tag is Tag.NUM and page.line[page.items.index(item) + 1 : page.items.index(item) + 2] == Tag.TIMES:
            continue
        if item.tag is Tag.ACT:
            act = item
        else:
            amount = item
        if amount is not None and act is not None:
            yield Key.DID, Did(_kind(act.value), minutes=round(count * _minutes(amount), 4))
            amount = act = None


def _before_times(page: Page, index: int, end: int) -> bool:
    return page.line[index] in (Tag.NUM, Tag.ONE) and index + 1 < end and page.line[index + 1] == Tag.TIMES


def _minutes(item: Item) -> float:
    if item.tag is Tag.CLOCKISH:
        parts = [int(part) for part in item.value.split(":")]
        return parts[0] * 60 + parts[1] + parts[2] / 60 if len(parts) == 3 else parts[0] + parts[1] / 60
    return item.n


def _kind(value: str) -> Activity:
    return _KINDS.get(value, Activity.CROSS)


def _missed(page: Page, hit: Match[str]) -> Iterable[Finding]:
    item = page.first(hit, Tag.DATE)
    yield Key.MISSED, past_day(item, page.today) if item else None


def _unseen(page: Page, hit: Match[str]) -> Iterable[Finding]:
    page.claim(hit.start(), hit.end())
    return ()


PAIR = "(?:DUR|NUM|CLOCKISH) (?:OF|THE|ONE|FILL|ABOUT)? ACT"
PAIR_BACK = "ACT (?:FOR|THE|ABOUT)? (?:DUR|NUM|CLOCKISH)"
JOINT = "(?:COMMA|AND|SLASH|THEN|DASH|TO|COLON|WITH|FOR|COMMA AND|COMMA THEN)"
REPEATS = (
    rule("repeats", f"[NUM ONE] TIMES (?:OF|COLON|OPEN|THE)* {PAIR} (?:{JOINT} {PAIR})+ CLOSE?", _repeat),
    rule("repeats", f"[NUM ONE] TIMES (?:OF|COLON|OPEN|THE)* {PAIR_BACK} (?:{JOINT} {PAIR_BACK})+ CLOSE?", _repeat),
    rule("repeats after", f"OPEN? {PAIR} (?:{JOINT} {PAIR})+ CLOSE? COMMA? [NUM ONE] TIMES", _repeat),
    rule("repeats after", f"OPEN? {PAIR_BACK} (?:{JOINT} {PAIR_BACK})+ CLOSE? COMMA? [NUM ONE] TIMES", _repeat),
    rule("repeats of one", f"[NUM ONE] TIMES (?:OF|COLON|OPEN|THE)* (?:{PAIR}|{PAIR_BACK}) CLOSE?", _repeat),
)
NOT_DONE = (
    rule("skipped only the stretch", "MISS (?:THE|FILL|ALL|OF)* ACT", lambda page, hit: _skipped_act(page, hit)),
    rule("meant to be", "INTENDED (?:ABOUT|THE|FILL|TO|IS|FOR){0,3} (?:DUR|DIST|NUM|CLOCKISH) (?:ACT)?", _unseen),
    rule("time ago", "[DUR DAYS] AGO", _unseen),
    rule("for the first while", "FOR (?:THE|WORD){1,2} DUR", _unseen),
)
MISSES = (
    rule("missed day", "DATE (?:SELF|ONE|THE|IS)? MISS_IT", _missed),
    rule("missed", "MISS_IT (?:ON|FILL|THE|SESSION)* DATE?", _missed),
    rule("missed day", "(?:SELF)? MISS (?:ON|THE|FILL|ALL)* DATE (?:SESSION)?", _missed),
    rule("missed session", "MISS (?:THE|FILL|ALL)* SESSION (?:ON)? DATE?", _missed),
    rule("missed day", "DATE (?:COMMA|SELF|FILL|IS|DASH|COLON){0,2} MISS", _missed),
    rule("missed", "MISS (?=END|BECAUSE|AND)", _missed),
    rule("not done", "NEG (?:DONE|WHOLE)(?=END)", _missed),
)


def _skipped_act(page: Page, hit: Match[str]) -> Iterable[Finding]:
    act = page.first(hit, Tag.ACT)
    if act is not None and act.value in ("run", "walk"):
        item = page.items[hit.end()] if hit.end() < len(page.items) else None
        yield Key.MISSED, past_day(item, page.today) if item and item.tag is Tag.DATE else None
        return
    page.claim(hit.start(), hit.end())


_TOGETHER = pattern("ACT (?:AND|SLASH|DASH|OR|COMMA) ACT")


def together(page: Page) -> None:
    """`walked and jogged`: both, not told apart."""
    for hit in _TOGETHER.finditer(page.line):
        pair = {page.items[hit.start()].value, page.items[hit.end() - 1].value}
        if pair == {"walk", "run"}:
            first, last = page.items[hit.start()], page.items[hit.end() - 1]
            page.items[hit.start()] = Item(Tag.ACT, "run_walk", first.first, last.last)
            page.line = page.line[: hit.start() + 1] + Tag.USED * (hit.end() - hit.start() - 1) + page.line[hit.end() :]


def done(page: Page) -> None:
    """Find what was done, clause by clause."""
    entries: list[Entry] = []
    day: date | None = None
    pending: Entry | None = None
    for clause in clauses_of(page):
        if clause.joint in (Tag.STOP, Tag.ASK):
            pending = None
        said = _day(page, clause)
        if said is not None or any(page.items[i].value == "+0" for i in clause.dates):
            day = said
        if clause.plan or clause.other and not _own(page, clause):
            continue
        for entry in _entries(page, clause, entries, pending):
            entry.on = day
            if entry not in entries:
                entries.append(entry)
        pending = entries[-1] if entries else None
    _keep(page, entries)


def _own(page: Page, clause: Clause) -> bool:
    line = page.line[clause.start : clause.end]
    return bool(clause.acts or clause.evidence) and (
        Tag.WITH in line
        or Tag.SELF in line
        or Tag.FOR in line
        or Tag.TO in line
        or bool(clause.acts and clause.amounts)
        or line.find(Tag.OTHER) > 1
    )


def _day(page: Page, clause: Clause) -> date | None:
    for index in clause.dates:
        if index and page.line[index - 1] in (Tag.SINCE, Tag.FROM):
            continue
        day = past_day(page.items[index], page.today)
        if day is not None and day != page.today:
            return day
    return None


def _entries(page: Page, clause: Clause, entries: list[Entry], pending: Entry | None) -> Iterable[Entry]:
    """The entries of one clause."""
    amounts = [index for index in clause.amounts if _counts(page, clause, index)]
    if clause.acts:
        yield from _with_acts(page, clause, amounts, pending)
    elif amounts:
        yield from _without_acts(page, clause, amounts, pending)
    elif clause.shares:
        index = clause.shares[0]
        item = page.items[index]
        if item.n == 1.0 or clause.evidence or clause.words == 0 or clause.stops:
            yield Entry("session", None, None, item.n, None, item.first, item.last)
    elif _whole(page, clause) and not clause.neg and not any(entry.act == "session" for entry in entries):
        item = page.items[clause.evidence[0]]
        yield Entry("session", None, None, 1.0, None, item.first, item.last)


def _whole(page: Page, clause: Clause) -> bool:
    tags = {page.line[index] for index in clause.evidence}
    if Tag.WHOLE in tags or (Tag.TICK in tags):
        return True
    if not clause.evidence or clause.words > 0:
        return False
    index = clause.evidence[-1]
    word = page.tokens[page.items[index].last].word
    return word in (
        "done",
        "finished",
        "completed",
        "complete",
        "ticked",
        "sorted",
        "did",
        "dusted",
        "banked",
        "bag",
        "books",
        "bank",
        "managed",
        "nailed",
        "smashed",
    ) and (word != "did" or bool(clause.sessions))


def _counts(page: Page, clause: Clause, index: int) -> bool:
    """Whether an amount may be something done."""
    item, tag = page.items[index], page.line[index]
    before = page.line[index - 1] if index else ""
    after = page.line[index + 1] if index + 1 < len(page.line) else ""
    if after == Tag.AGO or before in (Tag.SINCE, Tag.BY, Tag.UNTIL, Tag.BEFORE):
        return False
    if tag == Tag.NUM:
        if (
            after in (Tag.WORD, Tag.UNIT, Tag.SKY, Tag.DEGREE, Tag.PART, Tag.SENSE)
            and not clause.acts
            and not clause.evidence
            and not clause.stops
        ):
            return False
        if after == Tag.WORD and page.tokens[page.items[index + 1].first].word in (
            "steps",
            "bpm",
            "degrees",
            "%",
            "people",
            "c",
            "f",
            "kids",
            "calories",
            "kcal",
            "stairs",
            "hills",
            "weeks",
            "reps",
            "times",
        ):
            return False
        return 0 < item.n <= 600 and bool(clause.acts or clause.evidence or clause.stops or clause.words == 0)
    if tag == Tag.RATIO:
        return item.m != 10 or bool(clause.evidence or clause.stops) and page.planned_min == 10
    return not (before == Tag.AFTER and not clause.stops and not clause.acts and not clause.evidence)


def _with_acts(page: Page, clause: Clause, amounts: list[int], pending: Entry | None) -> Iterable[Entry]:
    acts = clause.acts
    if len(acts) > 1 and not amounts:
        acts = acts[:1]
    if len(amounts) >= 2 and len(acts) >= 2:
        for act, group in _paired(page, acts, amounts):
            yield _entry(page, page.items[act].value, group)
        return
    act = acts[0]
    value = page.items[act].value
    for other in acts[1:]:
        if page.items[other].value != value and not amounts:
            value = page.items[other].value
    if clause.neg and not amounts:
        return
    share = page.items[clause.shares[0]].n if clause.shares else None
    if amounts:
        yield _entry(page, value, amounts)
    elif (
        pending is not None
        and pending.act == "session"
        and clause.joint in (Tag.COMMA,)
        and _bare(clause)
        and pending.share is None
    ):
        pending.act = value
    elif clause.evidence or clause.shares or _past(page, act) or value == "stretch":
        entry = _entry(page, value, [])
        done_word = bool(clause.evidence) and any(
            page.line[i] in (Tag.DONE, Tag.TICK, Tag.WHOLE) for i in clause.evidence
        )
        entry.share = (
            share
            if share is not None
            else (1.0 if done_word and value in ("walk", "run", "run_walk") and not _past(page, act) else None)
        )
        yield entry


def _bare(clause: Clause) -> bool:
    return clause.words <= 2


def _past(page: Page, act: int) -> bool:
    word = page.tokens[page.items[act].first].word
    return word.endswith("ed") or word in ("ran", "swam", "rode", "did")


def _paired(page: Page, acts: list[int], amounts: list[int]) -> Iterable[tuple[int, list[int]]]:
    first = amounts[0] < acts[0]
    for place, act in enumerate(acts):
        if first:
            low = acts[place - 1] if place else -1
            group = [index for index in amounts if low < index < act]
        else:
            high = acts[place + 1] if place + 1 < len(acts) else len(page.line)
            group = [index for index in amounts if act < index < high]
        yield act, group


def _entry(page: Page, act: str, amounts: list[int]) -> Entry:
    """An entry of *act* with all its amounts."""
    entry = Entry(act, None, None, None, None, 0, 0)
    for index in amounts:
        item = page.items[index]
        if page.line[index] == Tag.DIST:
            entry.km = item.n
        elif entry.minutes is None or (page.line[index] == Tag.DUR and act != "session"):
            entry.minutes = _minutes(item)
    if amounts:
        entry.first, entry.last = page.items[amounts[0]].first, page.items[amounts[-1]].last
    return entry


def _without_acts(page: Page, clause: Clause, amounts: list[int], pending: Entry | None) -> Iterable[Entry]:
    tags = {page.line[index] for index in amounts}
    if pending is not None and clause.joint in (Tag.COMMA, Tag.AND, Tag.THEN, Tag.STOP) and not clause.stops:
        lacking = (pending.minutes is None and Tag.DIST not in tags) or (
            pending.km is None and tags == {Tag.DIST} and pending.minutes is not None
        )
        if lacking and pending.share is None:
            add = _entry(page, "", amounts)
            pending.minutes = pending.minutes if pending.minutes is not None else add.minutes
            pending.km = pending.km if pending.km is not None else add.km
            return
        if clause.joint == Tag.AND and pending.act != "session" and pending.minutes is not None and not clause.evidence:
            pending.minutes += _entry(page, "", amounts).minutes or 0.0
            return
    if (
        clause.evidence
        or clause.stops
        or clause.words <= 1
        or tags & {Tag.DIST, Tag.RATIO, Tag.CLOCKISH}
        or Tag.IN in page.line[clause.start : clause.end]
    ):
        yield _entry(page, "session", amounts)


def _keep(page: Page, entries: list[Entry]) -> None:
    kept: list[Entry] = []
    for entry in entries:
        same = next((e for e in kept if e.act == entry.act and e.on == entry.on), None)
        if same is None:
            kept.append(entry)
        else:
            same.minutes = _sum(same.minutes, entry.minutes)
            same.km = _sum(same.km, entry.km)
            same.share = same.share if same.minutes is None else None
    if any(e.act not in ("session", "stretch") and (e.minutes or e.km) for e in kept):
        kept = [e for e in kept if not (e.act == "session" and (e.share == 1.0 or e.total))]
    for entry in kept:
        kind = Activity.SESSION if entry.act == "session" else _kind(entry.act)
        share = entry.share if entry.minutes is None and entry.km is None else None
        page.found.append(
            Found(Key.DID, Did(kind, entry.minutes, entry.km, share, entry.on), entry.first, entry.last, "done")
        )


def _sum(a: float | None, b: float | None) -> float | None:
    return b if a is None else a if b is None else a + b


__all__ = ["MISSES", "NOT_DONE", "REPEATS", "done", "replace", "together"]
