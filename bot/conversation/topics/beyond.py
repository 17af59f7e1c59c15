"""Far more than planned: welcome, kept, raises nothing, and two days without running after it."""

from datetime import timedelta

from bot.conversation.changes import Change, Fix
from bot.conversation.says import Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from planning.progress.review import minutes_done
from planning.progress.spike import REST_HOURS, WINDOW_DAYS, Spike, longest_before, spike
from planning.step import Today, next_step
from planning.terms.entry import Entry, Fixed, Status
from planning.terms.plan import Session
from planning.terms.reasons import Reason

FAR = frozenset({Spike.MODERATE, Spike.LARGE})
MINUTES_A_KM = 10
"""What a kilometre takes at least at a beginner's pace, where only kilometres were said. Common practice, no source."""

SURELY = 20
"""Minutes that everybody's first session may hold."""


def beyond(scene: Scene, session: Session | None, entries: tuple[Entry, ...]) -> Part:
    """What follows if the outing went far beyond the plan and beyond the longest of the 30 days before."""
    minutes = sum(each.minutes or (each.km or 0) * MINUTES_A_KM for each in entries if each.on == scene.today)
    planned = session.minutes if session else 0
    if scene.stopped or minutes <= planned or spike(round(minutes * 60), _longest(scene)) not in FAR:
        return Part()
    following = next(scene.coming(), None)
    said = Say(scene.who, Kind.LOGGED, ("beyond",), Facts(why=(Reason.BEYOND_PLAN,)))
    if following is None or following.on > scene.today + timedelta(hours=REST_HOURS):
        return Part((), (said,))
    step = next_step(following, Today(scene.today, beyond_plan=True))
    changes: tuple[Change, ...] = (Fix(Fixed(following.on, step.session), scene.id),)
    return Part(changes if step.session != following else (), (said,))


def _longest(scene: Scene) -> int:
    """Seconds of the longest outing of the 30 days before today, or what was surely doable at the start."""
    done = [each for each in scene.known.entries if each.status is Status.DONE and each.on < scene.today]
    by_plan = {each.planned_on or each.on for each in done if each.minutes is None}
    lengths = {each.on: each.minutes for each in scene.known.sessions if each.on in by_plan}
    days = ((each.on, round(minutes_done(each, lengths) * 60)) for each in done)
    first = round(max(SURELY, scene.profile.longest_min) * 60)
    recent = scene.today - scene.profile.begin <= timedelta(days=WINDOW_DAYS)
    longest = longest_before(days, scene.today) or 0
    return max(longest, first) if recent or not longest else longest
