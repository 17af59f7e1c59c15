"""The tables. Each effect has a natural key, so that doing it twice does it once."""

from datetime import date, datetime, time

from sqlalchemy import (
    Boolean,
    Date,
    Float,
    ForeignKey,
    Index,
    Integer,
    MetaData,
    String,
    Text,
    Time,
    UniqueConstraint,
    text,
)
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from bot.conversation.draft import Draft
from bot.conversation.known import Marks, Question, Snooze
from bot.messages import Attachment, Button
from bot.store.columns import Typed, UtcDateTime
from planning.terms.choices import Alarm, Danger
from planning.terms.person import Profile
from planning.terms.plan import RaceDay, Segment, Session, Strength
from planning.terms.reasons import Reason

NAMES = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}
WHO = "person.who"


class Base(DeclarativeBase):
    """Root of all tables; constraint names are fixed so that migrations can name them."""

    metadata = MetaData(naming_convention=NAMES)
    type_annotation_map = {  # noqa: RUF012 - SQLAlchemy's own declarative hook
        str: Text,
        bool: Boolean,
        int: Integer,
        float: Float,
        date: Date,
        time: Time,
        datetime: UtcDateTime,
    }


class PersonRow(Base):
    """One person and where the conversation with them stands."""

    __tablename__ = "person"

    who: Mapped[str] = mapped_column(String(200), primary_key=True)
    profile: Mapped[Profile | None] = mapped_column(Typed(Profile))
    draft: Mapped[Draft | None] = mapped_column(Typed(Draft))
    question: Mapped[Question | None] = mapped_column(Typed(Question))
    snooze: Mapped[Snooze | None] = mapped_column(Typed(Snooze))
    marks: Mapped[Marks] = mapped_column(Typed(Marks))
    since: Mapped[datetime | None]
    consent_at: Mapped[datetime | None]
    stale: Mapped[bool] = mapped_column(default=False)
    why: Mapped[tuple[Reason, ...]] = mapped_column(Typed(tuple[Reason, ...]))
    last_id: Mapped[str | None]
    role: Mapped[str | None]
    coach: Mapped[str | None] = mapped_column(index=True)
    """As in the profile, so that coaches and their runners are found."""
    waiting_since: Mapped[datetime | None]
    """Since when they wait for a word of the coach."""


class AddressRow(Base):
    """Where a person can be reached: a private chat behind a door."""

    __tablename__ = "address"

    door: Mapped[str] = mapped_column(String(40), primary_key=True)
    chat: Mapped[str] = mapped_column(String(200), primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"), index=True)
    used_at: Mapped[datetime]


class PlanRow(Base):
    """The head of a person's plan; its weeks and sessions are rows of their own."""

    __tablename__ = "plan"

    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"), primary_key=True)
    begin: Mapped[date]
    may_start: Mapped[bool]
    fits: Mapped[bool]
    earliest_race: Mapped[date | None]
    race_day: Mapped[RaceDay | None] = mapped_column(Typed(RaceDay))
    warnings: Mapped[tuple[str, ...]] = mapped_column(Typed(tuple[str, ...]))


class WeekRow(Base):
    """One week of a plan."""

    __tablename__ = "week"

    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"), primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True)
    monday: Mapped[date]
    kind: Mapped[str]
    strength: Mapped[tuple[Strength, ...]] = mapped_column(Typed(tuple[Strength, ...]))


class SessionRow(Base):
    """One planned session."""

    __tablename__ = "session"

    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"), primary_key=True)
    on: Mapped[date] = mapped_column(primary_key=True)
    week: Mapped[int]
    at: Mapped[time]
    purpose: Mapped[str]
    effort_low: Mapped[int]
    effort_high: Mapped[int]
    segments: Mapped[tuple[Segment, ...]] = mapped_column(Typed(tuple[Segment, ...]))
    after: Mapped[tuple[Segment, ...]] = mapped_column(Typed(tuple[Segment, ...]))


class EntryRow(Base):
    """One logged thing. Its key: the message that made it be kept, and its place among what that message kept.

    *from_id*: the message that it came from first; *gone_by*: the message that put something else in its place.
    """

    __tablename__ = "entry"
    __table_args__ = (UniqueConstraint("who", "kept_by", "place"), Index("ix_entry_who_on", "who", "on"))

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"))
    on: Mapped[date]
    status: Mapped[str]
    kind: Mapped[str | None]
    minutes: Mapped[float | None]
    km: Mapped[float | None]
    share: Mapped[float | None]
    effort: Mapped[float | None]
    planned_on: Mapped[date | None]
    from_id: Mapped[str]
    kept_by: Mapped[str]
    gone_by: Mapped[str | None]
    place: Mapped[int]


class FlagRow(Base):
    """A body complaint: part, side, colour, since when, until when."""

    __tablename__ = "flag"
    __table_args__ = (UniqueConstraint("who", "part", "side", "since", "from_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"), index=True)
    part: Mapped[str]
    side: Mapped[str | None]
    colour: Mapped[str]
    since: Mapped[date]
    cleared_on: Mapped[date | None]
    from_id: Mapped[str]
    cleared_id: Mapped[str | None]


class HoldRow(Base):
    """Danger that stands until a clinician has cleared it; afterwards the record of who did."""

    __tablename__ = "hold"
    __table_args__ = (UniqueConstraint("who", "from_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"))
    codes: Mapped[tuple[Danger | Alarm, ...]] = mapped_column(Typed(tuple[Danger | Alarm, ...]))
    since: Mapped[date]
    from_id: Mapped[str]
    lifted_on: Mapped[date | None]
    lifted_by: Mapped[str | None]
    lifted_id: Mapped[str | None]


class BreakRow(Base):
    """Days off. *ended_id*: the message that ended them early; *meant_last*: their last day before it did."""

    __tablename__ = "pause"
    __table_args__ = (UniqueConstraint("who", "from_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"))
    first: Mapped[date]
    last: Mapped[date | None]
    ill: Mapped[bool]
    fever: Mapped[bool]
    from_id: Mapped[str]
    ended_id: Mapped[str | None]
    meant_last: Mapped[date | None]


class FixedRow(Base):
    """A session as a person changed it; *session* None: dropped."""

    __tablename__ = "fixed"

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"), index=True)
    on: Mapped[date]
    session: Mapped[Session | None] = mapped_column(Typed(Session))
    from_id: Mapped[str]


class WeightRow(Base):
    """A body weight in kg, kept only for those who asked for it."""

    __tablename__ = "weight"
    __table_args__ = (UniqueConstraint("who", "from_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"))
    on: Mapped[date]
    kg: Mapped[float]
    from_id: Mapped[str]


class NoticeRow(Base):
    """A grave message about a person that went to a coach. *passed_to*: who got it after nobody had seen it."""

    __tablename__ = "notice"
    __table_args__ = (UniqueConstraint("who", "from_id"), Index("ix_notice_coach", "coach", "seen_at"))

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"))
    coach: Mapped[str]
    at: Mapped[datetime]
    from_id: Mapped[str]
    passed_to: Mapped[str | None] = mapped_column(index=True)
    seen_at: Mapped[datetime | None]
    seen_by: Mapped[str | None]


class ClearanceRow(Base):
    """Who cleared a person, in the words that were said, and when; *told_by*: who said so."""

    __tablename__ = "clearance"
    __table_args__ = (UniqueConstraint("who", "from_id"),)

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"))
    on: Mapped[date]
    by: Mapped[str]
    told_by: Mapped[str]
    from_id: Mapped[str]


class InviteRow(Base):
    """A code that was given out, kept as a hash. *who*: the coach who gave it, None for the first coach's own.

    *made_at* None: before the clock had started.
    """

    __tablename__ = "invite"

    mark: Mapped[str] = mapped_column(String(64), primary_key=True)
    who: Mapped[str | None] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"), index=True)
    role: Mapped[str]
    made_at: Mapped[datetime | None]
    used_at: Mapped[datetime | None]


class AttemptRow(Base):
    """A wrong code, kept for an hour. *mark*: a hash of who sent it."""

    __tablename__ = "attempt"

    id: Mapped[int] = mapped_column(primary_key=True)
    mark: Mapped[str] = mapped_column(String(64), index=True)
    at: Mapped[datetime]


class DueRow(Base):
    """What falls due next: at most one row for each person and kind. The sweep reads the index on *at*."""

    __tablename__ = "due"
    __table_args__ = (UniqueConstraint("who", "kind"), Index("ix_due_at", "at", "rank", "who"))

    id: Mapped[int] = mapped_column(primary_key=True)
    who: Mapped[str] = mapped_column(ForeignKey(WHO, ondelete="CASCADE"))
    kind: Mapped[str]
    on: Mapped[date]
    ordinal: Mapped[int]
    at: Mapped[datetime]
    rank: Mapped[int]
    """Which kind goes first at one instant."""
    held_until: Mapped[datetime | None]
    """A process is at it until then; afterwards another one may take it."""


class InboxRow(Base):
    """A message in, kept before it is worked on; once for each id of a door."""

    __tablename__ = "inbox"
    __table_args__ = (UniqueConstraint("door", "transport_id"), Index("ix_inbox_done", "done", "id"))

    id: Mapped[int] = mapped_column(primary_key=True)
    door: Mapped[str] = mapped_column(String(40))
    transport_id: Mapped[str]
    chat: Mapped[str]
    sender: Mapped[str]
    at: Mapped[datetime]
    text: Mapped[str | None]
    press: Mapped[str | None]
    file: Mapped[Attachment | None] = mapped_column(Typed(Attachment))
    edits: Mapped[str | None]
    """The id of the earlier message that this one puts right."""
    done: Mapped[bool] = mapped_column(default=False)
    dead: Mapped[bool] = mapped_column(default=False)
    """Answering it raised: kept for the host to look at, and the person was told."""


class OutboxRow(Base):
    """A message out. *key*: what makes it unique; *sent*: the door has taken it."""

    __tablename__ = "outbox"
    __table_args__ = (
        UniqueConstraint("key"),
        Index("ix_outbox_sent", "sent", "door", "id"),
        Index("ix_outbox_chat", "door", "chat", "id", sqlite_where=text("NOT sent"), postgresql_where=text("NOT sent")),
        {"sqlite_autoincrement": True},
    )

    id: Mapped[int] = mapped_column(primary_key=True)
    door: Mapped[str] = mapped_column(String(40))
    chat: Mapped[str]
    who: Mapped[str]
    at: Mapped[datetime]
    text: Mapped[str]
    about: Mapped[str]
    buttons: Mapped[tuple[Button, ...]] = mapped_column(Typed(tuple[Button, ...]))
    files: Mapped[tuple[Attachment, ...]] = mapped_column(Typed(tuple[Attachment, ...]))
    key: Mapped[str]
    sent: Mapped[bool] = mapped_column(default=False)
    tries: Mapped[int] = mapped_column(default=0, server_default="0")
    """How often a sender has taken it; with the row's number the name of one try."""
    held_until: Mapped[datetime | None]
    """A sender is at it, or it waits to be tried again, until then."""
    parked: Mapped[str | None]
    """Why it is never sent, None: it is."""


class RouteRow(Base):
    """Through which process a chat speaks, where several serve one door."""

    __tablename__ = "route"

    door: Mapped[str] = mapped_column(String(40), primary_key=True)
    chat: Mapped[str] = mapped_column(String(200), primary_key=True)
    process: Mapped[str] = mapped_column(String(40), index=True)
    until: Mapped[datetime]


class ButtonRow(Base):
    """What pressing a button does, and for whom."""

    __tablename__ = "button"

    id: Mapped[str] = mapped_column(String(64), primary_key=True)
    who: Mapped[str] = mapped_column(index=True)
    text: Mapped[str | None]
    opens: Mapped[str | None]
    shown_at: Mapped[datetime]
    used: Mapped[bool] = mapped_column(default=False)


class ClockRow(Base):
    """The instant of the last line that was kept; one row. *zones*: the time zone data that due times stand on."""

    __tablename__ = "clock"

    id: Mapped[int] = mapped_column(primary_key=True)
    at: Mapped[datetime]
    zones: Mapped[str | None]


class TombstoneRow(Base):
    """A hashed mark of somebody who left: no name, so that an old copy can be erased again."""

    __tablename__ = "tombstone"

    mark: Mapped[str] = mapped_column(String(64), primary_key=True)
    erased_at: Mapped[datetime]


PERSON = Base.metadata.tables[PersonRow.__tablename__]
ADDRESS = Base.metadata.tables[AddressRow.__tablename__]
PLAN = Base.metadata.tables[PlanRow.__tablename__]
WEEK = Base.metadata.tables[WeekRow.__tablename__]
SESSION = Base.metadata.tables[SessionRow.__tablename__]
ENTRY = Base.metadata.tables[EntryRow.__tablename__]
FLAG = Base.metadata.tables[FlagRow.__tablename__]
HOLD = Base.metadata.tables[HoldRow.__tablename__]
BREAK = Base.metadata.tables[BreakRow.__tablename__]
FIXED = Base.metadata.tables[FixedRow.__tablename__]
WEIGHT = Base.metadata.tables[WeightRow.__tablename__]
CLEARANCE = Base.metadata.tables[ClearanceRow.__tablename__]
DUE = Base.metadata.tables[DueRow.__tablename__]
INBOX = Base.metadata.tables[InboxRow.__tablename__]
OUTBOX = Base.metadata.tables[OutboxRow.__tablename__]
ROUTE = Base.metadata.tables[RouteRow.__tablename__]
BUTTON = Base.metadata.tables[ButtonRow.__tablename__]
CLOCK = Base.metadata.tables[ClockRow.__tablename__]
