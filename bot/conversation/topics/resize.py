"""Less time than planned, heat, cold, smoke: the session fitted to the day."""

from bot.conversation.changes import Fix, MarkStale, SetQuestion
from bot.conversation.known import Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene, nothing_today
from planning.step import allowance, is_hot, resize, weather_step
from planning.terms.entry import Fixed, History
from planning.terms.plan import Session
from planning.terms.steps import Conditions, Step

MINUTES = (Choice("min_10", "10 min"), Choice("min_15", "15 min"), Choice("min_20", "20 min"))


def less_time(scene: Scene) -> Part | None:
    """Only so many minutes today."""
    minutes = scene.reading.have_min
    if minutes is None or scene.stopped or scene.reading.did or Kind.RESCUE in scene.taken:
        return None
    session = scene.session_today
    if session is None:
        return nothing_today(scene)
    history = History(scene.known.entries, scene.known.flags, scene.known.breaks)
    around = scene.known.sessions
    risen = allowance(scene.profile, history, session, around, scene.today, hot=_is_hot(scene))
    return _resized(scene, session, resize(session, minutes, risen), "resized")


def _is_hot(scene: Scene) -> bool:
    said = scene.reading.weather
    return said is not None and is_hot(Conditions(said.c, said.humidity, said.wind_kmh, said.aqi))


def weather(scene: Scene) -> Part | None:
    """Heat, cold, wind or smoke outside."""
    said = scene.reading.weather
    session = scene.session_next
    if said is None or session is None or scene.stopped or scene.reading.did:
        return None
    if said.ice:
        return _resized(scene, session, Step(session), "weather_ice")
    conditions = Conditions(said.c, said.humidity, said.wind_kmh, said.aqi)
    step = weather_step(session, conditions, scene.profile)
    words = (f"weather_{step.do}", *(("drink_hot",) if is_hot(conditions) and step.session.segments else ()))
    return _resized(scene, session, Step(step.session, step.why), *words)


def _resized(scene: Scene, session: Session, step: Step, *words: str) -> Part:
    facts = Facts(was_min=session.minutes, session=step.session, why=step.why)
    said = Say(scene.who, Kind.RESIZED, (*words, "this_session"), facts)
    if step.session == session:
        return Part((SetQuestion(None),), (said,))
    return Part((Fix(Fixed(session.on, step.session), scene.id), MarkStale(), SetQuestion(None)), (said,))


def ask_time(scene: Scene) -> Part:
    """The button "less time" opens this question."""
    facts = Facts(asks=Asks.TIME)
    question = Question(Asks.TIME, scene.today)
    return Part((SetQuestion(question),), (Say(scene.who, Kind.ASK, ("ask_time",), facts, choices=MINUTES),))
