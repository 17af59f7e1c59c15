"""Several `serve` on one database, each with a network of its own; faults strike them while people write."""

import os
import signal
from collections import Counter
from contextlib import suppress
from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path
from random import Random
from threading import Event
from time import monotonic

from sqlalchemy import make_url, select
from websockets.exceptions import ConnectionClosed

from bot.store.tables import OutboxRow
from bot.store.unit import Store
from tests.support.network import Network
from tests.support.served import PATIENCE, Client, Crowd, Served, answers
from tests.support.wire import Json

LEASE = 1.0
"""Seconds."""

A_WHILE = 2 * LEASE
"""How long a process is paused or unheard, in seconds."""

TAKEN_OVER_WITHIN = 90.0
"""Seconds from the fault until all that was said is answered."""

SAYS = {"ada": "week", "kim": "who needs me", **{f"p-{place}": "hello" for place in range(4)}}
"""Who writes, and what; each line leads to one message."""

LINES = 12

UNKEPT = "x-"
"""What the id of the answer to a line begins with that was not kept; the line's own follows."""


class Fault(StrEnum):
    """What befalls a process."""

    KILLED = "killed"
    PAUSED = "paused"
    CUT_OFF = "cut off"
    UNHEARD = "unheard"
    """Cut off without being told."""


@dataclass
class Member:
    """One process, its network, and the program that talks to it. *told*: all lines that it was told; *done*: those
    that it acknowledged; *unkept*: those that it could not keep, *refusals*: where that is said already.
    """

    network: Network
    served: Served
    client: Client
    told: list[str] = field(default_factory=list)
    done: set[str] = field(default_factory=set)
    unkept: set[str] = field(default_factory=set)
    refusals: Counter[str] = field(default_factory=Counter)

    def say(self, name: str, chat: str) -> None:
        self.told.append(name)
        self.unkept.discard(name)
        with suppress(ConnectionClosed):
            self.client.say(name, SAYS[chat], chat)

    def hear(self, patience: float = PATIENCE) -> Json:
        line = self.client.hear(patience)
        if "done" in line:
            name = str(line["done"])
            (self.unkept if self.refusals[name] else self.done).add(name)
            self.refusals[name] -= self.refusals[name] > 0
        elif (said := str(line.get("id", ""))).startswith(UNKEPT):
            self.refusals[said.removeprefix(UNKEPT)] += 1
        return line


class Company:
    """*size* processes on the records at *url*. *got*: all messages that came, by id; *happened*: faults, by kind."""

    def __init__(self, url: str, crowd: Crowd, size: int) -> None:
        self.url, self.crowd = url, crowd
        where = make_url(url)
        self.name, self.socket = where.database, Path(str(where.query["host"])) / ".s.PGSQL.5432"
        self.got: dict[str, Json] = {}
        self.happened: Counter[Fault] = Counter()
        self.longest = 0.0
        networks = [Network(self.socket) for _ in range(size)]
        started = [(each, self._serve(each)) for each in networks]
        self.members = [Member(network, served, Client(served.listens()).dial()) for network, served in started]

    def _serve(self, network: Network) -> Served:
        return self.crowd.serve(f"postgresql://lamppost@127.0.0.1:{network.port}/{self.name}", lease_seconds=LEASE)

    def end(self) -> None:
        for each in self.members:
            each.network.close()

    def run(self, seed: int) -> None:
        """People write to all of them while a fault strikes one; what was not acknowledged is said again."""
        random, fault = Random(seed), tuple(Fault)[seed % len(Fault)]
        victim, strikes_at = random.choice(self.members), random.randrange(LINES)
        lines = {f"{seed}-{place}": random.choice(list(SAYS)) for place in range(LINES)}
        for place, (name, chat) in enumerate(lines.items()):
            if place == strikes_at:
                self._hear_some(victim, list(lines)[:place], random)
                began = monotonic()
                self._strike(victim, fault)
            random.choice(self.members).say(name, chat)
        self._heal(victim, fault, random)
        self._settle(lines, random)
        for place, each in enumerate(self.members):
            lines[f"{seed}-alive-{place}"] = "p-0"
            each.say(f"{seed}-alive-{place}", "p-0")
            self._hear_out(each, f"{seed}-alive-{place}", "p-0")
        took = monotonic() - began
        self.longest = max(self.longest, took)
        assert took < TAKEN_OVER_WITHIN
        self._check(lines)

    def _hear_some(self, victim: Member, said: list[str], random: Random) -> None:
        """How far it gets before the fault."""
        open_ones = [each for each in said if each in victim.told]
        for name in open_ones[: random.randint(0, len(open_ones))]:
            while name not in victim.done:
                self._take(victim.hear())

    def _strike(self, victim: Member, fault: Fault) -> None:
        process = victim.served.process
        match fault:
            case Fault.KILLED:
                seen = victim.served.kill() == -signal.SIGKILL
            case Fault.PAUSED:
                process.send_signal(signal.SIGSTOP)
                seen = os.waitid(os.P_PID, process.pid, os.WSTOPPED) is not None
            case Fault.CUT_OFF:
                seen = victim.network.cut() > 0
            case Fault.UNHEARD:
                victim.network.silence()
                seen = victim.network.withheld.wait(PATIENCE)
        self.happened[fault] += seen

    def _heal(self, victim: Member, fault: Fault, random: Random) -> None:
        match fault:
            case Fault.KILLED:
                served = self._serve(victim.network)
                self._hear_what_came(victim, PATIENCE)
                victim.client.dial(served.listens())
                victim.served = served
            case Fault.PAUSED:
                Event().wait(A_WHILE)
                victim.served.process.send_signal(signal.SIGCONT)
            case Fault.CUT_OFF:
                for _ in range(random.randint(1, 4)):
                    assert victim.network.refused.acquire(timeout=PATIENCE)
                victim.network.mend()
            case Fault.UNHEARD:
                Event().wait(A_WHILE)
                victim.network.mend()

    def _settle(self, lines: dict[str, str], random: Random) -> None:
        """What was not acknowledged is said again, to anybody."""
        for each in self.members:
            self._hear_what_came(each, 0)
        again = {name: random.choice(self.members) for name in lines if not self._is_done(name)}
        for name, member in again.items():
            member.say(name, lines[name])
        for name, member in again.items():
            self._hear_out(member, name, lines[name])

    def _is_done(self, name: str) -> bool:
        return any(name in each.done for each in self.members)

    def _hear_out(self, member: Member, name: str, chat: str) -> None:
        while name not in member.done:
            self._take(member.hear())
            if name in member.unkept:
                member.say(name, chat)

    def _hear_what_came(self, member: Member, patience: float) -> None:
        with suppress(ConnectionClosed, TimeoutError):
            while True:
                self._take(member.hear(patience))

    def _take(self, line: Json) -> None:
        """A message may come twice; then it has to be the same."""
        if str(line.get("id", "")).startswith("m-"):
            assert self.got.setdefault(str(line["id"]), line) == line

    def _check(self, lines: dict[str, str]) -> None:
        """Each line led to one answer, which came; nobody complained, and everybody lives."""
        for each in self.members:
            self._hear_what_came(each, 0)
        led_to = answers(self.url)
        assert {name: led_to[name] for name in lines if led_to[name] != 1} == {}
        assert [name for name, number in self._numbers(lines).items() if f"m-{number}" not in self.got] == []
        assert [each.client.errors for each in self.members if each.client.errors] == []
        assert [each.served.process.returncode for each in self.members if each.served.process.poll() is not None] == []

    def _numbers(self, lines: dict[str, str]) -> dict[str, int]:
        """The number of each line's answer."""
        store = Store.open(self.url)
        with store.begin() as tx:
            rows = tx.execute(select(OutboxRow.key, OutboxRow.id).where(OutboxRow.key.startswith("wire:"))).all()
        store.close()
        return {name: number for key, number in rows if (name := key.split(":")[1]) in lines}
