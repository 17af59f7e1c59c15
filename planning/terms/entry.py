"""What really happened: things done, days missed, complaints, breaks and changes, as the planner sees them."""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from planning.terms.choices import Activity, Colour, Course, Part, Sense, Side
from planning.terms.plan import Session


class Status(StrEnum):
    """What an entry says of its day. `NO_WORD` is a silent day: unknown, never zero load."""

    DONE = "done"
    MISSED = "missed"
    NO_WORD = "no_word"


@dataclass(frozen=True, slots=True)
class Entry:
    """One logged thing.

    *on*: local date it happened on; *planned_on*: date of the session that it belongs to, None for an extra outing;
    *share*: part of the plan, 0 to 1, when no amount was given; *effort*: CR-10 rating of the session.
    """

    on: date
    status: Status = Status.DONE
    kind: Activity | None = None
    minutes: float | None = None
    km: float | None = None
    share: float | None = None
    effort: float | None = None
    planned_on: date | None = None
    from_id: str | None = None


@dataclass(frozen=True, slots=True)
class Complaint:
    """One complaint of one part of the body, as it was said. *bears*: False when weight can't be put on it."""

    part: Part
    side: Side | None = None
    sense: Sense | None = None
    level: float | None = None
    sudden: bool = False
    course: Course | None = None
    bears: bool | None = None


@dataclass(frozen=True, slots=True)
class Flag:
    """State of one part of the body since a local date; `cleared_on` when it is over."""

    part: Part
    side: Side | None
    colour: Colour
    since: date
    cleared_on: date | None = None


@dataclass(frozen=True, slots=True)
class Break:
    """Days off: first and last day, both inclusive; *last* None while open."""

    first: date
    last: date | None
    ill: bool = False
    fever: bool = False


@dataclass(frozen=True, slots=True)
class Fixed:
    """A session that a person (runner or coach) changed: it stands as it is; *session* None drops the day *on*."""

    on: date
    session: Session | None


@dataclass(frozen=True, slots=True)
class History:
    """What really happened up to now, in order of date."""

    entries: tuple[Entry, ...] = ()
    flags: tuple[Flag, ...] = ()
    breaks: tuple[Break, ...] = ()
    fixed: tuple[Fixed, ...] = ()
