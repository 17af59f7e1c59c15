"""What is to be told, in facts: no sentence stands here. Field names are those that other programs read."""

from dataclasses import dataclass, field, fields, replace
from datetime import date, datetime
from enum import Enum, StrEnum

from bot.reading.facts import Reading
from planning.progress.needs import NeedKind
from planning.progress.review import WeekNumbers
from planning.terms.choices import Alarm, Colour, Danger, Mood, Part
from planning.terms.entry import Entry, Flag
from planning.terms.plan import Segment, Session, Strength
from planning.terms.reasons import Reason
from planning.terms.triage import TriageDo


class Kind(StrEnum):
    """Kinds of messages, the gravest first."""

    URGENT = "urgent"
    CARE = "care"
    TRIAGE = "triage"
    RESCUE = "rescue"
    NOTICE = "notice"
    CLEARED = "cleared"
    UNDONE = "undone"
    GONE = "gone"
    BREAK = "break"
    SHRUNK = "shrunk"
    RESIZED = "resized"
    MOVED = "moved"
    LATER = "later"
    CHANGED = "changed"
    LOGGED = "logged"
    TODAY = "today"
    NUDGE = "nudge"
    WEEK = "week"
    REVIEW = "review"
    WHY = "why"
    DIGEST = "digest"
    CHALLENGE = "challenge"
    TALLY = "tally"
    CLOSED = "closed"
    DATA = "data"
    PASSED_ON = "passed_on"
    ASK = "ask"
    HELP = "help"
    STRANGER = "stranger"
    ERROR = "error"
    NOT_READ = "not_read"
    SMALL = "small"


GRAVITY = {kind: place for place, kind in enumerate(Kind)}


class Asks(StrEnum):
    """What an open question asks for."""

    CALLED = "called"
    TZ = "tz"
    DAYS = "days"
    WALK = "walk"
    JOG = "jog"
    RECENT = "recent"
    RACE = "race"
    SCREEN = "screen"
    AGE = "age"
    SIZE = "size"
    CONSENT = "consent"
    DONE = "done"
    EFFORT = "effort"
    SURE = "sure"
    MOMENT = "moment"
    SIDE = "side"
    LEVEL = "level"
    COURSE = "course"
    SWELLING = "swelling"
    NUMB = "numb"
    BEARS = "bears"
    NEXT_MORNING = "next_morning"
    SEEN = "seen"
    WHO_WHEN = "who_when"
    WHY_MISSED = "why_missed"
    TIME = "time"
    DAYS_MOVE = "days_move"
    CONFIRM = "confirm"


class Unset(Enum):
    """Marks a field that is not part of a message; None means that the field is there and holds nothing."""

    UNSET = "unset"


UNSET = Unset.UNSET


@dataclass(frozen=True, slots=True)
class Standing:
    """How one runner stands in the coach's list: what they need, and how long the first need has waited."""

    who: str
    called: str
    needs: tuple[NeedKind, ...]
    hours: float | None = None
    days: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """The fields of all kinds in one place. Minutes as numbers, instants in UTC; *next* is filled when all is kept."""

    asks: Asks | None | Unset = UNSET
    session: Session | None | Unset = UNSET
    entries: tuple[Entry, ...] | Unset = UNSET
    next: Session | None | Unset = UNSET
    why: tuple[Reason, ...] | Unset = UNSET
    weight_kg: float | Unset = UNSET
    left_min: float | Unset = UNSET
    segments: tuple[Segment, ...] | Unset = UNSET
    was_min: float | Unset = UNSET
    dropped: tuple[Session, ...] | Unset = UNSET
    at: datetime | None | Unset = UNSET
    flag: Colour | Unset = UNSET
    parts: tuple[Part, ...] | Unset = UNSET
    do: TriageDo | Unset = UNSET
    codes: tuple[Danger | Alarm, ...] | Unset = UNSET
    until: date | None | Unset = UNSET
    weeks: tuple[WeekNumbers, ...] | Unset = UNSET
    sessions: tuple[Session, ...] | Unset = UNSET
    who: str | Unset = UNSET
    runners: tuple[Standing, ...] | Unset = UNSET
    strength: tuple[Strength, ...] | Unset = UNSET
    flags: tuple[Flag, ...] | Unset = UNSET
    loads: tuple[float | None, ...] | Unset = UNSET
    moods: tuple[tuple[date, Mood], ...] | Unset = UNSET
    reading: Reading | None = None

    def joined(self, lesser: "Facts") -> "Facts":
        """These facts, with what only *lesser* says added; reasons of both are kept."""
        said = {
            name: said
            for name in FIELDS
            if getattr(self, name) is UNSET and (said := getattr(lesser, name)) is not UNSET
        }
        if self.reading is None and lesser.reading is not None:
            said["reading"] = lesser.reading
        if self.why is not UNSET and lesser.why is not UNSET:
            said["why"] = tuple(dict.fromkeys(self.why + lesser.why))
        return replace(self, **said) if said else self


FIELDS = tuple(each.name for each in fields(Facts))


@dataclass(frozen=True, slots=True)
class Choice:
    """A button: the name of its label in the word catalogue, and what pressing it does.

    *text*: pressing is the same as writing this; *opens*: pressing opens this question.
    """

    label: str
    text: str | None = None
    opens: Asks | None = None


@dataclass(frozen=True, slots=True)
class Slot:
    """A value that a sentence needs and that `about` does not carry (a name, a number of days)."""

    name: str
    value: str


@dataclass(frozen=True, slots=True)
class Say:
    """One message to one person.

    *words*: names of the sentences in the catalogue, in order, one paragraph each; *key*: the natural key that makes
    the message unique, None where the message that it answers does so.
    """

    to: str
    kind: Kind
    words: tuple[str, ...]
    facts: Facts = field(default_factory=Facts)
    choices: tuple[Choice, ...] = ()
    slots: tuple[Slot, ...] = ()
    also: tuple[Kind, ...] = ()
    key: str | None = None
