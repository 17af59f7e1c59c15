"""The next session in the light of all that is known today: all bad news gives caps, and the tightest is kept."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from planning.facts import load
from planning.step.cap import Cap, tightest, under
from planning.step.come_back import Fever, fever_cap, gap_cap
from planning.step.smaller import DOWN, EASED, FLOOR, SMALLER, SOFTENED, SWAPPED
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Step
from planning.terms.triage import Triage, TriageDo

LIMITS = load("today")
NOTHING = Cap(seconds=0)
BY_DO = {
    TriageDo.CARRY_ON: SOFTENED,
    TriageDo.EASE: EASED,
    TriageDo.SWAP: SWAPPED,
    TriageDo.REST: NOTHING,
    TriageDo.SEE_SOMEONE: NOTHING,
}
Found = tuple[Cap, Reason]


@dataclass(frozen=True, slots=True)
class Today:
    """What is known today. None or empty: not said.

    *efforts*: CR-10 ratings of the last sessions, oldest first, each with the highest wished one; *slept_h*: hours of
    last night; *sure*: 0 to 10 for the next session; *asked_sure*: how often that was asked before; *misses*: sessions
    missed in a row; *missed_of_five*: of the last five; *low*: a low day (night shift, hangover, period, bad news);
    *gap_days*: days since the last session; *beyond_plan*: far more than the plan was done in the last 48 hours.
    """

    on: date
    triages: tuple[Triage, ...] = ()
    gap_days: float = 0
    fever: Fever | None = None
    efforts: tuple[tuple[float, int], ...] = ()
    slept_h: float | None = None
    sure: float | None = None
    asked_sure: int = 0
    misses: int = 0
    missed_of_five: int = 0
    low: bool = False
    beyond_plan: bool = False


def next_step(session: Session, today: Today) -> Step:
    """*session* as it should be done now: never larger than planned, never larger for worse news."""
    found = tuple(_found(today))
    if not found:
        return Step(session, (Reason.AS_PLANNED,))
    cap = tightest(each for each, _ in found)
    return Step(under(session, cap), tuple(dict.fromkeys(why for _, why in found)))


def _found(today: Today) -> Iterator[Found]:
    """All that speaks against the session as planned."""
    for each in today.triages:
        yield from ((BY_DO[each.do], why) for why in each.why)
    yield from _of_days_off(today)
    yield from _of_the_day(today)
    yield from _of_misses(today)


def _of_days_off(today: Today) -> Iterator[Found]:
    cap, why = gap_cap(today.gap_days)
    if why is not Reason.SHORT_GAP:
        yield cap, why
    after = fever_cap(today.fever, today.on) if today.fever else None
    if after:
        yield after


def _of_the_day(today: Today) -> Iterator[Found]:
    over = [effort - wished >= LIMITS["hard_over"] for effort, wished in today.efforts]
    if len(over) >= LIMITS["hard_times"] and all(over[-LIMITS["hard_times"] :]):
        yield DOWN, Reason.TOO_HARD_TWICE
    if today.slept_h is not None and today.slept_h < LIMITS["sleep_soften_h"]:
        yield SOFTENED, Reason.BAD_NIGHT
    if today.slept_h is not None and today.slept_h < LIMITS["sleep_lower_h"]:
        yield DOWN, Reason.BAD_NIGHT
    if today.low:
        yield SOFTENED, Reason.LOW_DAY
    if today.beyond_plan:
        yield Cap(runs=False), Reason.BEYOND_PLAN


def _of_misses(today: Today) -> Iterator[Found]:
    if today.sure is not None and today.sure < LIMITS["sure"]:
        yield (*SMALLER, FLOOR)[min(today.asked_sure, len(SMALLER))], Reason.NOT_SURE
    if today.misses >= LIMITS["misses_in_a_row"]:
        yield FLOOR, Reason.TWO_MISSES
    if today.missed_of_five >= LIMITS["missed_of_five"]:
        yield FLOOR, Reason.THREE_OF_FIVE_MISSED
