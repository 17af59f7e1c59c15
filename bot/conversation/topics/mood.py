"""How somebody feels: kept for those who agreed that their coach may see it, and for nobody else."""

from dataclasses import replace

from bot.conversation.changes import SetMarks
from bot.conversation.known import MoodOn
from bot.conversation.scene import Scene
from planning.terms.choices import Share

MOST = 14
"""So many are kept."""


def noted(scene: Scene) -> tuple[SetMarks, ...]:
    """The mood of the message, if it may be kept."""
    mood, marks = scene.reading.mood, scene.known.marks
    if mood is None or Share.MOOD not in scene.profile.shares:
        return ()
    return (SetMarks(replace(marks, moods=(*marks.moods, MoodOn(mood, scene.today))[-MOST:])),)
