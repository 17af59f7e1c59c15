"""The way back after days off: a smaller first session the longer the gap, and gentle walking after a fever."""

from dataclasses import dataclass
from datetime import date

from planning.facts import load
from planning.safety.illness import Illness, gentle_days, gentle_effort, gentle_seconds, wait_days
from planning.step.cap import Cap, tightest, under
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Step

TABLE = load("come_back")
SPIKE = 1.1
"""A session of up to a tenth more than the longest of 30 days before is the reference of the published injury risk
(Frandsen et al. 2025, British Journal of Sports Medicine 59:1203).
"""


@dataclass(frozen=True, slots=True)
class Fever:
    """A fever that is gone: how many days it lasted, and the local date on which the person said so."""

    days: int
    gone_on: date
    covid: bool = False


def may_start_again(fever: Fever, today: date) -> bool:
    """Whether enough whole days have passed since the fever was said to be gone."""
    return (today - fever.gone_on).days > wait_days(_illness(fever))


def _illness(fever: Fever) -> Illness:
    return Illness.COVID if fever.covid else Illness.FEVER


def gap_cap(days: float) -> tuple[Cap, Reason]:
    """The limit for the first session after *days* without one, and its reason."""
    row = [each for each in TABLE["gap"] if each["days"] <= days][-1] if days >= 0 else TABLE["gap"][0]
    most = row.get("most_min")
    return Cap(row["share"], most and most * 60, row["runs"], row["effort"]), Reason(row["why"])


def fever_cap(fever: Fever, today: date) -> tuple[Cap, Reason] | None:
    """The limit while a fever, or what it left, is to be respected; None when that time is over."""
    illness = _illness(fever)
    if not may_start_again(fever, today):
        return Cap(seconds=0), Reason.FEVER_WAIT
    if (today - fever.gone_on).days > wait_days(illness) + gentle_days(illness, fever.days):
        return None
    return Cap(seconds=gentle_seconds(illness), runs=False, effort=gentle_effort(illness)), Reason.AFTER_FEVER


def come_back(
    session: Session, gap_days: float, *, longest_min: float | None = None, fever: Fever | None = None
) -> Step:
    """*session* as the first one after *gap_days* without any.

    *longest_min*: longest session of the last 30 days; the first one back is at most a tenth above it.
    """
    cap, why = gap_cap(gap_days)
    caps, reasons = [cap], [why]
    if longest_min is not None:
        caps.append(Cap(seconds=int(longest_min * 60 * SPIKE)))
    after = fever_cap(fever, session.on) if fever else None
    if after:
        caps.append(after[0])
        reasons.append(after[1])
    return Step(under(session, tightest(caps)), tuple(reasons))
