"""Grave messages: they ask for "seen"; unseen for half an hour they go to a deputy, or out once more."""

from datetime import datetime

from bot.conversation.agenda import CARE
from bot.conversation.changes import Outcome, PassNotices, SeeNotices
from bot.conversation.coach.lexicon import folded
from bot.conversation.coach.names import named, shown
from bot.conversation.coach_agenda import may_pass, passed_at
from bot.conversation.known import Known, Notice, Team
from bot.conversation.says import Choice, Facts, Kind, Say, Slot
from planning.terms.choices import Share
from planning.terms.person import Profile


def unseen(known: Known, profile: Profile, team: Team, now: datetime) -> Outcome:
    """Half an hour has passed: each runner's grave message goes to the deputy, or to the coach once more."""
    due = [each for each in known.notices if may_pass(known, each) and passed_at(profile, each) <= now]
    there = any(each.who == profile.deputy for each in team.peers)
    to = profile.deputy if there and profile.deputy else known.who
    first: dict[str, Notice] = {}
    for notice in due:
        first.setdefault(notice.runner, notice)
    people = {each.who: each for each in team.runners}
    says = tuple(_again(people[who], to, known, each) for who, each in first.items() if who in people)
    return Outcome((PassNotices(tuple(first), to),), says)


def _again(runner: Known, to: str, coach: Known, notice: Notice) -> Say:
    """The message itself. A deputy learns who needs a person, and nothing else of them."""
    own = coach.profile.called if coach.profile else ""
    slots = (Slot("called", shown(runner)), Slot("coach", own or coach.who))
    words = "notice_again" if to == coach.who else "notice_deputy"
    shares = runner.profile.shares if runner.profile else frozenset()
    codes = tuple(code for hold in runner.holds for code in hold.codes if code not in CARE or Share.CARE in shares)
    facts = Facts(who=runner.who)
    if to == coach.who and codes and Share.BODY in shares:
        facts = Facts(who=runner.who, codes=codes)
    return Say(to, Kind.NOTICE, (words,), facts, (seen_choice(runner.who),), slots, key=f"again:{notice.from_id}")


def seen_choice(runner: str) -> Choice:
    """The button under a grave message."""
    return Choice("seen", f"seen {runner}")


def acted(known: Known, runner: Known, now: datetime) -> tuple[SeeNotices, ...]:
    """Who does something about a runner has seen the messages about them."""
    waiting = any(each.runner == runner.who for each in known.notices)
    return (SeeNotices((runner.who,), now),) if waiting else ()


def saw(known: Known, team: Team, name: str | None, now: datetime) -> Outcome:
    """The coach has seen the grave messages about the runner of that *name*, or all of them."""
    runners = tuple(dict.fromkeys(each.runner for each in known.notices))
    if name is not None:
        asked = {each.who for each in named(name, team.runners)}
        runners = tuple(who for who in runners if who in asked or folded(who) == folded(name))
    if not runners:
        return Outcome((), (Say(known.who, Kind.SMALL, ("seen_nothing",)),))
    return Outcome((SeeNotices(runners, now),), (Say(known.who, Kind.SMALL, ("seen_noted",)),))
