"""A coach says that a clinician has cleared a runner. The coach's own word clears nobody."""

from dataclasses import replace

from bot.conversation.changes import For, Outcome, SetMarks, SetQuestion
from bot.conversation.clearance import Clearance, lifted, on_hold
from bot.conversation.coach.names import shown
from bot.conversation.coach.notices import acted
from bot.conversation.coach.orders import Clear
from bot.conversation.known import Deed, Known, Question
from bot.conversation.says import Asks, Facts, Kind, Say, Slot
from bot.conversation.scene import Scene
from planning.terms.choices import Share


def cleared(scene: Scene, runner: Known, deed: Clear) -> Outcome:
    """Lift what stands, on record with who and when; without a clinician's name it is asked."""
    slots = (Slot("called", shown(runner)), Slot("coach", scene.profile.called or scene.who))
    if not on_hold(runner):
        facts = Facts(who=runner.who, codes=(), next=None)
        return Outcome((), (Say(scene.who, Kind.CLEARED, ("coach_cleared_nothing",), facts, slots=slots),))
    if deed.by is None:
        question = Question(Asks.WHO_WHEN, scene.today, about=runner.who)
        said = Say(scene.who, Kind.ASK, ("coach_ask_who_when",), Facts(asks=Asks.WHO_WHEN, who=runner.who), slots=slots)
        return Outcome((SetQuestion(question),), (said,))
    found = lifted(runner, Clearance(deed.by, deed.on, scene.who, scene.id))
    full = Facts(codes=found.codes, next=None) if found.codes or found.screened else Facts(parts=found.parts, next=None)
    told = Say(runner.who, Kind.CLEARED, ("cleared_by_coach", "next_step"), full, slots=slots)
    own = Say(scene.who, Kind.CLEARED, ("coach_cleared",), _shared(runner, full), slots=slots)
    others = (For(runner.who, (*found.changes, SetQuestion(None))),)
    marks = SetMarks(replace(scene.known.marks, deed=Deed(runner.who, scene.id)))
    return Outcome((SetQuestion(None), marks, *acted(scene.known, runner, scene.now)), (own, told), others)


def _shared(runner: Known, full: Facts) -> Facts:
    """Of what was lifted only what the runner shares."""
    shares = runner.profile.shares if runner.profile else frozenset()
    if Share.BODY not in shares:
        full = Facts(codes=())
    own = Facts(who=runner.who, codes=full.codes, parts=full.parts)
    return replace(own, next=None) if Share.LOG in shares else own
