"""The session is going badly right now: what is left, minute by minute, in steps that are still possible."""

from bot.conversation.changes import SetQuestion
from bot.conversation.says import Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from planning.step import rescue as rest_of


def rescue(scene: Scene) -> Part | None:
    """Answer "I can't go on" on the day of a session. Stuck by pain, danger or heat never gets this answer."""
    if not scene.reading.stuck or scene.taken & {Kind.URGENT, Kind.CARE, Kind.TRIAGE}:
        return None
    session = scene.session_on(scene.today)
    if session is None:
        return None
    done = next((each.minutes for each in scene.reading.did if each.minutes is not None), None)
    left = rest_of(session, done)
    facts = Facts(left_min=left.left_min, segments=left.segments)
    words = ("rescue", "rescue_steps", "rescue_danger")
    return Part((SetQuestion(None),), (Say(scene.who, Kind.RESCUE, words, facts),))
