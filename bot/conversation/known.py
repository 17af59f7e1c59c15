"""All that is needed to answer one event of one person."""

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from enum import StrEnum

from bot.conversation.draft import Draft
from bot.conversation.says import Asks
from planning.progress.weight import Weighing
from planning.terms.choices import Alarm, Danger, Mood
from planning.terms.entry import Break, Complaint, Entry, Flag, History
from planning.terms.person import Profile
from planning.terms.plan import Plan, Segment, Session, Strength
from planning.terms.reasons import Reason
from planning.terms.triage import Answers

NOTHING_ANSWERED = Answers()


@dataclass(frozen=True, slots=True)
class Offer:
    """Another usual time: sessions at the local time *before* are to come *at* this one."""

    before: time
    at: time


@dataclass(frozen=True, slots=True)
class Question:
    """A question that is open: what it asks, since which local day, about which session or complaint, and
    what was answered of it before."""

    asks: Asks
    on: date
    session_on: date | None = None
    complaint: Complaint | None = None
    answers: Answers = NOTHING_ANSWERED
    tries: int = 0
    about: str | None = None
    """Whom it is about, when that is somebody else: a coach is asked about a runner."""
    offer: Offer | None = None
    """What a yes accepts."""
    said: str = ""
    """Words that a yes sends out, or the mark of a code that it uses up."""


@dataclass(frozen=True, slots=True)
class Snooze:
    """A push that was put off: planned date, UTC instant of the next try, how many times it was put off."""

    on: date
    at: datetime
    ordinal: int


@dataclass(frozen=True, slots=True)
class Hold:
    """Danger that stands until a clinician has cleared it: codes, local date, the message that raised it."""

    codes: tuple[Danger | Alarm, ...]
    since: date
    from_id: str


@dataclass(frozen=True, slots=True)
class Journey:
    """Somewhere else for a while: the zone of *home*, and the last local day there; None: not said."""

    home: str
    until: date | None = None


@dataclass(frozen=True, slots=True)
class Count:
    """A live count, as the rest of a session is walked: the session's date, since when (UTC), its parts, how many of
    them were announced; *from_id*: the message that asked for it.
    """

    on: date
    began_at: datetime
    parts: tuple[Segment, ...]
    told: int
    from_id: str

    def ends_at(self, place: int) -> datetime:
        """When the part at *place* is over."""
        return self.began_at + timedelta(seconds=sum(each.seconds for each in self.parts[: place + 1]))


class First(StrEnum):
    """Something that is done for the first time once in a life here, the smallest first."""

    SESSION = "session"
    RUN = "run"
    HALF_HOUR = "half_hour"
    HOUR = "hour"
    NINETY = "ninety"
    RACE = "race"


@dataclass(frozen=True, slots=True)
class FirstDone:
    """What was done for the first time, and on which local date."""

    what: First
    on: date


@dataclass(frozen=True, slots=True)
class MoodOn:
    """How somebody said that they felt, and on which local date; kept for those alone who share it with their coach."""

    mood: Mood
    on: date


@dataclass(frozen=True, slots=True)
class Promise:
    """Of a coach: a word that they promised to the runner *who*, and the local date on which it falls due."""

    who: str
    on: date


@dataclass(frozen=True, slots=True)
class Deed:
    """Of a coach: their last change for the runner *who*, by the message that asked for it."""

    who: str
    from_id: str


class Rule(StrEnum):
    """Rules of the conversation that can be left out, to try on invented people what they change.

    `NUDGE`: one question on the evening of a silent day. `SMALLER`: after two sessions missed in a row, or three of
    five, the next one is the smallest, and what got in the way is asked. `SURE`: a session of which somebody is less
    than 7 of 10 sure is made smaller.
    """

    NUDGE = "nudge"
    SMALLER = "smaller"
    SURE = "sure"


@dataclass(frozen=True, slots=True)
class Rush:
    """Messages that came close upon each other: since which instant (UTC), and how many."""

    since: datetime
    count: int


@dataclass(frozen=True, slots=True)
class Marks:
    """The last local dates for which something was done, and the instant of the last word of the person.

    The key of a push is its planned date, whatever the clocks do.
    """

    pushed_on: date | None = None
    nudged_on: date | None = None
    closed_on: date | None = None
    followed_on: date | None = None
    reviewed_on: date | None = None
    digested_on: date | None = None
    heard_at: datetime | None = None
    kept_on: date | None = None
    """When something was last kept that `undo` can take back."""
    put_off: int = 0
    """How often the session of *pushed_on* was put off before it was sent."""
    journey: Journey | None = None
    """The clock of the profile goes by another place than home."""
    happened: tuple[time, ...] = ()
    """Local times at which the last sessions began, as far as they were told on their day."""
    firsts: tuple[FirstDone, ...] = ()
    """What was noticed as done for the first time."""
    moods: tuple[MoodOn, ...] = ()
    wrote: bool = False
    """Who waits for a word of the coach has sent them words of their own."""
    promises: tuple[Promise, ...] = ()
    deed: Deed | None = None
    rescued_on: date | None = None
    """When a session last went so badly that they could not go on."""
    evening_on: date | None = None
    """The last evening on which it was asked how a bad day went on."""
    count: Count | None = None
    """A live count that is running."""
    rush: Rush | None = None
    away: bool = False
    """Pushes of earlier days were never sent, since the bot was down; it is said once, with the next message."""
    left_out: tuple[Rule, ...] = ()
    """Rules by which they aren't spoken to; nobody but invented people has any."""


@dataclass(frozen=True, slots=True)
class Notice:
    """A grave message to a coach that nobody has said to have seen yet.

    *runner*: who needs a person; *coach*: to whom it went; *at*: UTC instant; *passed_to*: the deputy that it went to
    after nobody had seen it (or the coach, once more).
    """

    runner: str
    coach: str
    at: datetime
    from_id: str
    passed_to: str | None = None


@dataclass(frozen=True, slots=True)
class Whole:
    """The whole plan of a runner and all that happened, for trying out a change."""

    plan: Plan
    history: History


@dataclass(frozen=True, slots=True)
class Peer:
    """Another coach."""

    who: str
    called: str


@dataclass(frozen=True, slots=True)
class Team:
    """What a coach's turn may see.

    *runners*: what is known of each of their own; *peers*: the other coaches; *whole*: of the one runner that the
    message names; *code*: a fresh code that may be given out.
    """

    runners: tuple["Known", ...] = ()
    peers: tuple[Peer, ...] = ()
    whole: Whole | None = None
    code: str = ""


@dataclass(frozen=True, slots=True)
class Known:
    """What is known of one person, as far as one answer needs it.

    *profile* None: a stranger, or somebody in the middle of the survey (*draft*). *sessions*: of the plan from nine
    weeks back to three weeks ahead, in order; *entries* of the last fourteen; *holds*: those that stand. *since*: UTC
    instant from which on things fall due, None before the clock has started.
    """

    who: str
    profile: Profile | None = None
    draft: Draft | None = None
    erased: bool = False
    since: datetime | None = None
    sessions: tuple[Session, ...] = ()
    strength: tuple[Strength, ...] = ()
    """Of the week around today and the next one."""
    entries: tuple[Entry, ...] = ()
    weights: tuple[Weighing, ...] = ()
    flags: tuple[Flag, ...] = ()
    holds: tuple[Hold, ...] = ()
    breaks: tuple[Break, ...] = ()
    question: Question | None = None
    snooze: Snooze | None = None
    marks: Marks = field(default_factory=Marks)
    plan: Plan | None = None
    """The whole plan, looked up for a message alone that asks how it all goes on."""
    stale: bool = False
    """The plan has to be made anew from what happened before the next session is sent."""
    why: tuple[Reason, ...] = ()
    """The reasons that stood behind the last step."""
    last_id: str | None = None
    """The message whose effects `undo` takes back."""
    waiting_since: datetime | None = None
    """The UTC instant since which the person waits for a word of their coach."""
    notices: tuple[Notice, ...] = ()
    """Of a coach: the grave messages that nobody has seen yet."""
    team: Team | None = None
    """Of a coach in their own turn; nobody else sees another person."""
