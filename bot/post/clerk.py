"""The one writer of a serving process: keeps what doors ask for, answers what waits, does what is due. Round and round.

Other processes may do the same on the same records; what one of them has taken the others leave alone.
"""

from collections import deque
from collections.abc import Callable
from concurrent.futures import Future
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from threading import Event, Lock
from time import monotonic
from typing import Any, TypeVar

from sqlalchemy.exc import DBAPIError
from sqlalchemy.orm import Session as Transaction

from bot.logs import note
from bot.ports import Clock
from bot.post.zones import ZoneWatch
from bot.store import inbox
from bot.store.unit import Store
from bot.turn import Turns

Answer = TypeVar("Answer")

AT_ONCE = 32
"""So many jobs are kept in one commit, and so many things that are due are taken at a time."""

TURNS_AT_ONCE = 8
"""So many messages are answered in one commit; with more of them the first would wait too long for the last."""

CLOCK_EVERY = 30.0
"""Seconds between two notes of how far the clock has come while nothing happens."""

JUMP = timedelta(minutes=5)
"""A clock that goes so much faster or slower than time itself has jumped."""

FIRST_WAIT, LONGEST_WAIT = 0.1, 5.0
"""Seconds to wait after the first fault of the records, and at most; it doubles in between."""


@dataclass
class _Job:
    """Something to keep. Who asked may have gone before it is begun (*heard* false): it is done all the same."""

    work: Callable[[Transaction], Any]
    future: "Future[Any]" = field(default_factory=Future)
    heard: bool = True

    def begin(self) -> None:
        """From here on nobody can call it off, so its answer finds a future that takes it."""
        self.heard = self.future.set_running_or_notify_cancel()

    def answer(self, value: Any) -> None:
        """Tell who asked, if they still listen."""
        if self.heard:
            self.future.set_result(value)

    def fail(self, fault: Exception) -> None:
        """Tell who asked what went wrong, if they still listen."""
        if self.heard:
            self.future.set_exception(fault)


class Clerk:
    """Works on its own thread (`run`), or step by step in a test."""

    def __init__(
        self, store: Store, turns: Turns, clock: Clock, zones: ZoneWatch, lease: timedelta, poll: float = 0.25
    ) -> None:
        """*lease*: how long nobody else does what this process has taken; *poll*: seconds between two looks."""
        self.store, self.turns, self.clock, self.zones = store, turns, clock, zones
        self.lease, self.poll = lease, poll
        self.jobs: deque[_Job] = deque()
        self.lock = Lock()
        self.awake, self.stopping = Event(), Event()
        self.started = False
        self.faults = 0
        self.noted_at = self.swept_at = float("-inf")
        self.seen: tuple[datetime, float] | None = None
        self.tell_senders: Callable[[], object] = lambda: None
        """Called when there may be something to send. Not after a job alone: the senders' own questions are jobs."""

    def ask(self, work: Callable[[Transaction], Answer]) -> "Future[Answer]":
        """Have *work* done in a transaction, maybe together with other jobs."""
        job = _Job(work)
        with self.lock:
            self.jobs.append(job)
        self.awake.set()
        return job.future

    def run(self) -> None:
        """Work until `stop`."""
        while not self.stopping.is_set():
            if not self.step():
                self.awake.wait(self.poll)
                self.awake.clear()
        self._do_jobs()

    def stop(self) -> None:
        """Finish the transaction in hand and the jobs that were asked for, then end."""
        self.stopping.set()
        self.awake.set()

    def step(self) -> bool:
        """One round. False: there was nothing to do, or nothing could be done."""
        try:
            worked = self._do_jobs()
            if not self.started:
                self.turns.start_clock(self.clock.now())
                self.started = True
            answered = self.turns.answer_some(TURNS_AT_ONCE) > 0
            if self._sweep(busy=answered) or answered:
                self.tell_senders()
                worked = True
            worked = self.zones.step(self.clock.now()) or worked
        except DBAPIError as fault:
            self._wait_out(fault)
            return False
        self.faults = 0
        return worked

    def _wait_out(self, fault: DBAPIError) -> None:
        if self.faults == 0:
            note("records_fail", row=0, fault=type(fault.orig).__name__)
        wait = min(LONGEST_WAIT, FIRST_WAIT * 2 ** min(self.faults, 10))
        self.faults += 1
        self.awake.clear()
        self.awake.wait(wait)

    def _take_jobs(self) -> list[_Job]:
        with self.lock:
            jobs = [self.jobs.popleft() for _ in range(min(AT_ONCE, len(self.jobs)))]
        for each in jobs:
            each.begin()
        return jobs

    def _do_jobs(self) -> bool:
        """All jobs that wait, in one commit. When that fails each is told so; a bad one spoils no other."""
        jobs = self._take_jobs()
        if not jobs:
            return False
        try:
            with self.store.begin() as tx:
                answers = [each.work(tx) for each in jobs]
        except Exception as fault:
            if len(jobs) == 1:
                jobs[0].fail(fault)
                return True
            for each in jobs:
                self._do_alone(each)
            return True
        for each, answer in zip(jobs, answers, strict=True):
            each.answer(answer)
        return True

    def _do_alone(self, job: _Job) -> None:
        try:
            with self.store.begin() as tx:
                answer = job.work(tx)
        except Exception as fault:
            job.fail(fault)
        else:
            job.answer(answer)

    def _sweep(self, *, busy: bool) -> bool:
        """Do what is due. While messages are answered, that is looked for a few times a second."""
        passed = monotonic()
        if busy and passed - self.swept_at < self.poll:
            return False
        self.swept_at = passed
        now = self.clock.now()
        self._watch(now)
        done = self.turns.sweep_shared(now, self.lease, AT_ONCE)
        if monotonic() - self.noted_at > CLOCK_EVERY:
            with self.store.begin() as tx:
                inbox.set_clock(tx, now)
            self.noted_at = monotonic()
        return done > 0

    def _watch(self, now: datetime) -> None:
        """Note a jump of the clock: what is due follows the clock, how often is looked follows time itself."""
        passed = monotonic()
        if self.seen is not None:
            jump = (now - self.seen[0]) - timedelta(seconds=passed - self.seen[1])
            if abs(jump) > JUMP:
                note("clock_jumped", row=round(jump.total_seconds()), fault="Jump")
        self.seen = (now, passed)
