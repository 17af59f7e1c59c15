"""A body weight: kept only for those who switched it on, and never judged by a day."""

from bot.conversation.changes import NoteWeight, SetQuestion
from bot.conversation.says import Facts, Kind, Say
from bot.conversation.scene import Part, Scene


def weight(scene: Scene) -> Part | None:
    """Keep a weight, or say in half a line that it isn't kept."""
    kg = scene.reading.weight_kg
    if kg is None or Kind.CARE in scene.taken or Kind.URGENT in scene.taken:
        return None
    if not scene.profile.weight_talk:
        return Part((), (Say(scene.who, Kind.SMALL, ("weight_not_kept",)),))
    facts = Facts(entries=(), weight_kg=kg, next=None, why=())
    changes = (NoteWeight(scene.today, kg, scene.id), SetQuestion(None))
    return Part(changes, (Say(scene.who, Kind.LOGGED, ("weight_kept",), facts),))
