"""What a gap without outings does to the ground: the longer it was, the less of what came before still counts.

Up to 6 days change nothing; after 7 to 13 days the last week is repeated; after 14 to 27 some two thirds of it;
from 28 days on it is a new start (common practice, no source; no trial has tested it).
"""

from planning.facts import load

STEPS = tuple((int(each["days"]), int(each["still_counts"])) for each in reversed(load("come_back")["gap"]))
"""From so many days on, so many percent still count; the longest first."""
SHORTEST_GAP = STEPS[-2][0]
ONE_DAY_A_WEEK = 6
"""Days that are no gap for somebody who goes out once a week."""


def percent_left(days: int) -> int:
    """Percent of what was done before that still counts after *days* without an outing."""
    if days < SHORTEST_GAP:
        return STEPS[-1][1]
    return next(percent for first, percent in STEPS if days >= first)
