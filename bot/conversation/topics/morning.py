"""How is it now? Asked the morning after, and on the evening of a bad day."""

from dataclasses import replace
from datetime import date

from bot.conversation.agenda import CARE
from bot.conversation.changes import LiftHolds, Outcome, SetMarks, SetQuestion
from bot.conversation.events import Due
from bot.conversation.known import Known, Question
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.topics.triage import MOST_QUESTIONS, YES_NO, levels_of
from bot.conversation.topics.where import where
from planning.terms.choices import Colour
from planning.terms.entry import Complaint, Flag, Status
from planning.terms.person import Profile

SEEN = (Choice("seen_yes", "a doctor cleared me"), Choice("seen_no", "not yet"))


def follow_up(known: Known, due: Due) -> Outcome:
    """The question of the morning after: about the gravest thing that stands."""
    marks = SetMarks(replace(known.marks, followed_on=due.on))
    name = due.key(known.who)
    if any(CARE & set(hold.codes) for hold in known.holds):
        lift = LiftHolds(due.on, "a day has passed", f"follow-{due.on}")
        only_care = all(set(hold.codes) <= CARE for hold in known.holds)
        gentle = Say(known.who, Kind.ASK, ("ask_how_are_you",), Facts(asks=None), key=name)
        return Outcome((marks, *((lift,) if only_care else ())), (gentle,))
    if known.holds:
        said = Say(known.who, Kind.ASK, ("ask_seen",), Facts(asks=Asks.SEEN), choices=SEEN, key=name)
        return Outcome((marks, SetQuestion(Question(Asks.SEEN, due.on))), (said,))
    flags = [flag for flag in known.flags if flag.cleared_on is None]
    if not flags:
        return Outcome((marks,))
    flag = next((each for each in flags if each.colour is Colour.RED), flags[-1])
    words = "ask_red_daily" if flag.colour is Colour.RED else "ask_next_morning"
    facts = Facts(asks=Asks.NEXT_MORNING, parts=(flag.part,))
    said = Say(known.who, Kind.ASK, ("morning", words), facts, choices=YES_NO, key=name)
    return Outcome((marks, SetQuestion(next_morning(flag, due.on))), (said,))


def next_morning(flag: Flag, day: date) -> Question:
    """The question whether it is still there."""
    return Question(Asks.NEXT_MORNING, day, complaint=Complaint(flag.part, flag.side))


def evening(known: Known, profile: Profile, due: Due) -> Outcome:
    """One question on the evening of an amber flag, or of a session that went badly."""
    marks = SetMarks(replace(known.marks, evening_on=due.on))
    flag = next((each for each in known.flags if is_amber_of(each, due.on)), None)
    if flag is not None:
        return _level_now(known, flag, due, marks)
    done = any(each.on == due.on and each.status is Status.DONE for each in known.entries)
    asks = None if done else Asks.DONE
    question = None if done else Question(Asks.DONE, due.on, session_on=due.on)
    words = ("evening", "evening_rescue", "evening_how" if done else "evening_done")
    said = Say(known.who, Kind.ASK, words, Facts(asks=asks), slots=where(profile), key=due.key(known.who))
    return Outcome((marks, SetQuestion(question)), (said,))


def is_amber_of(flag: Flag, day: date) -> bool:
    """Whether the flag stands and is amber since that day."""
    return flag.colour is Colour.AMBER and flag.cleared_on is None and flag.since == day


def _level_now(known: Known, flag: Flag, due: Due, marks: SetMarks) -> Outcome:
    """A number again; whatever else there was to ask of the complaint was asked before."""
    complaint = Complaint(flag.part, flag.side)
    facts = Facts(asks=Asks.LEVEL, parts=(flag.part,))
    said = Say(
        known.who, Kind.ASK, ("evening", "ask_level_now"), facts, choices=levels_of(flag), key=due.key(known.who)
    )
    question = Question(Asks.LEVEL, due.on, complaint=complaint, tries=MOST_QUESTIONS)
    return Outcome((marks, SetQuestion(question)), (said,))
