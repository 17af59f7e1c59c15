"""What a coach promised to runners, until it is kept."""

from dataclasses import replace

from bot.conversation.changes import Outcome, SetMarks
from bot.conversation.coach.names import shown
from bot.conversation.coach.orders import Promised
from bot.conversation.known import Known, Marks, Promise
from bot.conversation.says import Facts, Kind, Say, Slot
from bot.conversation.scene import Scene


def promised(scene: Scene, order: Promised) -> Outcome:
    """It stands in the list from that day on; the last word about a runner counts."""
    others = kept(scene.known.marks, order.runner)
    marks = replace(others, promises=(*others.promises, Promise(order.runner.who, order.on)))
    slots = (Slot("called", shown(order.runner)), Slot("promised_on", f"{order.on:%a} {order.on.day} {order.on:%b}"))
    said = Say(scene.who, Kind.SMALL, ("coach_promised",), Facts(who=order.runner.who), slots=slots)
    return Outcome((SetMarks(marks),), (said,))


def kept(marks: Marks, runner: Known) -> Marks:
    """Words went to the runner: nothing is promised any more."""
    return replace(marks, promises=tuple(each for each in marks.promises if each.who != runner.who))
