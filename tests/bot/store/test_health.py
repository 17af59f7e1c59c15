"""What `check` finds: nothing in good records, and each fault by its name."""

from datetime import timedelta

import pytest

from bot.store import health, inbox, outbox, sending
from bot.store.changes import person_row
from bot.store.sending import Claim
from bot.store.tables import DueRow
from bot.store.unit import Store
from tests.support.letters import at, incoming, letter


def wrong(store: Store, zones: str = "2026a") -> set[str]:
    return {each.name for each in health.look(store, at(), zones) if not each.fine and each.name != "sqlite"}


def test_good_records_need_nobody(store: Store) -> None:
    with store.begin() as tx:
        inbox.set_clock(tx, at())
        inbox.set_zones(tx, "2026a")
    assert wrong(store) == set()


def test_new_records_need_nobody(store: Store) -> None:
    assert wrong(store) == set()


@pytest.mark.parametrize("fault", ["clock", "zones", "due", "in", "out", "dead", "parked"])
def test_each_fault_is_found_by_its_name(store: Store, fault: str) -> None:
    with store.begin() as tx:
        person_row(tx, "ada")
        inbox.set_clock(tx, at(60 if fault == "clock" else 0))
        inbox.set_zones(tx, "2025z" if fault == "zones" else "2026a")
        if fault == "due":
            early = at() - timedelta(minutes=6)
            tx.add(DueRow(who="ada", kind="push", on=at().date(), ordinal=0, at=early, rank=0))
        if fault in ("in", "dead"):
            inbox.accept(tx, incoming())
        if fault == "dead":
            inbox.give_up(tx, inbox.heads(tx, 1)[0].row)
        if fault in ("out", "parked"):
            outbox.put(tx, letter())
        if fault == "parked":
            (tried,) = sending.claim(tx, Claim("wire", at(), timedelta(minutes=1), 1, "here"))
            sending.park(tx, tried, "blocked")
    assert wrong(store) == {fault}


def test_no_words_of_a_person_are_told(store: Store) -> None:
    with store.begin() as tx:
        inbox.accept(tx, incoming(text="canary"))
        outbox.put(tx, letter(text="canary", who="canary"))
    assert "canary" not in str(health.look(store, at(), "2026a"))
