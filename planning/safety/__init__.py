"""May they start, is it danger, what is soreness and what needs a clinician, how hot and how cold it is."""

from planning.safety.danger import first_aid, needs_care, soonest, tier
from planning.safety.screen import screen
from planning.safety.triage import triage, triage_all

__all__ = ["first_aid", "needs_care", "screen", "soonest", "tier", "triage", "triage_all"]
