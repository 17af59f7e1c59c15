"""What to do: pure functions of plain values. No clock, no database, no chat, no sentences.

The names of the package are loaded when they are first asked for: many want only its words (`planning.terms`).
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planning.limits import LIMITS, Breach, check
    from planning.plan.build import build_plan
    from planning.plan.replan import replan

__all__ = ["LIMITS", "Breach", "build_plan", "check", "replan"]

HOMES = {
    "LIMITS": "planning.limits",
    "Breach": "planning.limits",
    "check": "planning.limits",
    "build_plan": "planning.plan.build",
    "replan": "planning.plan.replan",
}


def __getattr__(name: str) -> object:
    """The package's *name*. Raises `AttributeError` if it has none like it."""
    if name not in HOMES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    globals()[name] = getattr(import_module(HOMES[name]), name)
    return globals()[name]
