"""Days that ask for less: somebody died, a bad night, no time at all. Offers, no lecture."""

from bot.conversation.changes import Change, Fix, MarkStale, Replan, SetQuestion, SetSnooze, StartBreak
from bot.conversation.known import Question
from bot.conversation.says import Asks, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.coach import notice, sent
from bot.conversation.topics.later import TOMORROW
from bot.conversation.topics.resize import MINUTES
from planning.step import Today, next_step
from planning.terms.choices import Share
from planning.terms.entry import Break, Fixed


def loss(scene: Scene) -> Part | None:
    """Somebody close has died: one warm line, and a pause that nobody has to ask for (common practice, no source)."""
    if not scene.reading.loss or Kind.URGENT in scene.taken or Kind.CARE in scene.taken:
        return None
    told = notice(scene, "notice_care", needs=Share.CARE)
    days_off = StartBreak(Break(scene.today, None), scene.id)
    changes: tuple[Change, ...] = (days_off, SetSnooze(None), SetQuestion(None), Replan())
    said = Say(scene.who, Kind.CARE, ("care_loss",), Facts(codes=()))
    return Part((*changes, *sent(scene, told)), (said, *told))


def bad_night(scene: Scene) -> Part | None:
    """After little sleep, a night shift, a hangover or on a period: the same day, one step lower."""
    reading = scene.reading
    session = scene.session_today
    if session is None or scene.stopped or reading.did or (reading.slept_h is None and not reading.low_day):
        return None
    step = next_step(session, Today(scene.today, slept_h=reading.slept_h, low=reading.low_day))
    if step.session == session:
        return None
    said = Say(scene.who, Kind.SHRUNK, ("shrunk_day", "this_session"), Facts(session=step.session, why=step.why))
    return Part((Fix(Fixed(session.on, step.session), scene.id), MarkStale(), SetQuestion(None)), (said,))


def no_time(scene: Scene) -> Part | None:
    """A double shift: ten minutes or tomorrow, as they like."""
    session = scene.session_today
    if not scene.reading.no_time or session is None or scene.stopped or scene.taken:
        return None
    question = SetQuestion(Question(Asks.TIME, scene.today))
    choices = (MINUTES[0], TOMORROW[0])
    return Part((question,), (Say(scene.who, Kind.ASK, ("ask_no_time",), Facts(asks=Asks.TIME), choices=choices),))
