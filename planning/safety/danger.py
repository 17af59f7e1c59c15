"""How soon a danger sign needs help, and what to do first."""

from collections.abc import Iterable

from planning.facts import load
from planning.terms.choices import Danger
from planning.terms.triage import Sign, Tier

TABLE = load("danger")
TIERS = tuple(Tier)
CARE = frozenset({Danger.SELF_HARM, Danger.EATING})
"""Answered with care instead of alarm."""


def tier(code: Sign, others: Iterable[Sign] = (), *, blood_thinner: bool = False) -> Tier:
    """How soon the sign *code* needs help, given the *others* said with it. In doubt the sooner."""
    row = TABLE[code.value]
    if not set(row.get("with", ())).isdisjoint(each.value for each in others):
        return Tier.NOW
    return Tier(row.get("blood_thinner_tier", row["tier"]) if blood_thinner else row["tier"])


def soonest(codes: Iterable[Sign], *, blood_thinner: bool = False) -> Tier:
    """The soonest tier of all *codes*, at least one, taken together."""
    signs = tuple(codes)
    return min((tier(each, signs, blood_thinner=blood_thinner) for each in signs), key=TIERS.index)


def first_aid(code: Sign) -> str:
    """Key of the line that says what to do first."""
    return str(TABLE[code.value]["first_aid"])


def needs_care(codes: Iterable[Sign]) -> bool:
    """Whether any of *codes* is answered with care instead of alarm."""
    return any(each in CARE for each in codes)
