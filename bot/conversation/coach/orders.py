"""What a coach's message asks for."""

from dataclasses import dataclass
from datetime import date

from bot.conversation.known import Known
from planning.terms.plan import Segment


@dataclass(frozen=True, slots=True)
class WhoNeeds:
    """The list of all runners, those in need first."""


@dataclass(frozen=True, slots=True)
class Seen:
    """Grave messages were seen: those about the runner of that *name*, or all."""

    name: str | None = None


@dataclass(frozen=True, slots=True)
class Away:
    """Somebody else stands in: *deputy* by name, None: as it was; *away*: the last local day away, None: not away."""

    deputy: str | None
    away: date | None = None


@dataclass(frozen=True, slots=True)
class Back:
    """Nobody stands in any more. *alone*: the deputy is no longer one at all."""

    alone: bool = False


@dataclass(frozen=True, slots=True)
class Invite:
    """A code for a new runner."""


@dataclass(frozen=True, slots=True)
class Help:
    """What can be said here."""


@dataclass(frozen=True, slots=True)
class Tell:
    """Words for a runner."""

    runner: Known
    said: str


@dataclass(frozen=True, slots=True)
class All:
    """Words for all of one's runners."""

    said: str


@dataclass(frozen=True, slots=True)
class Undo:
    """The last change for a runner is to be taken back."""


@dataclass(frozen=True, slots=True)
class Promised:
    """A word that the coach promised to a runner, to be reminded of on a local date."""

    runner: Known
    on: date


@dataclass(frozen=True, slots=True)
class LookAt:
    """How one runner stands: needs, complaints by part of the body, load."""

    runner: Known


@dataclass(frozen=True, slots=True)
class About:
    """Something is said of a runner: *rest*, in the coach's words."""

    runner: Known
    rest: str


@dataclass(frozen=True, slots=True)
class Nobody:
    """A name that no runner of this coach bears; it may be anybody's or nobody's, and nothing tells which."""


@dataclass(frozen=True, slots=True)
class Several:
    """A name that more than one of the coach's runners bear."""

    runners: tuple[Known, ...]


@dataclass(frozen=True, slots=True)
class Unclear:
    """Nothing that a coach could ask for was found."""


Order = (
    WhoNeeds
    | All
    | Undo
    | Promised
    | LookAt
    | Seen
    | Away
    | Back
    | Invite
    | Help
    | Tell
    | About
    | Nobody
    | Several
    | Unclear
)


@dataclass(frozen=True, slots=True)
class HoldWeek:
    """No growth this week."""


@dataclass(frozen=True, slots=True)
class Clear:
    """A clearance. *on*: its local date; *by*: the words, if they name a clinician, else None."""

    on: date
    by: str | None


@dataclass(frozen=True, slots=True)
class Make:
    """The session of a local date (None: the next one) becomes *segments*, or *minutes* of what it is."""

    on: date | None
    segments: tuple[Segment, ...] = ()
    minutes: float | None = None


@dataclass(frozen=True, slots=True)
class Drop:
    """No session on that local date."""

    on: date | None


@dataclass(frozen=True, slots=True)
class Ease:
    """The session of that local date, or the next one, a step lower."""

    on: date | None


@dataclass(frozen=True, slots=True)
class Move:
    """The session of one local date (None: the next one) goes to another."""

    on: date | None
    to: date


Deed = HoldWeek | Clear | Make | Drop | Ease | Move
