"""`serve` as a process of its own, and a program that talks to it over a WebSocket."""

import json
import os
import queue
import signal
import subprocess
import sys
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from threading import Thread

from sqlalchemy import func, select, text
from websockets.exceptions import ConnectionClosed
from websockets.sync.client import ClientConnection, connect

from bot.conversation.changes import KeepProfile
from bot.forms import profile_from_json
from bot.store.tables import InboxRow, OutboxRow
from bot.store.unit import Store
from bot.turn.turns import enrol
from tests.support.people import ada, kim
from tests.support.trees import ROOT
from tests.support.wire import Json

TOKEN = "a-token-of-our-own-making"
PATIENCE = 120.0
"""Seconds: a machine may be slow, a process that hangs is still found."""


def enrolled(url: str) -> str:
    """The invented people are added to the records at *url*."""
    store = Store.open(url)
    with store.begin() as tx:
        for profile in (ada(), kim()):
            enrol(tx, KeepProfile(profile_from_json(profile)))
    store.close()
    return url


def answers(url: str) -> Counter[str]:
    """How many messages each line led to, by its id. Every line was answered, and the records are whole."""
    store = Store.open(url)
    with store.begin() as tx:
        keys = tx.scalars(select(OutboxRow.key)).all()
        kept = set(tx.scalars(select(InboxRow.transport_id)))
        assert tx.scalar(select(func.count()).where(InboxRow.done.is_(False)).select_from(InboxRow)) == 0
        if store.engine.dialect.name == "sqlite":
            assert tx.scalar(text("PRAGMA integrity_check")) == "ok"
            assert tx.execute(text("PRAGMA foreign_key_check")).all() == []
    store.close()
    found = Counter(key.split(":")[1] for key in keys if key.startswith("wire:"))
    return Counter({name: found[name] for name in kept})


class Served:
    """One process. *port*: 0 takes any that is free."""

    def __init__(self, url: str, folder: Path, port: int = 0, limit: Callable[[], None] | None = None, **more: object):
        settings = {"wire": f"127.0.0.1:{port}", "wire_token": TOKEN, "lease_seconds": 3, "takeover_seconds": 2}
        settings["most_a_minute"] = 10_000
        env = {f"LAMPPOST_{name.upper()}": str(value) for name, value in (settings | more).items()}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "bot", "serve", "--db", url],
            env={**os.environ, **env, "PYTHONPATH": str(ROOT)},
            cwd=folder,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
            preexec_fn=limit,
        )
        self.said: queue.Queue[str | None] = queue.Queue()
        self.all_said: list[str] = []
        self.reader = Thread(target=self._read, daemon=True)
        self.reader.start()

    def _read(self) -> None:
        assert self.process.stderr
        for line in self.process.stderr:
            self.all_said.append(line)
            self.said.put(line)
        self.said.put(None)

    def listens(self) -> int:
        """The port, as soon as it is open."""
        while (line := self.said.get(timeout=PATIENCE)) is not None:
            if "event=listening" in line:
                return int(line.rpartition("count=")[2])
        raise AssertionError(f"it ended with {self.process.wait()}: {''.join(self.all_said)}")

    def ends(self) -> int:
        """How it ended, after all that it had to say."""
        self.reader.join(PATIENCE)
        return self.process.wait(PATIENCE)

    def kill(self, how: signal.Signals = signal.SIGKILL) -> int:
        """How it ended."""
        self.process.send_signal(how)
        return self.process.wait(PATIENCE)


class Crowd:
    """Processes of a test, none of which outlives it."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.all = folder, list[Served]()

    def serve(self, url: str, **more: object) -> Served:
        self.all.append(Served(url, self.folder, **more))  # type: ignore[arg-type]
        return self.all[-1]

    def end(self) -> None:
        for each in self.all:
            if each.process.poll() is None:
                each.kill()


@dataclass
class Client:
    """A program that talks for some people. *done*: ids of the lines that were done; *got*: all messages, by id."""

    port: int
    done: list[str] = field(default_factory=list)
    got: dict[str, Json] = field(default_factory=dict)
    doubled: list[str] = field(default_factory=list)
    errors: list[Json] = field(default_factory=list)
    socket: ClientConnection | None = None

    def dial(self, port: int | None = None, *, deaf: bool = False) -> "Client":
        """Connect, also anew. *deaf*: it takes one message and then no more, unless it is asked to hear them."""
        self.port = port or self.port
        self.socket = connect(
            f"ws://127.0.0.1:{self.port}",
            additional_headers={"Authorization": f"Bearer {TOKEN}"},
            open_timeout=PATIENCE,
            max_queue=1 if deaf else None,  # else it reads all that comes, whatever its test waits for
            legacy=True,
        )
        return self

    def say(self, name: str, text: str, chat: str = "ada") -> None:
        assert self.socket
        self.socket.send(json.dumps({"id": name, "chat": chat, "text": text}))

    def hear(self, patience: float = PATIENCE) -> Json:
        """The next line that comes within so many seconds. Raises `ConnectionClosed`, `TimeoutError`."""
        assert self.socket
        line: Json = json.loads(self.socket.recv(timeout=patience))
        if "done" in line:
            self.done.append(str(line["done"]))
        elif "error" in line:
            self.errors.append(line)
        elif str(line["id"]) in self.got:
            self.doubled.append(str(line["id"]))
        else:
            self.got[str(line["id"])] = line
        return line

    def hear_out(self, name: str) -> None:
        """All lines until *name* is done."""
        while name not in self.done:
            self.hear()

    def hear_all(self) -> None:
        """All lines until the other end is gone."""
        try:
            while True:
                self.hear()
        except (ConnectionClosed, TimeoutError):
            return

    def to(self, chat: str) -> list[Json]:
        """The messages of one chat."""
        return [each for each in self.got.values() if each["chat"] == chat]
