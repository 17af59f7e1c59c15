"""From what is to be told to a message in the outbox: the next session filled in, words, buttons, files."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime

from sqlalchemy.orm import Session as Transaction

from bot.conversation import whatever_fails
from bot.conversation.agenda import in_break, is_red
from bot.conversation.known import Known
from bot.conversation.says import UNSET, Kind, Say
from bot.messages import Attachment, Incoming, Outgoing
from bot.store import outbox, people
from bot.store.changes import person_row
from bot.words.about import about
from bot.words.render import render
from planning.calendar import instant, local
from planning.terms.plan import Session


@dataclass(frozen=True, slots=True)
class Cause:
    """What a message answers: the door through which it came (or the usual one), a name that is unique, the instant."""

    door: str
    name: str
    at: datetime


def letter_of(tx: Transaction, say: Say, cause: Cause, place: int, files: tuple[Attachment, ...] = ()) -> outbox.Letter:
    """*say* in words, to be sent. *place*: which of the messages of its cause it is."""
    known = people.find_known(tx, say.to, cause.at)
    if isinstance(say.facts.why, tuple) and say.facts.why and known.profile is not None:
        person_row(tx, say.to).why = say.facts.why
    tz = known.profile.tz if known.profile else "UTC"
    subject = _subject(tx, say, known, cause.at)
    said = with_next(say, subject, cause.at, subject.profile.tz if subject.profile else tz)
    rendered = render(said, local(cause.at, tz).date(), tz)
    door, chat = outbox.address_of(tx, say.to, cause.door)
    buttons = zip(rendered.labels, said.choices, strict=True)
    return outbox.Letter(
        door=door,
        chat=chat,
        who=say.to,
        at=cause.at,
        text=rendered.text,
        about=about(said),
        key=say.key or f"{cause.name}:{place}",
        buttons=tuple(outbox.NewButton(label, each.text, each.opens) for label, each in buttons),
        files=files,
    )


def unkept_answer(incoming: Incoming) -> Outgoing:
    """The answer to a message that can't be kept: help if it speaks of danger, else to send it again later."""
    return _loose(incoming, _without_records(incoming))


def last_resort(incoming: Incoming) -> outbox.Letter:
    """The answer when nothing of what is known can be looked at: help if the message speaks of danger."""
    said = unkept_answer(incoming)
    key = f"{incoming.door}:{incoming.id}:0"
    return outbox.Letter(said.door, said.chat, incoming.sender, said.at, said.text, said.about, key, ())


def help_meanwhile(incoming: Incoming) -> tuple[Outgoing, ...]:
    """Help for a message that was kept but can't be answered yet, if it speaks of danger: that can't wait."""
    said = _without_records(incoming)
    return () if said.kind is Kind.ERROR else (_loose(incoming, said),)


def warm_up() -> None:
    """Load what reading and answering need, which takes seconds, before anybody waits for it."""
    unkept_answer(Incoming("", "", "", "", datetime.fromtimestamp(0, UTC), "hello"))


def _without_records(incoming: Incoming) -> Say:
    return whatever_fails(incoming.sender, incoming.text or "", incoming.at, otherwise="not_kept")


def _loose(incoming: Incoming, said: Say) -> Outgoing:
    text = render(said, incoming.at.date(), "UTC").text
    return Outgoing(f"x-{incoming.id}", incoming.door, incoming.chat, incoming.at, text, about(said))


def _subject(tx: Transaction, say: Say, known: Known, now: datetime) -> Known:
    """Whose next session the message tells: that of the person whom it speaks of, else that of the one it goes to."""
    about = say.facts.who
    return people.find_known(tx, about, now) if isinstance(about, str) and say.facts.next is not UNSET else known


def with_next(say: Say, known: Known, now: datetime, tz: str) -> Say:
    """*say* with the next session filled in as it stands after all changes, and what is kept after an undo."""
    if say.kind is Kind.UNDONE and isinstance(say.facts.entries, tuple):
        days = {local(now, tz).date(), *(each.on for each in say.facts.entries)}
        say = replace(say, facts=replace(say.facts, entries=tuple(each for each in known.entries if each.on in days)))
    if say.facts.next is UNSET:
        return say
    return replace(say, facts=replace(say.facts, next=next_session(known, now, tz)))


def next_session(known: Known, now: datetime, tz: str) -> Session | None:
    """The next session that is neither settled nor held up by danger, a red flag or days off."""
    if known.holds or is_red(known):
        return None
    settled = {entry.planned_on for entry in known.entries}
    today = local(now, tz).date()
    coming = (each for each in known.sessions if each.on >= today and each.on not in settled)
    return next(
        (each for each in coming if _is_to_come(each, known, now, tz) and not in_break(known.breaks, each.on)), None
    )


def _is_to_come(session: Session, known: Known, now: datetime, tz: str) -> bool:
    """Whether it is still to be sent, or was sent today."""
    return known.marks.pushed_on == session.on or instant(session.on, session.at, tz) >= now
