"""A coach's turn: what they say, and what falls due for them. They reach their own runners, and nobody else."""

from dataclasses import replace
from datetime import datetime

from bot.conversation.answers import names_clinician, says_no
from bot.conversation.changes import Outcome, SetMarks, SetQuestion, marks_after
from bot.conversation.coach import orders as o
from bot.conversation.coach.clear import cleared
from bot.conversation.coach.deeds import clearance, deed_of
from bot.conversation.coach.everybody import sent_to_all, to_all
from bot.conversation.coach.look import look_at
from bot.conversation.coach.names import full, shown
from bot.conversation.coach.needs import digest
from bot.conversation.coach.notices import saw, unseen
from bot.conversation.coach.promises import promised
from bot.conversation.coach.reader import order_of
from bot.conversation.coach.sentences import away, back, coach_leaves, confirmed, invite, tell
from bot.conversation.coach.told import told_of_change, undo
from bot.conversation.events import Due, DueKind
from bot.conversation.known import Known, Team
from bot.conversation.says import Asks, Facts, Kind, Say, Slot
from bot.conversation.scene import Scene
from bot.reading.facts import Want
from planning.calendar import local
from planning.terms.person import Profile


def names_runner(text: str, team: Team, here: datetime) -> str | None:
    """The one runner that a coach's message speaks of, whose whole plan it may need."""
    order = order_of(text, team.runners, here)
    return order.runner.who if isinstance(order, o.About) else None


def coach_turn(scene: Scene) -> Outcome:
    """What a coach's message leads to. In a group a coach has no more rights than anybody: nothing happens there."""
    if not scene.heard.private:
        return Outcome((SetMarks(replace(scene.known.marks, heard_at=scene.now)),))
    outcome = _answered(scene, scene.known.team or Team())
    read = Facts(reading=scene.reading)
    says = tuple(replace(say, facts=say.facts.joined(read)) if say.to == scene.who else say for say in outcome.says)
    kept = SetMarks(replace(marks_after(scene.known.marks, outcome.changes), heard_at=scene.now))
    return Outcome((*outcome.changes, kept), says, outcome.others)


def _answered(scene: Scene, team: Team) -> Outcome:
    question = scene.known.question
    if question is not None and question.asks is Asks.CONFIRM:
        return sent_to_all(scene, team, question.said) if question.said else confirmed(scene, team)
    if scene.reading.wants is Want.LEAVE:
        return coach_leaves(scene)
    if scene.reading.wants is Want.DATA:
        return Outcome((), (Say(scene.who, Kind.DATA, ("data",)),))
    waiting = tuple(each.runner for each in scene.known.notices)
    order = order_of(scene.reading.text, team.runners, scene.here, waiting)
    if isinstance(order, o.Unclear) and question is not None and question.asks is Asks.WHO_WHEN:
        return _who_when(scene, team, question.about)
    return _done(scene, team, order)


def _done(scene: Scene, team: Team, order: o.Order) -> Outcome:
    match order:
        case o.WhoNeeds():
            return Outcome((), (digest(scene.who, team.runners, scene.now, scene.today, scene.known.marks.promises),))
        case o.Seen(name=name):
            return saw(scene.known, team, name, scene.now)
        case o.Away():
            return away(scene, team, order)
        case o.Back():
            return back(scene, alone=order.alone)
        case o.Invite():
            return invite(scene, team)
        case o.Tell():
            return tell(scene, order)
        case o.About():
            return _about(scene, team, order)
        case o.All(said=said):
            return to_all(scene, team, said)
        case o.Undo():
            return undo(scene, team)
        case o.Promised():
            return promised(scene, order)
        case o.LookAt(runner=runner):
            return look_at(scene, runner)
        case o.Several():
            named = ", ".join(map(full, order.runners))
            return _not_read(scene, "coach_which", Slot("names", named), Slot("example", full(order.runners[0])))
        case o.Nobody():
            return _not_read(scene, "coach_nobody")
        case o.Help():
            return Outcome((), (Say(scene.who, Kind.HELP, ("coach_can",)),))
        case o.Unclear():
            return _not_read(scene, "coach_not_read")


def _not_read(scene: Scene, words: str, *slots: Slot) -> Outcome:
    return Outcome((), (Say(scene.who, Kind.NOT_READ, (words,), slots=slots),))


def _about(scene: Scene, team: Team, order: o.About) -> Outcome:
    runner = order.runner
    assert runner.profile is not None
    deed = deed_of(order.rest, local(scene.now, runner.profile.tz))
    if deed is None:
        return _not_read(scene, "coach_what", Slot("called", shown(runner)))
    if isinstance(deed, o.Clear):
        return cleared(scene, runner, deed)
    return told_of_change(scene, runner, team.whole, deed)


def _who_when(scene: Scene, team: Team, about: str | None) -> Outcome:
    """The answer to who cleared a runner, and when."""
    runner = next((each for each in team.runners if each.who == about), None)
    if runner is None or runner.profile is None or says_no(scene.reading.text):
        return Outcome((SetQuestion(None),), (Say(scene.who, Kind.SMALL, ("coach_not_cleared",)),))
    said = clearance(scene.reading.text, local(scene.now, runner.profile.tz))
    if said is None or not names_clinician(scene.reading.text):
        return _not_read(scene, "coach_who_when_hint", Slot("called", shown(runner)))
    return cleared(scene, runner, said)


def coach_due(known: Known, profile: Profile, due: Due, now: datetime) -> Outcome:
    """What one thing that fell due for a coach leads to."""
    team = known.team or Team()
    if due.kind is DueKind.DEPUTY:
        return unseen(known, profile, team, now)
    if due.kind is not DueKind.DIGEST:
        return Outcome()
    today = local(now, profile.tz).date()
    kept = (SetMarks(replace(known.marks, digested_on=due.on)),)
    this_week = due.on.isocalendar()[:2]
    if not team.runners or today.isocalendar()[:2] != this_week:
        return Outcome(kept)
    year, week = this_week
    said = replace(
        digest(known.who, team.runners, now, today, known.marks.promises), key=f"digest:{known.who}:{year}-W{week:02}"
    )
    return Outcome(kept, (said,))
