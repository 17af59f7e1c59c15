"""Words of a coach for all of their runners: shown first, sent after a yes."""

from bot.conversation.answers import says_yes
from bot.conversation.changes import Outcome, SetQuestion
from bot.conversation.coach.sentences import MARK, cleaned
from bot.conversation.known import Question, Team
from bot.conversation.says import Asks, Choice, Facts, Kind, Say, Slot
from bot.conversation.scene import Scene

SEND = (Choice("all_yes", "yes"), Choice("all_no", "no"))


def to_all(scene: Scene, team: Team, said: str) -> Outcome:
    """What would go out, and to how many."""
    if not team.runners:
        return Outcome((), (Say(scene.who, Kind.NOT_READ, ("coach_nobody",)),))
    words = cleaned(said)
    slots = (Slot("count", str(len(team.runners))), Slot("said", words.replace('"', "'")))
    asked = Say(scene.who, Kind.ASK, ("ask_all",), Facts(asks=Asks.CONFIRM), SEND, slots)
    return Outcome((SetQuestion(Question(Asks.CONFIRM, scene.today, said=words)),), (asked,))


def sent_to_all(scene: Scene, team: Team, said: str) -> Outcome:
    """The answer to it. Nobody sees who else got it."""
    over = SetQuestion(None)
    if not says_yes(scene.reading.text):
        return Outcome((over,), (Say(scene.who, Kind.SMALL, ("all_not_sent",)),))
    slots = (Slot("coach", cleaned(scene.profile.called or scene.who)), Slot("mark", MARK), Slot("said", said))
    told = (Say(each.who, Kind.PASSED_ON, ("from_coach",), Facts(who=scene.who), slots=slots) for each in team.runners)
    own = Say(scene.who, Kind.PASSED_ON, ("all_sent",), slots=(Slot("count", str(len(team.runners))),))
    return Outcome((over,), (own, *told))
