"""Energy of the last outing, for those alone who switched talk of weight on: rounded, and neither a leave nor a debt.

Nobody is told a number beside food, and none who loses weight fast or weighs little (common practice of
eating-disorder care).
"""

from bot.conversation.answers import asks_what_was_spent
from bot.conversation.known import Known
from bot.conversation.says import Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.where import where
from planning.plan.paces import usual_paces
from planning.progress.energy import energy_done, shown
from planning.progress.review import OUTINGS
from planning.progress.weight import Weighing, weight_trend
from planning.terms.entry import Status
from planning.terms.person import Profile


def energy(scene: Scene) -> Part | None:
    """About what the last outing took on top of resting; None: the card, which holds no number."""
    careful = scene.stopped or not scene.profile.weight_talk
    weight_kg = None if careful else _weight(scene)
    if weight_kg is None or not asks_what_was_spent(scene.reading.text):
        return None
    kcal = _last_outing(scene.known, scene.profile, weight_kg)
    if kcal is None:
        return Part((), (Say(scene.who, Kind.HELP, ("card_energy", "energy_not_known"), slots=where(scene.profile)),))
    return Part((), (Say(scene.who, Kind.HELP, ("energy_last",), slots=(Slot("kcal", f"{shown(kcal)}"),)),))


def _weight(scene: Scene) -> float | None:
    """The smoothed weight, else what was said at the start; None: not known, or there is reason for care."""
    profile, weights = scene.profile, scene.known.weights
    if not weights and profile.weight_kg is not None:
        weights = (Weighing(scene.today, profile.weight_kg),)
    trend = weight_trend(weights, profile.height_cm)
    return None if trend is None or trend.cautions else trend.kg


def _last_outing(known: Known, profile: Profile, weight_kg: float) -> float | None:
    """kcal on top of resting of all that was done on the last day with an outing; None: not known."""
    outings = [each for each in known.entries if each.status is Status.DONE and each.kind in OUTINGS]
    last = [each for each in outings if each.on == outings[-1].on]
    planned, paces = {each.on: each for each in known.sessions}, usual_paces(profile)
    found = [
        energy_done(each, planned.get(each.planned_on or each.on), weight_kg, paces.walk / 1000, paces.jog / 1000)
        for each in last
    ]
    amounts = [each.net for each in found if each is not None]
    return sum(amounts) if amounts and len(amounts) == len(found) else None
