"""What falls due by the clock, and the end of a silent day."""

from dataclasses import replace
from datetime import datetime

from bot.conversation.agenda import in_break, is_red
from bot.conversation.changes import AddEntry, MarkStale, Outcome, SetMarks
from bot.conversation.events import TOO_LATE, Due, DueKind
from bot.conversation.known import Known, Marks
from bot.conversation.topics.count import counted
from bot.conversation.topics.journey import home_again
from bot.conversation.topics.morning import evening, follow_up
from bot.conversation.topics.push import late_push, nudge, push
from bot.conversation.topics.review import four_weeks
from planning.terms.entry import Entry, Status
from planning.terms.person import Profile

BY_THE_HOUR = frozenset({DueKind.NUDGE, DueKind.REVIEW, DueKind.EVENING})
"""What nobody misses when its hour has gone by."""


TRAINING = frozenset({DueKind.PUSH, DueKind.NUDGE, DueKind.COUNT, DueKind.EVENING})
"""What nobody gets while danger or a red flag stands, even if it was written down before."""


def fell_due(known: Known, profile: Profile, due: Due, now: datetime) -> Outcome:
    """What one thing that fell due leads to. *now* is far behind it only when the bot was down."""
    if due.kind in TRAINING and (known.holds or is_red(known)):
        return Outcome()
    late = now - due.at > TOO_LATE if due.at else False
    if late and due.kind in BY_THE_HOUR:
        return Outcome((SetMarks(_as_if_sent(known.marks, due)),))
    if late and due.kind is DueKind.PUSH:
        return late_push(known, profile, due, now)
    match due.kind:
        case DueKind.PUSH:
            return push(known, due)
        case DueKind.NUDGE:
            return nudge(known, due)
        case DueKind.CLOSE:
            return _close(known, due)
        case DueKind.HOME:
            return home_again(known, profile, now)
        case DueKind.FOLLOW_UP:
            return follow_up(known, due)
        case DueKind.EVENING:
            return evening(known, profile, due)
        case DueKind.COUNT:
            return counted(known, now)
        case DueKind.REVIEW:
            said = four_weeks(known, due.on, due.key(known.who))
            return Outcome((SetMarks(replace(known.marks, reviewed_on=due.on)),), (said,))
        case DueKind.DEPUTY | DueKind.DIGEST:
            return Outcome()


def _as_if_sent(marks: Marks, due: Due) -> Marks:
    match due.kind:
        case DueKind.NUDGE:
            return replace(marks, nudged_on=due.on)
        case DueKind.EVENING:
            return replace(marks, evening_on=due.on)
        case _:
            return replace(marks, reviewed_on=due.on)


def _close(known: Known, due: Due) -> Outcome:
    """The day is over without a word: unknown, never zero load. A day that was on hold, or whose session was moved or
    dropped, says nothing.
    """
    went_away = all(each.on != due.on for each in known.sessions)
    if went_away or known.holds or is_red(known) or in_break(known.breaks, due.on):
        return Outcome((SetMarks(replace(known.marks, closed_on=due.on)),))
    entry = Entry(on=due.on, status=Status.NO_WORD, planned_on=due.on, from_id=f"silent-{due.on}")
    marks = SetMarks(replace(known.marks, closed_on=due.on))
    return Outcome((AddEntry(entry), marks, MarkStale()))
