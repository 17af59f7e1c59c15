"""What is to be kept. Each change that came from a message carries that message's id, so that it can be taken back."""

from dataclasses import dataclass, fields, replace
from datetime import date, datetime

from bot.conversation.draft import Draft
from bot.conversation.known import Hold, Marks, Question, Snooze
from bot.conversation.says import Say
from planning.terms.choices import Part, Role
from planning.terms.entry import Break, Entry, Fixed, Flag
from planning.terms.person import Profile


@dataclass(frozen=True, slots=True)
class AddEntry:
    """Keep one logged thing; its key is the message and its place in it."""

    entry: Entry
    place: int = 0


@dataclass(frozen=True, slots=True)
class ReplaceEntries:
    """The entries of one planned day become these (a second report of the same session, a rating that came later)."""

    planned_on: date
    entries: tuple[Entry, ...]
    from_id: str


@dataclass(frozen=True, slots=True)
class RaiseFlag:
    """A body complaint opens a flag or changes its colour."""

    flag: Flag
    from_id: str


@dataclass(frozen=True, slots=True)
class ClearFlag:
    """A part of the body is well again since this local date."""

    part: Part
    on: date
    from_id: str


@dataclass(frozen=True, slots=True)
class RaiseHold:
    """Danger: no session until a clinician has cleared it."""

    hold: Hold


@dataclass(frozen=True, slots=True)
class LiftHolds:
    """A clinician has cleared all that stands, with the flags that the same messages raised."""

    on: date
    by: str
    from_id: str


@dataclass(frozen=True, slots=True)
class StartBreak:
    """Days off, or ill."""

    pause: Break
    from_id: str


@dataclass(frozen=True, slots=True)
class EndBreaks:
    """Open breaks end; *last* is their last day off."""

    last: date
    from_id: str


@dataclass(frozen=True, slots=True)
class Fix:
    """A session was changed by a person and stands as it is now."""

    fixed: Fixed
    from_id: str


@dataclass(frozen=True, slots=True)
class Replan:
    """The plan is made anew from what really happened, before the answer is worded."""


@dataclass(frozen=True, slots=True)
class MarkStale:
    """The plan has to be made anew before the next session is sent; the answer doesn't wait for it."""


@dataclass(frozen=True, slots=True)
class SetQuestion:
    """Another question is open now, or none."""

    question: Question | None


@dataclass(frozen=True, slots=True)
class SetSnooze:
    """A push is put off, or no longer."""

    snooze: Snooze | None


@dataclass(frozen=True, slots=True)
class SetMarks:
    """What was done for which day."""

    marks: Marks


@dataclass(frozen=True, slots=True)
class KeepDraft:
    """The survey goes on with these answers; None: it is over."""

    draft: Draft | None


@dataclass(frozen=True, slots=True)
class KeepProfile:
    """Somebody is enrolled, or their profile changes. *since*: UTC instant from which on things fall due."""

    profile: Profile
    since: datetime | None = None
    consent_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class NoteWeight:
    """A weight in kg on a local date; only after the person has switched it on."""

    on: date
    kg: float
    from_id: str


@dataclass(frozen=True, slots=True)
class TakeBack:
    """All that one message made kept is taken back."""

    from_id: str


@dataclass(frozen=True, slots=True)
class Erase:
    """Everything about the person goes; a mark without a name stays."""


@dataclass(frozen=True, slots=True)
class SendNotice:
    """A grave message about the person went to a coach, who is to say that it was seen."""

    coach: str
    at: datetime
    message: str


@dataclass(frozen=True, slots=True)
class SeeNotices:
    """A coach has seen the grave messages about these runners."""

    runners: tuple[str, ...]
    at: datetime


@dataclass(frozen=True, slots=True)
class PassNotices:
    """Nobody has seen the grave messages about these runners: they went to somebody else, or out once more."""

    runners: tuple[str, ...]
    to: str


@dataclass(frozen=True, slots=True)
class SetWaiting:
    """The person waits for a word of the coach since then, or no longer."""

    since: datetime | None


@dataclass(frozen=True, slots=True)
class NoteClearance:
    """For the record: *by* whom somebody was cleared, in the words that were said, and when; *told_by*: who said so."""

    on: date
    by: str
    told_by: str
    from_id: str


@dataclass(frozen=True, slots=True)
class MakeCode:
    """A code was given out, kept as its *mark*; *role*: what it opens."""

    mark: str
    role: Role
    at: datetime


@dataclass(frozen=True, slots=True)
class UseCode:
    """A code was used; it opens nothing more."""

    mark: str
    at: datetime


Coaching = SendNotice | SeeNotices | PassNotices | SetWaiting | NoteClearance | MakeCode | UseCode
"""Changes between runners and coaches."""

Change = (
    AddEntry
    | ReplaceEntries
    | RaiseFlag
    | ClearFlag
    | RaiseHold
    | LiftHolds
    | StartBreak
    | EndBreaks
    | Fix
    | Replan
    | MarkStale
    | SetQuestion
    | SetSnooze
    | SetMarks
    | KeepDraft
    | KeepProfile
    | NoteWeight
    | TakeBack
    | Erase
    | Coaching
)


MARKS = tuple(each.name for each in fields(Marks))


def marks_after(before: Marks, changes: tuple[Change, ...]) -> Marks:
    """*before* with everything that one of the changes puts into it."""
    after = before
    for each in (change.marks for change in changes if isinstance(change, SetMarks)):
        news = {name: said for name in MARKS if (said := getattr(each, name)) != getattr(before, name)}
        after = replace(after, **news)
    return after


def comes_from(change: Change) -> str | None:
    """The id of the message that led to *change*, if it can be taken back."""
    return change.entry.from_id if isinstance(change, AddEntry) else getattr(change, "from_id", None)


@dataclass(frozen=True, slots=True)
class For:
    """Changes of another person, made by their coach."""

    who: str
    changes: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one event leads to: changes in the order in which they are kept, messages, and changes of other people."""

    changes: tuple[Change, ...] = ()
    says: tuple[Say, ...] = ()
    others: tuple[For, ...] = ()
