"""What to do: pure functions of plain values. No clock, no database, no chat, no sentences."""

from planning.limits import LIMITS, Breach, check
from planning.plan.build import build_plan
from planning.plan.replan import replan

__all__ = ["LIMITS", "Breach", "build_plan", "check", "replan"]
