"""What the log adds up to: weeks, load, weight, energy, a forecast, who needs a person, how far a challenge is."""

from planning.progress.challenge import closes_at, tally
from planning.progress.forecast import from_hard_effort, from_log
from planning.progress.needs import who_needs
from planning.progress.readiness import readiness
from planning.progress.review import review
from planning.progress.weight import weight_trend

__all__ = [
    "closes_at",
    "from_hard_effort",
    "from_log",
    "readiness",
    "review",
    "tally",
    "weight_trend",
    "who_needs",
]
