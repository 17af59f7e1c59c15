"""Changes for good: other days or times; and corrections of what was said."""

from dataclasses import replace

from bot.conversation.changes import AddEntry, Change, KeepProfile, MarkStale, ReplaceEntries, SetQuestion
from bot.conversation.says import Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.reading.facts import Habit
from planning.terms.entry import Entry, Status
from planning.terms.person import DayTime, Profile


def habit(scene: Scene) -> Part | None:
    """From now on other days, or another time."""
    wish = scene.reading.habit
    if wish is None or Kind.URGENT in scene.taken:
        return None
    profile = replace(scene.profile, days=_days(scene.profile, wish))
    facts = Facts(next=None, why=())
    said = Say(scene.who, Kind.CHANGED, ("habit", "next_step"), facts)
    return Part((KeepProfile(profile), SetQuestion(None)), (said,))


def _days(profile: Profile, wish: Habit) -> tuple[DayTime, ...]:
    """The days as wished; a day without a said time takes its old one, or that of the first day."""
    before = {each.day: each.at for each in profile.days}
    days = wish.days or tuple(before)
    usual = profile.days[0].at
    return tuple(DayTime(day, wish.at or before.get(day, usual)) for day in sorted(set(days)))


def correct(scene: Scene) -> Part | None:
    """ "That was 15, not 50": the last thing done becomes what is said now."""
    last = next((each for each in reversed(scene.known.entries) if each.status is Status.DONE), None)
    if not scene.reading.correct or not scene.reading.did or last is None:
        return None
    did = scene.reading.did[0]
    fixed = replace(last, minutes=did.minutes, km=did.km, share=did.share, from_id=scene.id)
    facts = Facts(entries=(fixed,), next=None)
    changes: tuple[Change, ...] = (*_instead(scene, last, fixed), MarkStale())
    return Part(changes, (Say(scene.who, Kind.UNDONE, ("corrected", "next_step"), facts),))


def _instead(scene: Scene, last: Entry, fixed: Entry) -> tuple[Change, ...]:
    if last.planned_on is None:
        return (AddEntry(fixed),)
    same_day = [each for each in scene.known.entries if each.planned_on == last.planned_on and each != last]
    return (ReplaceEntries(last.planned_on, (*same_day, fixed), scene.id),)
