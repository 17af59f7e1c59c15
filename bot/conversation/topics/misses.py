"""Misses in a row: the smallest version next, what gets in the way is asked, the third time the coach is told."""

from datetime import time, timedelta

from bot.conversation.changes import Change, Fix, SetQuestion
from bot.conversation.known import Known, Question, Rule
from bot.conversation.says import Asks, Choice, Facts, Kind, Say
from bot.conversation.scene import Part, Scene
from bot.conversation.topics.coach import notice
from bot.conversation.topics.hours import missed_twice_at, offer, offered, slots_of
from planning.step import Today, next_step
from planning.terms.entry import Entry, Fixed, Status
from planning.terms.plan import Session
from planning.terms.reasons import Reason

TWO, LOOK_BACK = 2, 5
"""Misses in a row, and sessions among which three are too many."""

STILL_OPEN = timedelta(days=2)
"""Later words are no answer to what got in the way."""

WHY = (
    Choice("why_time", "no time, work or family"),
    Choice("why_body", "something hurts"),
    Choice("why_mood", "could not face it"),
)


WORDS = {"why_time": "why_heard", "why_body": "why_body", "why_mood": "why_mood"}


def misses_in_a_row(known: Known, more: tuple[Entry, ...] = ()) -> int:
    """Sessions in a row, up to the last one, of which nothing was done; *more*: entries that are just being kept."""
    count = 0
    for done in reversed(outcomes(known, more)):
        if done:
            break
        count += 1
    return count


def outcomes(known: Known, more: tuple[Entry, ...] = ()) -> tuple[bool, ...]:
    """For each planned session that is over, oldest first, whether something of it was done."""
    by_day: dict[object, bool] = {}
    for entry in sorted((*known.entries, *more), key=lambda each: each.on):
        if entry.planned_on is not None:
            by_day[entry.planned_on] = by_day.get(entry.planned_on, False) or entry.status is Status.DONE
    return tuple(by_day.values())


def too_many(known: Known, more: tuple[Entry, ...] = ()) -> bool:
    """Two missed in a row, or three of five."""
    if Rule.SMALLER in known.marks.left_out:
        return False
    return misses_in_a_row(known, more) >= 2 or outcomes(known, more)[-LOOK_BACK:].count(False) >= 3


def after_miss(scene: Scene, more: tuple[Entry, ...]) -> Part:
    """What follows from one more miss that was said."""
    following = next(scene.coming(), None)
    if following is None or scene.stopped:
        return Part()
    hour = missed_twice_at(scene.known, more)
    if not too_many(scene.known, more):
        return _same_hour(scene, hour) if hour else Part()
    why = (Reason.TWO_MISSES,) if misses_in_a_row(scene.known, more) >= 2 else (Reason.THREE_OF_FIVE_MISSED,)
    smaller = smallest(following)
    changes: tuple[Change, ...] = (
        Fix(Fixed(following.on, smaller), scene.id),
        SetQuestion(Question(Asks.WHY_MISSED, scene.today)),
    )
    facts = Facts(session=smaller, why=why, asks=Asks.WHY_MISSED)
    words = ("shrunk_misses", *(("if_then",) if hour else ()), "ask_why_missed")
    said = Say(scene.who, Kind.SHRUNK, words, facts, choices=WHY, slots=slots_of(hour) if hour else ())
    told = notice(scene, "notice_misses", why=why) if misses_in_a_row(scene.known, more) == 3 else ()
    return Part(changes, (said, *told))


def _same_hour(scene: Scene, hour: time) -> Part:
    """Missed twice at one hour, and done at others: an if-then line, and the hour that works if there is one."""
    said = Say(scene.who, Kind.LOGGED, ("if_then",), slots=slots_of(hour))
    wish = offer(scene.known, scene.profile, hour)
    return offered(scene, wish, said) if wish else Part((), (said,))


def smallest(session: Session) -> Session:
    """The smallest version of a session."""
    return next_step(session, Today(session.on, misses=TWO)).session


def why_missed(scene: Scene) -> Part | None:
    """The answer to what gets in the way, where it holds nothing else to act on."""
    pressed = next((each for each in WHY if each.text == scene.reading.text), None)
    if scene.taken or (pressed is None and not _is_open(scene)):
        return None
    words = WORDS[pressed.label] if pressed else "why_heard"
    facts = Facts(next=None, why=())
    hour = missed_twice_at(scene.known)
    wish = offer(scene.known, scene.profile, hour) if hour and words == "why_heard" else None
    if wish is not None:
        return offered(scene, wish, Say(scene.who, Kind.CHANGED, ("why_heard", "next_step"), facts))
    words = "why_heard_which" if words == "why_heard" else words
    return Part((SetQuestion(None),), (Say(scene.who, Kind.CHANGED, (words, "next_step"), facts),))


def gives_reason(scene: Scene) -> bool:
    """Whether the answer to what got in the way is one of those offered: then it tells of no further miss."""
    question = scene.known.question
    asked = question is not None and question.asks is Asks.WHY_MISSED
    return asked and any(each.text == scene.reading.text for each in WHY)


def _is_open(scene: Scene) -> bool:
    """Whether the question stands and this is more than small talk."""
    question = scene.known.question
    fresh = question is not None and question.asks is Asks.WHY_MISSED and scene.today - question.on <= STILL_OPEN
    return fresh and bool(scene.reading.unread)
