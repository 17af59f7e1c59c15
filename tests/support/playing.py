"""A scenario played on the wire, in this process or by one of its own."""

import json
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

from bot.conversation.changes import AddEntry, SetMarks
from bot.conversation.known import Marks
from bot.store.changes import keep
from bot.store.inbox import clock, set_clock
from bot.store.plans import find_plan
from bot.store.unit import Store
from bot.turn.turns import settle
from planning.terms.choices import Activity
from planning.terms.entry import Entry
from tests.support.holding import faults
from tests.support.people import ada, kim
from tests.support.scenarios import Scenario, Step, moment
from tests.support.trees import ROOT
from tests.support.wire import OnTheWire, misremembered, url_of

Json = dict[str, object]
EVENING_BEFORE = datetime.fromisoformat("2026-03-01T20:00")
"""Local time at which the clock of a scenario starts."""


@dataclass
class Records:
    """A folder with records to begin with: enrolled people, and the same after weeks that were done as planned."""

    folder: Path
    made: dict[str, datetime] = field(default_factory=dict)

    def copy(self, scenario: Scenario, path: Path) -> datetime:
        """Records for *scenario* at *path*, and the local time at which they stand."""
        name = f"{scenario.weeks}-{json.dumps(scenario.profile, sort_keys=True)}"
        source = self.folder / f"{abs(hash(name))}.sqlite3"
        if name not in self.made:
            self.made[name] = _made(scenario, source)
        shutil.copy(source, path)
        return self.made[name]


def _made(scenario: Scenario, path: Path) -> datetime:
    """Enrolled people on the evening before their first day, or after so many weeks that were done as planned."""
    profile = ada(**scenario.profile)
    run = OnTheWire.on(path, profile, kim())
    clock = EVENING_BEFORE + timedelta(weeks=scenario.weeks)
    zone = ZoneInfo(str(profile["tz"]))
    run.feed({"at": EVENING_BEFORE.replace(tzinfo=zone).isoformat()})
    if scenario.weeks:
        _live(run.store, clock.replace(tzinfo=zone).astimezone(UTC))
    run.store.close()
    return clock


def _live(store: Store, until: datetime) -> None:
    """All that was planned up to *until* was done, at an effort of 3, and nothing is due from before."""
    with store.begin() as tx:
        plan = find_plan(tx, "ada")
        assert plan is not None
        past = [each.on for each in plan.sessions if each.on <= until.date()]
        for day in past:
            entry = Entry(day, kind=Activity.SESSION, share=1, effort=3, planned_on=day, from_id=f"past-{day}")
            keep(tx, "ada", AddEntry(entry))
        marks = Marks(pushed_on=past[-1], nudged_on=past[-1], closed_on=past[-1], reviewed_on=past[-1], heard_at=until)
        keep(tx, "ada", SetMarks(marks))
        set_clock(tx, until)
        settle(tx, "ada", until, until)
        settle(tx, "kim", until, until)


Feed = Callable[[Json], list[Json]]
"""Takes one line, gives what it brought out."""


@dataclass
class InProcess:
    """The wire in this process. One store serves many records in turn: it remembers its statements."""

    path: Path
    store: Store

    def __post_init__(self) -> None:
        self.run = OnTheWire(self.store)

    def feed(self, line: Json) -> list[Json]:
        """What the line brought out."""
        return self.run.feed(line)

    def restart(self) -> None:
        """The process goes and another one comes."""
        self.store.close()
        self.run = OnTheWire(self.store)

    def data(self) -> Json:
        """What is kept of the runner."""
        return self.run.data()

    def copy_to(self, path: Path) -> None:
        """The records as they are now."""
        with closing(sqlite3.connect(self.path)) as here, closing(sqlite3.connect(path)) as there:
            here.backup(there)

    def close(self) -> None:
        """Done; what was remembered from turn to turn is what stands in the records."""
        with self.store.begin() as tx:
            now = clock(tx)
        assert now is None or misremembered(self.store, now) == []
        self.store.close()


@dataclass
class Stage:
    """A place on which one set of records after the other is played with."""

    path: Path

    def __post_init__(self) -> None:
        self.store = Store.open(url_of(self.path))

    def clear(self) -> Path:
        """Nothing is left of the last records."""
        self.store.close()
        for ending in ("", "-wal", "-shm"):
            self.path.with_name(self.path.name + ending).unlink(missing_ok=True)
        return self.path

    def begin(self) -> InProcess:
        """The wire on the records that were put there."""
        return InProcess(self.path, self.store)


@dataclass
class OwnProcess:
    """The wire as a process of its own, talked to by its standard input and output."""

    path: Path

    def __post_init__(self) -> None:
        self.process = self._opened()

    def _opened(self) -> "subprocess.Popen[str]":
        command = [sys.executable, "-m", "bot", "wire", "--db", url_of(self.path)]
        pipe = subprocess.PIPE
        return subprocess.Popen(command, stdin=pipe, stdout=pipe, text=True, encoding="utf-8", cwd=ROOT)

    def feed(self, line: Json) -> list[Json]:
        """What the line brought out."""
        assert self.process.stdin
        assert self.process.stdout
        print(json.dumps(line), file=self.process.stdin, flush=True)
        came: list[Json] = []
        while "done" not in (one := json.loads(self.process.stdout.readline())) and "error" not in one:
            came.append(one)
        return came

    def restart(self) -> None:
        """The process is killed and another one comes."""
        self.process.kill()
        self.process.communicate()
        self.process = self._opened()

    def data(self) -> Json:
        """What is kept of the runner."""
        command = [sys.executable, "-m", "bot", "data", "--db", url_of(self.path), "ada"]
        told = subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=True, cwd=ROOT)
        found: Json = json.loads(told.stdout)
        return found

    def close(self) -> None:
        """The input ends."""
        self.process.communicate()


@dataclass
class Played:
    """One scenario on its way. *seen*: is shown every message, with the line that brought it."""

    scenario: Scenario
    wire: InProcess | OwnProcess
    clock: datetime
    seen: Callable[[Json, datetime], None]
    buttons: dict[tuple[str, str], str] = field(default_factory=dict)
    count: int = 0

    def play(self) -> list[str]:
        """All steps in order; every line that does not hold."""
        return [f"{step.when} {step.text}: {fault}" for step in self.scenario.steps for fault in self._step(step)]

    def at(self) -> datetime:
        """The clock in UTC."""
        zone = ZoneInfo(str(ada(**self.scenario.profile)["tz"]))
        return self.clock.replace(tzinfo=zone).astimezone(UTC)

    def _step(self, step: Step) -> list[str]:
        self.clock = moment(step.when, self.clock)
        if step.restarts:
            self.wire.restart()
        if step.who:
            self._feed({"at": self.at().isoformat()})
        came = self._feed(self._line(step))
        looks = any(each.chat == "data" for each in step.told)
        return list(faults(step.told, step.counted, came, self.wire.data() if looks else {}))

    def _feed(self, line: Json) -> list[Json]:
        came = self.wire.feed(line)
        for message in came:
            self.seen(message, self.at())
            for button in message.get("buttons", ()):  # type: ignore[attr-defined]
                self.buttons[str(message["chat"]), button["label"]] = button["id"]
        return came

    def _line(self, step: Step) -> Json:
        at = self.at().isoformat()
        if step.who is None:
            return {"at": at}
        self.count += 1
        line: Json = {"at": at, "id": f"u-{self.count}", "chat": step.chat}
        if step.chat != step.who:
            line["from"] = step.who
        if step.text.startswith("[") and step.text.endswith("]"):
            return line | {"press": self.buttons[step.who, step.text[1:-1]]}
        return line | {"text": step.text} | ({"edits": step.edits} if step.edits else {})
