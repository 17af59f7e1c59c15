"""The turns themselves: messages that were kept, things that fall due, people who are added."""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from itertools import count

from sqlalchemy.exc import OperationalError
from sqlalchemy.orm import Session as Transaction

from bot.conversation import converse, counted, held_back, help_alone, hold_of, speaks_of_danger, whatever_fails
from bot.conversation.agenda import SILENT, agenda
from bot.conversation.changes import (
    Change,
    Erase,
    For,
    KeepProfile,
    Outcome,
    RaiseHold,
    Replan,
    SendNotice,
    TakeBack,
    comes_from,
)
from bot.conversation.events import DueKind, Event
from bot.conversation.known import Known
from bot.logs import note
from bot.messages import Incoming
from bot.store import due, inbox, invites, locks, outbox, people, plans, privacy
from bot.store.changes import keep, person_row
from bot.store.tables import PersonRow
from bot.store.unit import Store
from bot.turn.ahead import with_plan
from bot.turn.coaching import Draw, by_chance, with_team
from bot.turn.files import files_of
from bot.turn.hear import event_of
from bot.turn.tell import Cause, last_resort, letter_of
from planning import replan
from planning.calendar import instant, local
from planning.terms.entry import Break
from planning.terms.plan import Plan


class Turns:
    """The one place that calls reading, conversation, planning, words and records."""

    def __init__(self, store: Store, door: str, draw: Draw = by_chance, most: int | None = None) -> None:
        """*door*: behind which people are looked for who were not met anywhere yet; *draw*: bytes for new codes;
        *most*: messages of one person that are answered within a minute, None: all.
        """
        self.store = store
        self.door = door
        self.draw = draw
        self.most = most
        self.looked = False

    def accept(self, incoming: Incoming) -> bool:
        """Keep a message before anything is done about it. False if its id is known: then it has no effect."""
        with self.store.begin() as tx:
            fresh = inbox.accept(tx, incoming)
            if fresh:
                inbox.set_clock(tx, incoming.at)
        return fresh

    def answer_waiting(self) -> None:
        """Answer all messages that were kept, danger first, then in order; also those that a crash left behind."""
        with self.store.begin() as tx:
            waiting = inbox.waiting(tx)
        if len(waiting) > 1:
            self._answer_grave()
        for row in waiting:
            self._answer_row(row)

    def _answer_grave(self) -> None:
        """Answer those messages that speak of danger, whatever else waits."""
        with self.store.begin() as tx:
            waiting = inbox.texts(tx)
            now = inbox.clock(tx)
        for row, text in waiting:
            if now is not None and speaks_of_danger(text, now):
                self._answer_row(row)

    def _answer_row(self, row: int) -> None:
        try:
            with self.store.begin() as tx:
                incoming = inbox.take(tx, row)
                if incoming is not None:
                    who = outbox.who_is(tx, incoming.door, incoming.sender)
                    locks.hold(tx, who)
                    outbox.put(tx, *self._answer(tx, incoming, who))
        except OperationalError:
            raise  # the disk, not the message: it is answered later
        except Exception as fault:
            self._give_up(row, fault)

    def answer_some(self, most: int) -> int:
        """Answer up to *most* of the oldest messages that wait and that no other process is at, in one commit.

        Gives how many were looked at. What a crash left behind is looked through once, so that danger in it is answered
        first. A message that can't be answered is set aside, and the others are answered all the same.
        """
        if not self.looked:
            self.looked = True
            self._answer_grave()
        rows: list[int] = []
        try:
            with self.store.begin() as tx:
                waiting = _with_people(tx, inbox.heads(tx, most))
                rows.extend(each.row for each in waiting)
                if rows:
                    inbox.done(tx, rows)
                letters = [self._answer(tx, each.message, each.who) for each in waiting]
                outbox.put(tx, *(letter for each in letters for letter in each))
        except OperationalError:
            raise
        except Exception as fault:
            if not rows:
                raise
            note("answered_alone", row=len(rows), fault=type(fault).__name__)
            for row in rows:
                self._answer_row(row)
        return len(rows)

    def _answer(self, tx: Transaction, incoming: Incoming, who: str) -> tuple[outbox.Letter, ...]:
        """What answers a message of *who*, of whom nobody else has a turn; it is still to be put into the outbox."""
        if incoming.edits is not None and people.find_known(tx, who, incoming.at).profile is not None:
            keep(tx, who, TakeBack(incoming.edits))
            plan_anew(tx, who, incoming.at)
        known = people.find_known(tx, who, incoming.at)
        if _is_too_old(known, incoming.at):
            plan_anew(tx, who, incoming.at)
            known = people.find_known(tx, who, incoming.at)
        event = event_of(tx, known, incoming)
        known = with_plan(tx, with_team(tx, known, event, incoming.at, self.draw), event)
        outcome = self._outcome(known, event, incoming.at)
        cause = Cause(incoming.door, f"{incoming.door}:{incoming.id}", incoming.at)
        letters = _keep(tx, known, outcome, cause, incoming)
        if not privacy.is_known(tx, who):
            inbox.forget(tx, incoming)
        return letters

    def _outcome(self, known: Known, event: Event, now: datetime) -> Outcome:
        if self.most is None:
            return converse(known, event, now)
        known = counted(known, self.most, now)
        return held_back(known, converse(known, event, now), self.most, now)

    def _give_up(self, row: int, fault: Exception) -> None:
        """Set a message aside that could not be answered, tell the person, and help first if it speaks of danger."""
        note("turn_failed", row=row, fault=type(fault).__name__)
        try:
            with self.store.begin() as tx:
                incoming = inbox.give_up(tx, row)
                if incoming is not None:
                    _help(tx, incoming)
        except OperationalError:
            raise
        except Exception as worse:
            note("help_failed", row=row, fault=type(worse).__name__)
            with self.store.begin() as tx:
                incoming = inbox.give_up(tx, row)
                if incoming is not None:
                    outbox.put(tx, last_resort(incoming))
                    _hold(tx, incoming)

    def sweep(self, until: datetime, now: datetime | None = None) -> int:
        """Do all that is due up to *until*, in order, and give the number of things done.

        *now*: what the clock shows; None: each thing happens on time.
        """
        for done in count():
            try:
                with self.store.begin() as tx:
                    claim = due.next_claim(tx, until)
                    if claim is None:
                        return done
                    outbox.put(tx, *fall_due(tx, claim, now or claim.at, self.door))
            except OperationalError:
                raise
            except Exception as fault:
                note("due_failed", row=done, fault=type(fault).__name__)
                with self.store.begin() as tx:
                    due.next_claim(tx, until)
        raise AssertionError("count() does not end")

    def sweep_shared(self, now: datetime, lease: timedelta, most: int) -> int:
        """Do up to *most* things that are due in one commit, and give their number; no other process does them.

        When one of them fails each is done alone, and nobody else does them for a *lease*.
        """
        try:
            with self.store.begin() as tx:
                claims = due.take_some(tx, now, most)
                people.look_ahead(tx, [each.who for each in claims], now)
                outbox.put(tx, *(each for claim in claims for each in fall_due(tx, claim, now, self.door)))
        except OperationalError:
            raise
        except Exception as fault:
            note("due_alone", row=0, fault=type(fault).__name__)
            return self._sweep_each(now, lease, most)
        return len(claims)

    def _sweep_each(self, now: datetime, lease: timedelta, most: int) -> int:
        with self.store.begin() as tx:
            claims = due.claim_some(tx, now, lease, most)
        for row, who in claims:
            try:
                with self.store.begin() as tx:
                    claim = due.take(tx, row, who, now)
                    if claim is not None:
                        outbox.put(tx, *fall_due(tx, claim, now, self.door))
            except OperationalError:
                raise
            except Exception as fault:
                note("due_failed", row=row, fault=type(fault).__name__)
                with self.store.begin() as tx:
                    due.take(tx, row, who, now)
        return len(claims)

    def start_clock(self, at: datetime) -> None:
        """On new records nothing counts as due that was due before *at*; later the clock goes on from where it was."""
        with self.store.begin() as tx:
            started = inbox.clock(tx) or at
            inbox.set_clock(tx, started)
            invites.start_clock(tx, started)
            for who in due.unstarted(tx):
                person_row(tx, who).since = started
                settle(tx, who, started)


def _with_people(tx: Transaction, waiting: Sequence[inbox.Waiting]) -> tuple[inbox.Waiting, ...]:
    """Those of *waiting* whose people are in no other turn just now. What is known of them is looked up at once."""
    held = locks.hold_some(tx, [each.who for each in waiting])
    mine = tuple(each for each in waiting if each.who in held)
    if mine:
        people.look_ahead(tx, [each.who for each in mine], max(each.message.at for each in mine))
    return mine


def _help(tx: Transaction, incoming: Incoming) -> None:
    """Answer what could not be answered in full: with danger help first and the coach told, else an error."""
    who = outbox.who_is(tx, incoming.door, incoming.sender)
    locks.hold(tx, who)
    cause = Cause(incoming.door, f"{incoming.door}:{incoming.id}", incoming.at)
    known = people.find_known(tx, who, incoming.at)
    outcome = help_alone(known, event_of(tx, known, incoming), incoming.at)
    if outcome is None:
        outbox.put(tx, letter_of(tx, whatever_fails(who, incoming.text or "", incoming.at), cause, 0))
    else:
        outbox.put(tx, *_keep(tx, known, outcome, cause, incoming))


def _hold(tx: Transaction, incoming: Incoming) -> None:
    """Danger in a message of which nothing else could be done: no session until it is cleared."""
    who = outbox.who_is(tx, incoming.door, incoming.sender)
    found = hold_of(incoming.text or "", incoming.at, incoming.id)
    if found is not None and privacy.is_known(tx, who):
        keep(tx, who, RaiseHold(found))


def enrol(tx: Transaction, change: KeepProfile) -> None:
    """Add somebody, with a plan, without a conversation."""
    who = change.profile.who
    keep(tx, who, change)
    clock = inbox.clock(tx)
    plan_anew(tx, who, clock)
    if clock is not None:
        person_row(tx, who).since = clock
        settle(tx, who, clock)


def plan_anew(tx: Transaction, who: str, now: datetime | None) -> None:
    """Make the plan of *who* from what really happened. Coaches have none.

    In an open break it holds for this week alone, and is made anew before more of it is told.
    """
    row = person_row(tx, who)
    if row.profile is None or not row.profile.days:
        return
    before = plans.find_plan(tx, who)
    today = local(now, row.profile.tz).date() if now else row.profile.begin
    history = people.history_of(tx, who)
    after = replan(row.profile, history, today, before)
    plans.keep_plan(tx, after, before)
    row.stale = now is not None and (_was_never_sent(after, row, now) or _is_away(history.breaks))


def _was_never_sent(plan: Plan, row: PersonRow, now: datetime) -> bool:
    """Whether the hour of today's session went by before there was a plan: no word will come of it, so that what
    follows has to be planned without it before it is sent.
    """
    assert row.profile is not None
    today = local(now, row.profile.tz).date()
    session = next((each for each in plan.sessions if each.on == today), None)
    sent = row.marks.pushed_on is not None and row.marks.pushed_on >= today
    return session is not None and not sent and instant(today, session.at, row.profile.tz) < now


def _is_away(breaks: Iterable[Break]) -> bool:
    """Whether a break is open: nobody knows yet when it ends."""
    return any(each.last is None for each in breaks)


def _is_too_old(known: Known, now: datetime) -> bool:
    """Whether the plan is too old to be told: a push makes it anew, but few or none go out in a silence or a break."""
    heard = known.marks.heard_at or known.since
    if not known.stale or known.profile is None or heard is None:
        return False
    days = (local(now, known.profile.tz).date() - local(heard, known.profile.tz).date()).days
    return days >= (1 if _is_away(known.breaks) else SILENT)


def settle(tx: Transaction, who: str, now: datetime, swept: datetime | None = None) -> None:
    """Write down what falls due next for *who*. *swept*: up to there all was done."""
    locks.hold_person(tx, who)
    due.set_agenda(tx, who, agenda(people.find_known(tx, who, now), swept))


def fall_due(tx: Transaction, claim: due.Claim, now: datetime, door: str) -> tuple[outbox.Letter, ...]:
    """Keep what follows from one thing that fell due, and give what is to be put into the outbox.

    *door*: behind which people are looked for who were not met anywhere yet.
    """
    known = people.find_known(tx, claim.who, now)
    if known.stale and claim.due.kind is DueKind.PUSH:
        plan_anew(tx, claim.who, now)
        known = people.find_known(tx, claim.who, now)
    known = with_team(tx, known, None, now)
    name = f"{claim.due.kind}:{claim.who}:{claim.due.on}:{claim.due.ordinal}"
    return _keep(tx, known, converse(known, claim.due, now), Cause(door, name, now), None)


def _keep(
    tx: Transaction, known: Known, outcome: Outcome, cause: Cause, incoming: Incoming | None
) -> tuple[outbox.Letter, ...]:
    """Keep all that one event leads to; the messages are still to be put into the outbox."""
    who = known.who
    files = tuple(files_of(tx, who, say) for say in outcome.says)
    changes = outcome.changes
    if any(isinstance(change, Erase) for change in changes):
        keep(tx, who, Erase())
        privacy.remember_erased(tx, who, cause.at)
    else:
        for change in changes:
            keep(tx, who, change)
        _follow(tx, who, changes, cause.at, incoming)
    _keep_others(tx, outcome.others, cause.at)
    return tuple(letter_of(tx, say, cause, place, files[place]) for place, say in enumerate(outcome.says))


def _keep_others(tx: Transaction, others: tuple[For, ...], now: datetime) -> None:
    """Keep what a coach changed for their runners; what falls due for those is written down anew."""
    for other in others:
        for change in other.changes:
            keep(tx, other.who, change)
        if any(isinstance(change, Replan | KeepProfile) for change in other.changes):
            plan_anew(tx, other.who, now)
        settle(tx, other.who, now, now)


def _follow(tx: Transaction, who: str, changes: tuple[Change, ...], now: datetime, incoming: Incoming | None) -> None:
    """What follows from changes: a new plan, where the person was met, what falls due next."""
    if any(isinstance(change, Replan | KeepProfile) for change in changes):
        plan_anew(tx, who, now)
    if not privacy.is_known(tx, who):
        return
    if incoming is not None:
        if incoming.private:
            outbox.set_address(tx, who, incoming.door, incoming.chat, now)
        _note_last(tx, who, incoming.id, changes)
    settle(tx, who, now, now if incoming else None)
    for coach in sorted({change.coach for change in changes if isinstance(change, SendNotice)}):
        settle(tx, coach, now, now)


def _note_last(tx: Transaction, who: str, name: str, changes: tuple[Change, ...]) -> None:
    """Remember whose effects `undo` would take back; they can't be taken back twice."""
    if any(isinstance(change, TakeBack) for change in changes):
        person_row(tx, who).last_id = None
    elif any(comes_from(change) == name for change in changes):
        person_row(tx, who).last_id = name
