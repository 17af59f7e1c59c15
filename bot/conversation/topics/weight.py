"""A body weight: kept only for those who switched it on; a smoothed trend, never a verdict on a day."""

from bot.conversation.changes import NoteWeight, SetQuestion
from bot.conversation.says import Facts, Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.coach import notice
from planning.progress.weight import Weighing, WeightCaution, weight_trend
from planning.terms.choices import Share

CAUTIONS = {WeightCaution.FAST_LOSS: "weight_fast", WeightCaution.LOW_BMI: "weight_low"}


def weight(scene: Scene) -> Part | None:
    """Keep a weight and say where it is heading, or say in half a line that it isn't kept."""
    kg = scene.reading.weight_kg
    if kg is None or Kind.CARE in scene.taken or Kind.URGENT in scene.taken:
        return None
    if not scene.profile.weight_talk or scene.profile.screen.pregnant:
        return Part((), (Say(scene.who, Kind.SMALL, ("weight_not_kept",)),))
    trend = weight_trend((*scene.known.weights, Weighing(scene.today, kg)), scene.profile.height_cm)
    cautions = trend.cautions if trend else ()
    words = ("weight_kept", *(CAUTIONS[each] for each in cautions))
    slots = (Slot("trend", f"{trend.kg:.1f}" if trend else f"{kg:.1f}"),)
    facts = Facts(entries=(), weight_kg=kg, next=None, why=())
    told = notice(scene, "notice_weight", needs=Share.WEIGHT) if cautions else ()
    changes = (NoteWeight(scene.today, kg, scene.id), SetQuestion(None))
    return Part(changes, (Say(scene.who, Kind.LOGGED, words, facts, slots=slots), *told))
