"""One event with all that the topics look at, and what a topic gives back."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta

from bot.conversation.agenda import in_break, is_red, is_settled
from bot.conversation.changes import Change
from bot.conversation.events import Heard
from bot.conversation.known import Known
from bot.conversation.says import Facts, Kind, Say
from bot.reading.facts import Reading
from planning.calendar import local
from planning.terms.entry import Status
from planning.terms.person import Profile
from planning.terms.plan import Session

LATE_REPLY = timedelta(days=3)
"""A reply that names no day may still belong to a session of this many days ago."""


@dataclass(frozen=True, slots=True)
class Part:
    """What one topic adds to the answer: changes, and what is to be told (to the person, to a coach)."""

    changes: tuple[Change, ...] = ()
    says: tuple[Say, ...] = ()


@dataclass(frozen=True, slots=True)
class Scene:
    """An enrolled person wrote something. *now*: UTC; *taken*: kinds of message that graver topics have given.

    *here*: *now* on the person's own clock.
    """

    known: Known
    profile: Profile
    heard: Heard
    now: datetime
    taken: frozenset[Kind] = frozenset()
    here: datetime = field(init=False)

    def __post_init__(self) -> None:
        """Look at the clock once, since nearly every topic asks for it."""
        object.__setattr__(self, "here", local(self.now, self.profile.tz))

    @property
    def reading(self) -> Reading:
        """What the message says."""
        return self.heard.reading

    @property
    def who(self) -> str:
        """Whose conversation it is."""
        return self.known.who

    @property
    def id(self) -> str:
        """The id of the message."""
        return self.heard.id

    @property
    def today(self) -> date:
        """The person's own date."""
        return self.here.date()

    @property
    def stopped(self) -> bool:
        """Whether no session may be proposed now: danger or a red flag stands, or was just said."""
        return bool(self.known.holds) or is_red(self.known) or bool(self.taken & {Kind.URGENT, Kind.CARE})

    def session_on(self, day: date) -> Session | None:
        """The session planned for *day*."""
        return next((each for each in self.known.sessions if each.on == day), None)

    @property
    def session_today(self) -> Session | None:
        """Today's session, as long as it isn't settled."""
        return None if is_settled(self.known, self.today) else self.session_on(self.today)

    @property
    def session_next(self) -> Session | None:
        """Today's session if it is still open, else the next one."""
        return self.session_today or next(self.coming(), None)

    def coming(self) -> Iterator[Session]:
        """Sessions after today that no break holds up, in order."""
        for each in self.known.sessions:
            if each.on > self.today and not in_break(self.known.breaks, each.on):
                yield each

    @property
    def session_unanswered(self) -> Session | None:
        """The session that "done" means: today's, else the last one that was sent and had no answer."""
        pushed = self.known.marks.pushed_on
        if self.session_today is not None or pushed is None or pushed >= self.today:
            return self.session_on(self.today)
        if is_answered(self.known, pushed) or self.today - pushed > LATE_REPLY:
            return None
        return self.session_on(pushed)


def is_answered(known: Known, day: date) -> bool:
    """Whether the person said something of the session of *day* (a silent day that was closed is no answer)."""
    return any(each.planned_on == day and each.status is not Status.NO_WORD for each in known.entries)


def nothing_today(scene: Scene) -> Part:
    """No session is open today; the next one is named."""
    facts = Facts(session=None, asks=None, next=None)
    words = "nothing_today" if scene.session_on(scene.today) is None else "settled_today"
    return Part((), (Say(scene.who, Kind.TODAY, (words, "next_step"), facts),))
