"""A change of a session: kept for the runner, and told to both."""

from dataclasses import replace

from bot.conversation.changes import Change, Fix, For, Outcome, Replan, SetMarks, TakeBack
from bot.conversation.coach.change import Trial, changed
from bot.conversation.coach.names import shown
from bot.conversation.coach.orders import Drop, Ease, HoldWeek, Make, Move
from bot.conversation.known import Deed, Known, Team, Whole
from bot.conversation.says import UNSET, Facts, Kind, Say, Slot
from bot.conversation.scene import Scene
from planning.calendar import local
from planning.terms.choices import Share
from planning.terms.reasons import Reason

TO_RUNNER = {"coach_made": "from_coach_made", "coach_trimmed": "from_coach_made", "coach_dropped": "from_coach_dropped"}


def told_of_change(
    scene: Scene, runner: Known, whole: Whole | None, deed: HoldWeek | Make | Drop | Ease | Move
) -> Outcome:
    """What the change comes to, for the coach who wishes it and for the *runner*."""
    slots = (Slot("called", shown(runner)), Slot("coach", scene.profile.called or scene.who))
    if whole is None or runner.profile is None:
        facts = Facts(who=runner.who, next=None, why=())
        return Outcome((), (Say(scene.who, Kind.CHANGED, ("coach_nothing_there",), facts, slots=slots),))
    trial = Trial(runner, runner.profile, whole, local(scene.now, runner.profile.tz).date())
    change = changed(trial, deed)
    following = None if Share.LOG in runner.profile.shares else UNSET
    own = Facts(who=runner.who, session=change.session, next=following, why=change.why)
    said = Say(scene.who, Kind.CHANGED, (change.words,), own, slots=slots)
    if not change.fixed:
        return Outcome((), (said,))
    dropped = change.words == "coach_dropped"
    full = Facts(session=None if dropped else change.session, next=None, why=change.why)
    words = TO_RUNNER.get(change.words, "from_coach_held")
    told = Say(runner.who, Kind.CHANGED, (words, "next_step"), full, slots=slots)
    kept: tuple[Change, ...] = tuple(Fix(each, scene.id) for each in change.fixed)
    marks = SetMarks(replace(scene.known.marks, deed=Deed(runner.who, scene.id)))
    return Outcome((marks,), (said, told), (For(runner.who, (*kept, Replan())),))


def undo(scene: Scene, team: Team) -> Outcome:
    """The coach's last change for a runner is taken back, and both are told."""
    deed = scene.known.marks.deed
    runner = next((each for each in team.runners if deed and each.who == deed.who), None)
    if deed is None or runner is None:
        return Outcome((), (Say(scene.who, Kind.UNDONE, ("coach_undo_nothing",)),))
    slots = (Slot("called", shown(runner)), Slot("coach", scene.profile.called or scene.who))
    following = None if runner.profile and Share.LOG in runner.profile.shares else UNSET
    own = Say(scene.who, Kind.UNDONE, ("coach_undone",), Facts(who=runner.who, next=following), slots=slots)
    facts = Facts(next=None, why=(Reason.COACH_ASKED,))
    told = Say(runner.who, Kind.CHANGED, ("from_coach_undone", "next_step"), facts, slots=slots)
    marks = SetMarks(replace(scene.known.marks, deed=None))
    return Outcome((marks,), (own, told), (For(runner.who, (TakeBack(deed.from_id), Replan())),))
