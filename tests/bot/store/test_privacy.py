"""Everything about a person is handed out to them, and everything goes when they leave."""

import json
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, time
from pathlib import Path

import pytest
from sqlalchemy import Table, insert, select, text

from bot.conversation.changes import Erase, KeepProfile
from bot.messages import Attachment, Button
from bot.reports.export import export, export_json
from bot.store import inbox, outbox, privacy
from bot.store.changes import keep, person_row
from bot.store.columns import Typed, UtcDateTime
from bot.store.tables import AddressRow, Base, InboxRow
from bot.store.unit import Store
from planning import build_plan
from tests.support.letters import at, incoming, letter
from tests.support.profiles import a_person

NO_PERSON = {
    "clock": "the instant up to which all was done",
    "tombstone": "a hashed mark of somebody who left",
    "attempt": "a hash of who sent a wrong code, for an hour",
}
"""Tables that hold nothing of a person, and why."""

BY_CHAT = {
    "inbox": "a message is kept before anybody knows whose it is; it is found by its sender",
    "route": "through which process a chat speaks just now; it goes with its chat",
}
TABLES = Base.metadata.sorted_tables


def test_every_table_belongs_to_a_person_or_says_why_not() -> None:
    assert {table.name for table in TABLES} == {table.name for table in privacy.OWN} | NO_PERSON.keys() | BY_CHAT.keys()


def test_tables_without_a_person_hold_no_words_of_one() -> None:
    columns = {name: set(Base.metadata.tables[name].columns.keys()) for name in NO_PERSON}
    assert columns == {
        "clock": {"id", "at", "zones"},
        "tombstone": {"mark", "erased_at"},
        "attempt": {"id", "mark", "at"},
    }


def filled(store: Store, who: str = "ada") -> Store:
    """Records with a row about *who* in every table that has a person; each text holds the word "canary"."""
    with store.begin() as tx:
        keep(tx, who, KeepProfile(replace(a_person(who=who), called=f"canary-{who}")))
        for table in reversed(privacy.OWN):
            if table.name != "person":
                tx.execute(insert(table), {each.name: value for each, value in row_of(table, who)})
        said = replace(incoming(f"u-{who[0]}", f"canary-{who}", who=who), file=Attachment("canary.gpx", "x", b"\0"))
        inbox.accept(tx, said)
        outbox.set_address(tx, who, "terminal", f"canary-chat-{who}", at())
        inbox.accept(tx, incoming(f"v-{who[0]}", "canary", who=f"canary-chat-{who}"))
        person_row(tx, who).last_id = "canary"
    return store


def row_of(table: Table, who: str) -> Iterator[tuple[object, object]]:
    """A value for each column of a table."""
    for column in table.columns:
        if column.name == "who":
            yield column, who
        elif not (column.primary_key and column.type.python_type is int and len(table.primary_key) == 1):
            yield column, value_of(column, who)


PLAN = build_plan(a_person())
TYPED = {
    "buttons": (Button("b", "canary"),),
    "files": (Attachment("canary", "x", b"canary"),),
    "session": PLAN.sessions[0],
    "segments": PLAN.sessions[0].segments,
    "after": PLAN.sessions[0].after,
    "strength": (),
    "codes": (),
    "warnings": PLAN.warnings,
    "week.kind": "build",
    "session.purpose": "easy",
}
PLAIN = {int: 1, float: 1.0, bool: True, date: at().date(), time: time(7)}


def value_of(column: object, who: str) -> object:
    name, kind = str(column), column.type  # type: ignore[attr-defined]
    named = TYPED.get(name, TYPED.get(name.partition(".")[2]))
    if named is not None:
        return named
    if isinstance(kind, Typed):
        return None
    if isinstance(kind, UtcDateTime):
        return at()
    return f"canary-{who}" if kind.python_type is str else PLAIN[kind.python_type]


def bytes_of(url: str) -> bytes:
    """All that stands in the file and in the log beside it, while both are in use."""
    path = Path(url.removeprefix("sqlite:///"))
    return b"".join(each.read_bytes() for each in path.parent.glob(path.name + "*"))


def test_nothing_of_a_person_is_left_when_they_leave(file_store: Store, blank_url: str) -> None:
    filled(file_store)
    assert b"canary" in bytes_of(blank_url)
    with file_store.begin() as tx:
        keep(tx, "ada", Erase())
        privacy.remember_erased(tx, "ada", at())
    left = bytes_of(blank_url)
    assert [word for word in (b"canary", b"ada") if word in left] == []


def test_those_who_stay_keep_all_of_it(store: Store) -> None:
    filled(filled(store), "bea")
    with store.begin() as tx:
        before = export(tx, "bea")
        keep(tx, "ada", Erase())
        tx.expire_all()
        assert export(tx, "bea") == before


def test_ids_of_messages_stay_without_their_words(store: Store) -> None:
    with filled(store).begin() as tx:
        keep(tx, "ada", Erase())
    with store.begin() as tx:
        assert not inbox.accept(tx, incoming("u-a"))
        rows = tx.execute(select(InboxRow.chat, InboxRow.sender, InboxRow.text, InboxRow.press, InboxRow.file)).all()
        assert {tuple(row) for row in rows} == {("", "", None, None, None)}


def test_leaving_twice_leaves_one_mark(store: Store) -> None:
    with filled(store).begin() as tx:
        for _ in range(2):
            keep(tx, "ada", Erase())
            privacy.remember_erased(tx, "ada", at())
        assert tx.scalar(text("SELECT count(*) FROM tombstone")) == 1
        assert not privacy.is_known(tx, "ada")


@pytest.mark.parametrize("table", [*privacy.OWN, Base.metadata.tables["inbox"]], ids=lambda each: each.name)
def test_every_row_about_a_person_is_handed_out(store: Store, table: Table) -> None:
    with filled(store).begin() as tx:
        gathered = dict(privacy.rows_about(tx, "ada"))
    assert gathered[table], f"no row of {table.name} is in the copy"


def test_a_copy_holds_everything_and_is_plain_json(store: Store) -> None:
    with filled(store).begin() as tx:
        copy = json.loads(export_json(tx, "ada"))
    shown = {"profile", "entries", "flags", "plan"} | {table.name for table in privacy.OWN} - {"entry", "flag", "week"}
    assert shown - {"session"} <= copy.keys()
    assert copy["profile"]["called"] == "canary-ada"
    assert [each["text"] for each in copy["inbox"]] == ["canary-ada", "canary"]


def test_a_copy_holds_nothing_of_others(store: Store) -> None:
    with filled(filled(store), "bea").begin() as tx:
        assert "bea" not in export_json(tx, "ada")


def test_a_copy_of_somebody_unknown_is_empty(store: Store) -> None:
    with store.begin() as tx:
        copy = export(tx, "nobody")
    assert copy["profile"] is None
    assert not any(copy[name] for name in copy if name != "who")


def test_an_address_leads_back_to_nobody_after_leaving(store: Store) -> None:
    with filled(store).begin() as tx:
        keep(tx, "ada", Erase())
    with store.begin() as tx:
        assert tx.scalars(select(AddressRow)).all() == []
        outbox.put(tx, letter(who="ada"))
        assert outbox.address_of(tx, "ada", "wire") == ("wire", "ada")
