"""From the lexicon's word for an activity to its kind."""

from planning.terms.choices import Activity

SESSION = "session"
_KINDS = {
    "walk": Activity.WALK, "run": Activity.RUN, "run_walk": Activity.RUN_WALK, "stretch": Activity.STRETCH,
    "strength": Activity.STRENGTH, "abs": Activity.STRENGTH,
    SESSION: Activity.SESSION,
}  # fmt: skip


def kind_of(word: str) -> Activity:
    """The kind of the activity *word*; bike, swim, class, housework and the like are cross-training."""
    return _KINDS.get(word, Activity.CROSS)
