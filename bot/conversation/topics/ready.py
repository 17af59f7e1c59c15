"""Whether somebody will be ready by the race: by their own last four weeks, in words and a band, never as a promise."""

from datetime import date
from zlib import crc32

from bot.conversation.says import Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.where import where
from planning.progress.ahead import kept, still_ahead
from planning.progress.readiness import Odds, Readiness, readiness
from planning.terms.plan import Plan

WORDS = {
    Odds.LIKELY: ("ready_likely", "ready_band"),
    Odds.EVEN: ("ready_even", "ready_band"),
    Odds.UNLIKELY: ("ready_unlikely", "ready_band", "ready_ways"),
}
TENTHS = 10


def ready(scene: Scene) -> Part | None:
    """How likely it is to be ready by the date; None: four weeks have to pass first, or sessions are on hold."""
    plan, race = scene.known.plan, scene.profile.race
    if scene.stopped or plan is None or not plan.may_start:
        return None
    if scene.profile.screen.pregnant:
        words: tuple[str, ...] = ("card_pregnancy", "card_pregnancy_see")
        return Part((), (Say(scene.who, Kind.HELP, words, slots=where(scene.profile)),))
    if race is None or race.on <= scene.today:
        return _without_date(scene, plan)
    return _by(scene, plan, race.on)


def _without_date(scene: Scene, plan: Plan) -> Part | None:
    """Nobody is late for a race that has no date; the first one that leaves room can be named."""
    if plan.earliest_race is None or plan.earliest_race <= scene.today:
        return None
    said = Say(
        scene.who, Kind.HELP, ("ready_no_date",), slots=(Slot("earliest", _day(plan.earliest_race, scene.today)),)
    )
    return Part((), (said,))


def _by(scene: Scene, plan: Plan, on: date) -> Part | None:
    """The answer for a race on that day."""
    ahead = still_ahead(plan, scene.today)
    seed = crc32(f"{scene.who} {scene.today}".encode())
    found = readiness(kept(plan, scene.known.entries, scene.today), ahead.weeks, ahead.steps, seed)
    if plan.fits and found.odds is Odds.NOT_KNOWN:
        return None
    words = WORDS[found.odds] if plan.fits else ("ready_too_near", "ready_ways")
    later = plan.earliest_race if plan.earliest_race is not None and plan.earliest_race > on else None
    if later is not None and "ready_ways" in words:
        words = (*words, "ready_later")
    slots = (
        Slot("by", _day(on, scene.today)),
        Slot("of_ten", _of_ten(found)),
        Slot("earliest", _day(later or on, scene.today)),
    )
    return Part((), (Say(scene.who, Kind.HELP, words, slots=slots),))


def _of_ten(found: Readiness) -> str:
    """The band in whole tenths: never narrower than it is, and never one number alone."""
    low, high = int(found.low * TENTHS), -int(-found.high * TENTHS // 1)
    return f"{min(low, TENTHS - 1)} to {max(high, 1)}"


def _day(on: date, today: date) -> str:
    """A date, with its year if that is another one."""
    return f"{on.day} {on:%B}" if on.year == today.year else f"{on.day} {on:%B %Y}"
