"""Scenarios in plain text: who says what when, and what must hold of the facts of each answer.

    = A knee that hurts by itself is amber                      a scenario begins with its title
    with {"age": 61}                                            changes to the profile of the runner, as JSON
    after 6 weeks                                               so many weeks were done as planned before
    fails because ...                                           a fault that is known; the scenario must fail until then
    process                                                     also played by a process of its own
    Mon 07:05                                                   time passes: the next Monday, 07:05 runner's clock
    Mon 07:05 ada> knee hurts                                   somebody writes in the private chat
      ada: triage, also logged; flag = amber; level >= 2        what came of just this, one line for each message
      kim: nothing                                              none came
      kim gets 1 notice                                         so many of a kind in all that came
      data: flags.#=1; flags.0.part = knee                      what is kept of the runner
    +10m ada> [It eased]                                        a button is pressed by its label
    +10m ada edits 1> knee hurts 2/10                           the first message said gets another wording
    07:30 ada@tuesday> chest pain                               said in a group
    2026-04-01 07:00 restart                                    the process dies and starts again

Conditions: PATH = VALUE, also with != < <= > >=; PATH has VALUE, PATH lacks VALUE; PATH in LOW..HIGH; PATH alone: it is
there; no PATH. A path goes through the object by names and places, "#" is a count.
"""

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, time, timedelta
from pathlib import Path

from bot.conversation.says import Kind

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
DAY = r"Mon|Tue|Wed|Thu|Fri|Sat|Sun|\d{4}-\d\d-\d\d|\+\d+d"
WHEN = re.compile(rf"(?:(?P<ahead>\+\d+[hm])|(?:(?P<day>{DAY}) )?(?P<clock>\d\d:\d\d))(?: |$)")
SPOKEN = re.compile(r"(?P<who>[\w-]+)(?:@(?P<chat>[\w-]+))?(?: edits (?P<edits>\d+))?> ?(?P<text>.*)", re.DOTALL)
COUNTED = re.compile(r"(?P<chat>[\w-]+) gets (?P<count>\d+) (?P<kind>\w+)")
TOLD = re.compile(r"(?P<chat>[\w-]+): (?P<rest>.*)")
CONDITION = re.compile(r"(?P<path>[\w.#]+) ?(?P<op>!=|<=|>=|=|<|>| has | lacks | in ) ?(?P<value>.*)")

Json = dict[str, object]


@dataclass(frozen=True, slots=True)
class Condition:
    """What must hold of one place in an object. *op* is "there" or "no" where no value is compared."""

    path: str
    op: str = "there"
    value: object = None


@dataclass(frozen=True, slots=True)
class Told:
    """One message to *chat*, or none (*kind* None); *chat* "data" stands for what is kept."""

    chat: str
    kind: str | None
    also: tuple[str, ...]
    conditions: tuple[Condition, ...]


@dataclass(frozen=True, slots=True)
class Counted:
    """So many messages of a kind."""

    chat: str
    count: int
    kind: str


@dataclass(slots=True)
class Step:
    """One thing that happens. *who* None: time passes, or the process starts again."""

    when: str
    who: str | None = None
    chat: str | None = None
    text: str = ""
    restarts: bool = False
    edits: str | None = None
    told: list[Told] = field(default_factory=list)
    counted: list[Counted] = field(default_factory=list)


@dataclass(slots=True)
class Scenario:
    """A title, the runner's profile as it differs from the usual one, and steps in order."""

    title: str
    place: str
    profile: Json = field(default_factory=dict)
    weeks: int = 0
    fails: str | None = None
    process: bool = False
    steps: list[Step] = field(default_factory=list)


def scenarios_in(folder: Path) -> list[Scenario]:
    """All scenarios of the files in *folder*, in order."""
    return [each for path in sorted(folder.glob("*.txt")) for each in _of_file(path)]


def _of_file(path: Path) -> Iterator[Scenario]:
    found: Scenario | None = None
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        if not line.strip() or line.startswith("#"):
            continue
        if line.startswith("= "):
            if found is not None:
                yield found
            found = Scenario(line[2:], f"{path.name}:{number}")
            continue
        assert found is not None, f"{path.name}:{number}: no title yet"
        try:
            _take(found, line)
        except (AssertionError, ValueError) as wrong:
            raise ValueError(f"{path.name}:{number}: {wrong}") from wrong
    if found is not None:
        yield found


def _take(scenario: Scenario, line: str) -> None:
    """One line below a title."""
    if line.startswith("  "):
        _expect(scenario.steps[-1], line.strip())
    elif line.startswith("with "):
        scenario.profile = json.loads(line[5:])
    elif line.startswith("after "):
        scenario.weeks = int(line.split()[1])
    elif line.startswith("fails because "):
        scenario.fails = line[len("fails because ") :]
    elif line == "process":
        scenario.process = True
    else:
        scenario.steps.append(_step(line))


def _step(line: str) -> Step:
    when = WHEN.match(line)
    assert when, f"no time: {line}"
    rest = line[when.end() :]
    if rest in ("", "restart"):
        return Step(when[0].strip(), restarts=rest == "restart")
    spoken = SPOKEN.fullmatch(rest)
    assert spoken, f"nobody speaks: {line}"
    text = spoken["text"].encode().decode("unicode_escape") if "\\" in spoken["text"] else spoken["text"]
    edits = f"u-{spoken['edits']}" if spoken["edits"] else None
    return Step(when[0].strip(), spoken["who"], spoken["chat"] or spoken["who"], text, edits=edits)


def _expect(step: Step, line: str) -> None:
    counted = COUNTED.fullmatch(line)
    if counted:
        step.counted.append(Counted(counted["chat"], int(counted["count"]), counted["kind"]))
        return
    told = TOLD.fullmatch(line)
    assert told, f"no expectation: {line}"
    head, *conditions = (each.strip() for each in told["rest"].split(";"))
    if told["chat"] == "data":
        conditions, head = [head, *conditions], "nothing"
    kind, *also = (each.strip().removeprefix("also ") for each in head.split(","))
    assert kind == "nothing" or Kind(kind)
    found = tuple(map(condition, filter(None, conditions)))
    step.told.append(Told(told["chat"], None if kind == "nothing" else kind, tuple(also), found))


def condition(text: str) -> Condition:
    """ "session.minutes <= 10" as a value."""
    if text.startswith("no "):
        return Condition(text[3:], "no")
    compared = CONDITION.fullmatch(text)
    return (
        Condition(compared["path"], compared["op"].strip(), _value(compared["value"])) if compared else Condition(text)
    )


def _value(text: str) -> object:
    """JSON, a list of bare words, LOW..HIGH, or a bare word."""
    if text.startswith("[") and not text.startswith("[{"):
        return [_value(each.strip()) for each in text[1:-1].split(",") if each.strip()]
    if ".." in text:
        return tuple(map(float, text.split("..")))
    try:
        return json.loads(text)
    except ValueError:
        return text


def moment(when: str, clock: datetime) -> datetime:
    """The local instant that *when* names, at or after the local *clock*."""
    found = WHEN.match(when)
    assert found
    if found["ahead"]:
        unit = {"h": "hours", "m": "minutes"}[found["ahead"][-1]]
        return clock + timedelta(**{unit: int(found["ahead"][1:-1])})
    at = time.fromisoformat(found["clock"])
    day = found["day"]
    if day and day[0].isdigit():
        return datetime.combine(datetime.fromisoformat(day), at)
    ahead = int(day[1:-1]) if day and day[0] == "+" else 0
    if day in WEEKDAYS:
        ahead = (WEEKDAYS.index(day) - clock.weekday()) % 7
    wished = datetime.combine(clock.date() + timedelta(days=ahead), at)
    return wished + timedelta(days=7) if day in WEEKDAYS and wished < clock else wished
