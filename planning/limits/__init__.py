"""The limits that every plan keeps: LIMITS lists them, `check` runs them all."""

from planning.limits import growth, keeping, racing, rhythm, running, start
from planning.limits.rule import NO_PAST, Breach, Past, Rule, lay_out
from planning.terms.person import Profile
from planning.terms.plan import Plan

__all__ = ["LIMITS", "NO_PAST", "Breach", "Past", "Rule", "check"]

LIMITS: tuple[Rule, ...] = (
    *start.RULES,
    *growth.RULES,
    *rhythm.RULES,
    *running.RULES,
    *racing.RULES,
    *keeping.RULES,
)


def check(plan: Plan, profile: Profile, past: Past = NO_PAST) -> tuple[Breach, ...]:
    """Every breach of every limit in *plan*, or in what is left of it after the *past*."""
    case = lay_out(plan, profile, past)
    return tuple(breach for rule in LIMITS for breach in rule.breaches(case))
