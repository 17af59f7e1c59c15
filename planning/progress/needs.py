"""Who needs a person, and why: the order of the coach's Monday. Common practice, no source."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

MOST_NAMED = 7
MOST_PRAISED = 3
NEW_DAYS = 14
SILENT_DAYS = 7
MISSES = 3


class NeedKind(StrEnum):
    """Why somebody needs a person, the most pressing first."""

    DANGER = "danger"
    RED = "red"
    CARE = "care"
    ASKED = "asked"
    UNANSWERED = "unanswered"
    CLEARANCE = "clearance"
    MISSES = "misses"
    SILENT = "silent"
    NEW = "new"
    BACK = "back"
    BIG_WEEK = "big_week"
    PROMISE = "promise"
    AMBER = "amber"


@dataclass(frozen=True, slots=True)
class RunnerNow:
    """What the coach may know of one runner this Monday: what the runner doesn't share is left out by the caller.

    *danger*, *red*, *amber*: open ones; *care*: told with consent; *asked_at*: asked for the coach; *wrote_at*: oldest
    message to the coach without an answer; *waiting_since*: for clearance; *began*: first day; *back_on*: return from a
    break within the last week; *misses*: in a row; *silent_days*: since the last word; *big_week*: the first or longest
    session, or a race, this week; *promised_on*: a promise of the coach falls due; *sessions*, *planned*: of last week;
    *first*: something done for the first time.
    """

    who: str
    began: date
    danger: bool = False
    red: bool = False
    care: bool = False
    amber: bool = False
    asked_at: datetime | None = None
    wrote_at: datetime | None = None
    waiting_since: date | None = None
    back_on: date | None = None
    misses: int = 0
    silent_days: int = 0
    big_week: bool = False
    promised_on: date | None = None
    sessions: int = 0
    planned: int = 0
    first: bool = False


@dataclass(frozen=True, slots=True)
class Need:
    """One runner's needs, the most pressing first; *hours* or *days* that the first has waited, where it can wait."""

    who: str
    kinds: tuple[NeedKind, ...]
    hours: float | None = None
    days: int | None = None


@dataclass(frozen=True, slots=True)
class Needs:
    """All runners in order of need; *named*: those to name, seven at most; *rest*: the number of all
    others; *praise*: up to three.
    """

    all: tuple[Need, ...]
    named: tuple[Need, ...]
    rest: int
    praise: tuple[str, ...]


Found = tuple[NeedKind, float | None, int | None]
ORDER = tuple(NeedKind)


def who_needs(runners: Iterable[RunnerNow], now: datetime, today: date) -> Needs:
    """The *runners* in order of need; *today*: the coach's local date."""
    people = tuple(runners)
    needs = sorted((_need(each, now, today) for each in people), key=_pressing)
    pressing = [each for each in needs if each.kinds]
    named = tuple(pressing[:MOST_NAMED])
    return Needs(tuple(needs), named, len(needs) - len(named), _praised(people))


def _need(runner: RunnerNow, now: datetime, today: date) -> Need:
    found = sorted(_found(runner, now, today), key=lambda each: ORDER.index(each[0]))
    if not found:
        return Need(runner.who, ())
    _, hours, days = found[0]
    return Need(runner.who, tuple(kind for kind, _, _ in found), hours, days)


def _pressing(need: Need) -> tuple[int, float, str]:
    """For sorting: the most pressing kind first, then who has waited longest."""
    kind = ORDER.index(need.kinds[0]) if need.kinds else len(ORDER)
    return kind, -(need.hours or 24 * (need.days or 0)), need.who


def _found(runner: RunnerNow, now: datetime, today: date) -> Iterator[Found]:
    for holds, kind in (
        (runner.danger, NeedKind.DANGER),
        (runner.red, NeedKind.RED),
        (runner.care, NeedKind.CARE),
        (runner.misses >= MISSES, NeedKind.MISSES),
        (runner.big_week, NeedKind.BIG_WEEK),
        (runner.amber, NeedKind.AMBER),
    ):
        if holds:
            yield kind, None, None
    yield from _waiting(runner, now)
    yield from _of_dates(runner, today)


def _waiting(runner: RunnerNow, now: datetime) -> Iterator[Found]:
    """Those who wait for an answer, with their hours."""
    for since, kind in ((runner.asked_at, NeedKind.ASKED), (runner.wrote_at, NeedKind.UNANSWERED)):
        if since is not None:
            yield kind, (now - since).total_seconds() / 3600, None


def _of_dates(runner: RunnerNow, today: date) -> Iterator[Found]:
    if runner.waiting_since is not None:
        yield NeedKind.CLEARANCE, None, (today - runner.waiting_since).days
    if runner.silent_days >= SILENT_DAYS:
        yield NeedKind.SILENT, None, runner.silent_days
    if 0 <= (today - runner.began).days < NEW_DAYS:
        yield NeedKind.NEW, None, None
    if runner.back_on is not None:
        yield NeedKind.BACK, None, None
    if runner.promised_on is not None and runner.promised_on <= today:
        yield NeedKind.PROMISE, None, (today - runner.promised_on).days


def _praised(runners: tuple[RunnerNow, ...]) -> tuple[str, ...]:
    """Up to three: back after a break, a first, all of the week; never with a flag, for nobody trains through pain."""
    well = [each for each in runners if each.sessions and not (each.danger or each.red or each.amber)]
    reasons = [(each.back_on is not None, each.first, each.sessions >= each.planned > 0) for each in well]
    found = [(reason, each.who) for reason, each in zip(reasons, well, strict=True) if any(reason)]
    found.sort(key=lambda each: (*(not part for part in each[0]), each[1]))
    return tuple(who for _, who in found[:MOST_PRAISED])
