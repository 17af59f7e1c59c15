"""The wire in this process, on records of its own: lines in, objects out."""

import json
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import datetime
from pathlib import Path

from sqlalchemy import select
from sqlalchemy.orm import Session as Transaction

from bot.conversation.changes import KeepProfile
from bot.conversation.known import Known
from bot.doors.wire import DOOR, Wire
from bot.forms import profile_from_json
from bot.post.desk import Desk
from bot.reports.export import export
from bot.store import outbox, seen
from bot.store.people import find_known
from bot.store.tables import Base
from bot.store.unit import Store
from bot.turn.turns import enrol

Json = dict[str, object]


def url_of(path: Path) -> str:
    return f"sqlite:///{path}"


@dataclass
class OnTheWire:
    """One process on one file. *out*: all that was written, parsed, in order."""

    store: Store
    out: list[Json] = field(default_factory=list)
    count: int = 0

    def __post_init__(self) -> None:
        self.wire = Wire(Desk(self.store, DOOR), lambda line: self.out.append(json.loads(line)))

    @classmethod
    def on(cls, path: Path, *profiles: Json) -> "OnTheWire":
        return cls.at(url_of(path), *profiles)

    @classmethod
    def at(cls, url: str, *profiles: Json) -> "OnTheWire":
        store = Store.open(url)
        with store.begin() as tx:
            for profile in profiles:
                enrol(tx, KeepProfile(profile_from_json(profile)))
        return cls(store)

    def feed(self, *lines: Json | str) -> list[Json]:
        """What these lines brought out, the `done` lines left out."""
        before = len(self.out)
        self.wire.run(line if isinstance(line, str) else json.dumps(line) for line in lines)
        return [each for each in self.out[before:] if "done" not in each]

    def says(self, at: str, text: str, chat: str = "ada") -> Json:
        """The `about` of the last message that a text brought to *chat*."""
        self.count += 1
        found = self.feed({"at": at, "id": f"t-{self.count}", "chat": chat, "text": text})
        return abouts(found, chat)[-1]

    def data(self, who: str = "ada") -> Json:
        with self.store.begin() as tx:
            return export(tx, who)


def abouts(messages: Iterable[Json], chat: str = "ada") -> list[Json]:
    """The `about` objects of the messages to *chat*."""
    return [each["about"] for each in messages if each.get("chat") == chat]


def misremembered(store: Store, now: datetime) -> list[str]:
    """Of whom something else is remembered from earlier turns than stands in the records."""
    with store.begin() as tx:
        names = list(store.memory.people) if store.memory else []
        before = [_looked_up(tx, who, now) for who in names]
        seen.forget_all(tx)
        return [who for who, each in zip(names, before, strict=True) if _looked_up(tx, who, now) != each]


def _looked_up(tx: Transaction, who: str, now: datetime) -> tuple[Known, seen.Seen, object]:
    addresses = outbox.addresses_of(tx, who)
    known = find_known(tx, who, now)
    lines = sorted(seen.seen(tx, who).dues or (), key=repr)
    return known, replace(seen.seen(tx, who), dues=None, addresses=None), (lines, addresses)


def dump(store: Store) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table, for comparing two files."""
    with store.begin() as tx:
        return {
            table.name: sorted(map(tuple, tx.execute(select(table))), key=repr) for table in Base.metadata.sorted_tables
        }
