"""What ratings add up to: too hard twice, a step down now; a whole week too easy, a step up next week."""

from datetime import timedelta

from bot.conversation.changes import Change, Fix, Replan
from bot.conversation.known import Known
from bot.conversation.says import Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from planning.step import Today, next_step, step_up
from planning.step import ceiling as most_of
from planning.terms.entry import Entry, Fixed, Status
from planning.terms.plan import Session
from planning.terms.reasons import Reason
from planning.terms.steps import Ceiling

NEW_FOR = timedelta(weeks=3)
"""So long every session is asked about; later new steps and long ones are. Common practice, no source."""

MONTH = timedelta(days=30)
LEAST_RATED = 3
"""So many rated sessions make a week that can be called too easy."""


def is_asked(scene: Scene, session: Session | None) -> bool:
    """Whether it is worth asking how hard a session was."""
    if session is None or scene.today - scene.profile.begin < NEW_FOR or session.purpose.value != "easy":
        return True
    before = (each.run_seconds for each in scene.known.sessions if session.on - MONTH <= each.on < session.on)
    return session.run_seconds > max(before, default=0)


def judged(scene: Scene, rated: tuple[Entry, ...]) -> Part:
    """What follows from one more rating."""
    if scene.stopped or not rated or rated[-1].effort is None:
        return Part()
    ratings = _ratings(scene.known, rated)
    following = next(scene.coming(), None)
    if following is None:
        return Part()
    down = next_step(following, Today(scene.today, efforts=tuple((effort, high) for effort, _, high in ratings[-2:])))
    if Reason.TOO_HARD_TWICE in down.why:
        return _changed(scene, down.session, Reason.TOO_HARD_TWICE, "too_hard")
    return _too_easy(scene, ratings)


def _ratings(known: Known, rated: tuple[Entry, ...]) -> list[tuple[float, int, int]]:
    """Rating, lowest and highest wished effort of each rated session, oldest first."""
    wished = {each.on: each.effort for each in known.sessions}
    said = {each.planned_on: each.effort for each in (*known.entries, *rated) if each.status is Status.DONE}
    return [(effort, *wished[day]) for day, effort in said.items() if effort is not None and day in wished]


def _too_easy(scene: Scene, ratings: list[tuple[float, int, int]]) -> Part:
    """All of the last week below what was wished: the first session of next week grows, if the limits let it."""
    monday = scene.today + timedelta(days=7 - scene.today.weekday())
    is_last = not any(scene.today < each.on < monday for each in scene.coming())
    week = len([each for each in scene.known.sessions if monday - timedelta(days=7) <= each.on < monday])
    recent = ratings[-week:] if week else []
    nextweek = next((each for each in scene.coming() if each.on >= monday), None)
    if not is_last or nextweek is None or len(recent) < LEAST_RATED:
        return Part()
    if any(effort >= low for effort, low, _ in recent):
        return Part()
    step = step_up(nextweek, ceiling(scene, nextweek), Reason.TOO_EASY_WEEK)
    return _changed(scene, step.session, Reason.TOO_EASY_WEEK, "too_easy")


def ceiling(scene: Scene, session: Session) -> Ceiling:
    """The most that *session* may hold by what was done in the 30 days before it."""
    done = {each.planned_on for each in scene.known.entries if each.status is Status.DONE}
    before = [each for each in scene.known.sessions if each.on in done and session.on - MONTH <= each.on < session.on]
    return most_of(scene.profile, before, scene.known.breaks, session)


def _changed(scene: Scene, session: Session, why: Reason, words: str) -> Part:
    changes: tuple[Change, ...] = (Fix(Fixed(session.on, session), scene.id), Replan())
    return Part(changes, (Say(scene.who, Kind.CHANGED, (words, "next_step"), Facts(next=None, why=(why,))),))
