"""Messages out: kept with their cause, in order, once for each key, marked when the door has them."""

from dataclasses import replace

import pytest
from sqlalchemy import select

from bot.messages import Attachment
from bot.store import outbox
from bot.store.changes import person_row
from bot.store.tables import OutboxRow
from bot.store.unit import Store
from tests.support.letters import at, letter


@pytest.fixture
def known(store: Store) -> Store:
    """Records in which Ada is somebody."""
    with store.begin() as tx:
        person_row(tx, "ada")
    return store


def test_the_same_key_twice_is_one_message(known: Store) -> None:
    for text in ("first", "second"):
        with known.begin() as tx:
            outbox.put(tx, letter("push:ada:2026-03-02:0", text))
    with known.begin() as tx:
        assert [each.text for each in outbox.unsent(tx, "wire")] == ["first"]


def test_a_key_stays_taken_after_sending(known: Store) -> None:
    with known.begin() as tx:
        outbox.put(tx, letter("k"))
        outbox.mark_sent(tx, [each.id for each in outbox.unsent(tx, "wire")])
        outbox.put(tx, letter("k"))
    with known.begin() as tx:
        assert outbox.unsent(tx, "wire") == ()


def test_messages_wait_in_order_for_their_own_door(known: Store) -> None:
    with known.begin() as tx:
        for key in ("b", "a", "c"):
            outbox.put(tx, letter(key, key))
        outbox.put(tx, replace(letter("d", "d"), door="terminal"))
    with known.begin() as tx:
        assert [each.text for each in outbox.unsent(tx, "wire")] == ["b", "a", "c"]
        assert [each.text for each in outbox.unsent(tx, "terminal")] == ["d"]


def test_only_what_was_marked_is_sent(known: Store) -> None:
    with known.begin() as tx:
        for key in ("a", "b", "c"):
            outbox.put(tx, letter(key, key))
        outbox.mark_sent(tx, [outbox.unsent(tx, "wire")[1].id])
    with known.begin() as tx:
        assert [each.text for each in outbox.unsent(tx, "wire")] == ["a", "c"]


def test_a_message_comes_back_as_it_was_given(known: Store) -> None:
    files = (Attachment("log.json", "application/json", b"\x00{}"),)
    with known.begin() as tx:
        outbox.put(tx, replace(letter(text="Züge 👟\nzwei", buttons=2), files=files))
    with known.begin() as tx:
        (found,) = outbox.unsent(tx, "wire")
    assert (found.text, found.at, found.files) == ("Züge 👟\nzwei", at(), files)
    assert [each.label for each in found.buttons] == ["Label 0", "Label 1"]


def test_no_two_messages_or_buttons_share_an_id(known: Store) -> None:
    with known.begin() as tx:
        for place in range(3):
            outbox.put(tx, letter(f"k-{place}", buttons=3))
        found = outbox.unsent(tx, "wire")
    assert len({each.id for each in found}) == 3
    assert len({button.id for each in found for button in each.buttons}) == 9


def test_an_id_is_never_given_again(known: Store) -> None:
    with known.begin() as tx:
        outbox.put(tx, letter("a", who="nobody"))
        first = outbox.unsent(tx, "wire")[0].id
        outbox.mark_sent(tx, [first])
        outbox.put(tx, letter("b", who="nobody"))
        assert outbox.unsent(tx, "wire")[0].id != first


def test_nothing_stays_of_what_was_told_to_a_stranger(known: Store) -> None:
    with known.begin() as tx:
        outbox.put(tx, letter("a", who="nobody"))
        outbox.put(tx, letter("b", who="ada"))
        outbox.mark_sent(tx, [each.id for each in outbox.unsent(tx, "wire")])
    with known.begin() as tx:
        assert list(tx.scalars(select(OutboxRow.who))) == ["ada"]


def press(store: Store, button: str, who: str) -> str | None:
    with store.begin() as tx:
        found = outbox.pressed(tx, button, who)
    return None if found is None else found.text


def test_a_button_works_once_for_whom_it_was_shown_to(known: Store) -> None:
    with known.begin() as tx:
        outbox.put(tx, letter(buttons=2))
        first, second = (each.id for each in outbox.unsent(tx, "wire")[0].buttons)
    presses = [(first, "kim"), (first, "ada"), (first, "ada"), (second, "ada"), ("b-0-1", "ada"), ("", "ada")]
    assert [press(known, *each) for each in presses] == [None, "text 0", None, "text 1", None, None]


def test_somebody_is_reached_where_they_last_wrote(known: Store) -> None:
    with known.begin() as tx:
        assert outbox.address_of(tx, "ada", "wire") == ("wire", "ada")
        outbox.set_address(tx, "ada", "wire", "ada", at(0))
        outbox.set_address(tx, "ada", "terminal", "me", at(1))
        assert outbox.address_of(tx, "ada", "wire") == ("terminal", "me")
        outbox.set_address(tx, "ada", "wire", "ada", at(2))
    with known.begin() as tx:
        assert outbox.address_of(tx, "ada", "terminal") == ("wire", "ada")
        assert outbox.who_is(tx, "terminal", "me") == "ada"
        assert outbox.who_is(tx, "terminal", "ada") == "ada"
