"""What a coach says that is no change of a plan: words for a runner, who stands in, a code, farewell."""

import unicodedata
from dataclasses import replace
from datetime import date

from bot.conversation.answers import says_no, says_yes
from bot.conversation.changes import Erase, For, KeepProfile, MakeCode, Outcome, SetMarks, SetQuestion, SetWaiting
from bot.conversation.coach.codes import mark_of
from bot.conversation.coach.names import shown
from bot.conversation.coach.notices import acted
from bot.conversation.coach.orders import Away, Tell
from bot.conversation.coach.promises import kept
from bot.conversation.known import Known, Peer, Question, Team
from bot.conversation.says import Asks, Choice, Facts, Kind, Say, Slot
from bot.conversation.scene import Scene
from planning.terms.choices import Role

MARK = "\u2709"
"""Stands before words of a coach; it is taken out of all that people write."""

LONGEST = 3000
HIDDEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})


def tell(scene: Scene, order: Tell) -> Outcome:
    """Words go to the runner as they are, marked as the coach's; whoever waited for them waits no longer."""
    runner = order.runner
    coach = Slot("coach", cleaned(scene.profile.called or scene.who))
    slots = (coach, Slot("mark", MARK), Slot("said", cleaned(order.said)))
    told = Say(runner.who, Kind.PASSED_ON, ("from_coach",), Facts(who=scene.who), slots=slots)
    own = Say(scene.who, Kind.PASSED_ON, ("coach_told",), Facts(who=runner.who), slots=(Slot("called", shown(runner)),))
    seen = acted(scene.known, runner, scene.now)
    answered = (SetWaiting(None), SetMarks(replace(runner.marks, wrote=False)))
    return Outcome((*seen, SetMarks(kept(scene.known.marks, runner))), (own, told), (For(runner.who, answered),))


def cleaned(text: str) -> str:
    """*text* without what can't be seen and without the mark; line ends stay."""
    return "".join(each for each in text if _is_shown(each))[:LONGEST].strip()


def _is_shown(each: str) -> bool:
    return each == "\n" or each == "\u200d" or (unicodedata.category(each) not in HIDDEN and each != MARK)


def away(scene: Scene, team: Team, order: Away) -> Outcome:
    """Somebody stands in: for as long as the coach is away, or whenever a message isn't seen."""
    deputy = None if order.deputy is None else _peer(order.deputy, team)
    if order.deputy is not None and deputy is None:
        return Outcome((), (Say(scene.who, Kind.NOT_READ, ("deputy_unknown",)),))
    who = deputy.who if deputy else scene.profile.deputy
    profile = replace(scene.profile, deputy=who, away=order.away or scene.profile.away)
    named = next((each.called or each.who for each in team.peers if each.who == who), None)
    slots = (Slot("deputy", named or ""), Slot("coach", scene.profile.called or scene.who), _until(order.away))
    said = Say(scene.who, Kind.CHANGED, (_words(order, named),), Facts(next=None, why=()), slots=slots)
    asked = (
        Say(who, Kind.CHANGED, ("deputy_told",), Facts(who=scene.who, next=None, why=()), slots=slots) if who else None
    )
    told = (said, asked) if asked and named else (said,)
    return Outcome((KeepProfile(profile),), told)


def _words(order: Away, named: str | None) -> str:
    if order.away is None:
        return "deputy_kept"
    if named is None:
        return "away_alone"
    return "away_open" if order.away == date.max else "away_until"


def _until(day: date | None) -> Slot:
    return Slot("until", "" if day is None or day == date.max else f"{day:%a} {day.day} {day:%b}")


def _peer(name: str, team: Team) -> Peer | None:
    """The one other coach of that name."""
    wanted = name.casefold().strip(" .,!")
    found = [each for each in team.peers if wanted in (each.called.casefold(), each.who.casefold())]
    return found[0] if len(found) == 1 else None


def back(scene: Scene, *, alone: bool) -> Outcome:
    """The coach is there again. *alone*: nobody is to stand in any more."""
    profile = replace(scene.profile, away=None, deputy=None if alone else scene.profile.deputy)
    words = "deputy_none" if alone else "coach_back"
    return Outcome((KeepProfile(profile),), (Say(scene.who, Kind.CHANGED, (words,), Facts(next=None, why=())),))


def invite(scene: Scene, team: Team) -> Outcome:
    """A fresh code for one runner; only its mark is kept."""
    code = MakeCode(mark_of(team.code), Role.RUNNER, scene.now)
    said = Say(scene.who, Kind.HELP, ("invite_code",), slots=(Slot("code", team.code),), key=f"code:{scene.id}")
    return Outcome((code,), (said,))


def coach_leaves(scene: Scene) -> Outcome:
    """Asked once, then all goes."""
    question = SetQuestion(Question(Asks.CONFIRM, scene.today))
    choices = (Choice("leave_yes", "yes"), Choice("leave_no", "no"))
    said = Say(scene.who, Kind.ASK, ("ask_leave",), Facts(asks=Asks.CONFIRM), choices=choices)
    return Outcome((question,), (said,))


def confirmed(scene: Scene, team: Team) -> Outcome:
    """The answer to whether everything is to be erased. The runners stay, without a coach, and are told."""
    if not says_yes(scene.reading.text):
        words = "stays" if says_no(scene.reading.text) else "coach_not_read"
        said = Say(scene.who, Kind.CHANGED if words == "stays" else Kind.NOT_READ, (words,), Facts(next=None, why=()))
        return Outcome((SetQuestion(None),), (said,))
    gone = Say(scene.who, Kind.GONE, ("gone",))
    told = tuple(_without_coach(each) for each in team.runners)
    others = tuple(
        For(each.who, (KeepProfile(replace(each.profile, coach=None)), SetWaiting(None)))
        for each in team.runners
        if each.profile is not None
    )
    return Outcome((Erase(),), (gone, *told), others)


def _without_coach(runner: Known) -> Say:
    return Say(runner.who, Kind.CHANGED, ("coach_left", "next_step"), Facts(next=None, why=()))
