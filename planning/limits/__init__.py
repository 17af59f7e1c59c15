"""The limits that every plan keeps: LIMITS lists them, `check` runs them all."""

from collections.abc import Iterable
from datetime import date

from planning.limits import growth, keeping, racing, rhythm, running, start
from planning.limits.record import Outing
from planning.limits.rule import Breach, Rule, lay_out
from planning.terms.person import Profile
from planning.terms.plan import Plan

__all__ = ["LIMITS", "Breach", "Rule", "check"]

LIMITS: tuple[Rule, ...] = (
    *start.RULES,
    *growth.RULES,
    *rhythm.RULES,
    *running.RULES,
    *racing.RULES,
    *keeping.RULES,
)


def check(plan: Plan, profile: Profile, since: date | None = None, past: Iterable[Outing] = ()) -> tuple[Breach, ...]:
    """Every breach of every limit in *plan*.

    *since*: judge only this day and later ones, as the days before are over; *past*: what really counts of them, in
    order of day.
    """
    case = lay_out(plan, profile, since, past)
    return tuple(breach for rule in LIMITS for breach in rule.breaches(case))
