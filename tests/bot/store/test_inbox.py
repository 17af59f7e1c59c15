"""Messages in: once for each id of a door."""

from concurrent.futures import ThreadPoolExecutor, wait
from dataclasses import replace

from bot.conversation.known import Marks
from bot.messages import Attachment
from bot.store import inbox, outbox
from bot.store.tables import PersonRow
from bot.store.unit import Store
from tests.support.letters import at, incoming


def test_the_same_id_twice_is_kept_once(store: Store) -> None:
    with store.begin() as tx:
        assert [inbox.accept(tx, incoming("u-1", text)) for text in ("done", "done", "other words")] == [
            True,
            False,
            False,
        ]
    with store.begin() as tx:
        assert not inbox.accept(tx, incoming("u-1"))
        assert len(inbox.waiting(tx)) == 1


def test_each_door_has_ids_of_its_own(store: Store) -> None:
    with store.begin() as tx:
        assert inbox.accept(tx, incoming("1", door="wire"))
        assert inbox.is_new(tx, "terminal", "1")
        assert inbox.accept(tx, incoming("1", door="terminal"))


def test_messages_wait_in_the_order_in_which_they_came(store: Store) -> None:
    with store.begin() as tx:
        for name in ("b", "a", "c"):
            inbox.accept(tx, incoming(name))
        taken = [inbox.take(tx, row) for row in inbox.waiting(tx)]
    assert [each.id for each in taken if each] == ["b", "a", "c"]


def test_a_message_comes_back_as_it_was_given(store: Store) -> None:
    said = replace(incoming(text="n’est-ce pas 👍\n\u200b"), file=Attachment("x.gpx", "text/xml", b"\x00\xff"))
    with store.begin() as tx:
        inbox.accept(tx, said)
    with store.begin() as tx:
        assert inbox.take(tx, inbox.waiting(tx)[0]) == said


def test_a_message_is_taken_once(store: Store) -> None:
    with store.begin() as tx:
        inbox.accept(tx, incoming())
        row = inbox.waiting(tx)[0]
        assert inbox.take(tx, row) is not None
    with store.begin() as tx:
        assert inbox.take(tx, row) is None
        assert inbox.waiting(tx) == ()


def test_a_row_that_is_not_there_is_nothing_to_take(store: Store) -> None:
    with store.begin() as tx:
        assert inbox.take(tx, 4711) is None
        assert inbox.give_up(tx, 4711) is None


def test_what_was_given_up_waits_no_longer(store: Store) -> None:
    with store.begin() as tx:
        inbox.accept(tx, incoming())
        given_up = inbox.give_up(tx, inbox.waiting(tx)[0])
    with store.begin() as tx:
        assert given_up is not None
        assert inbox.waiting(tx) == ()
        assert not inbox.is_new(tx, "wire", "u-1")


def test_what_was_forgotten_still_has_no_second_effect(store: Store) -> None:
    with store.begin() as tx:
        inbox.accept(tx, incoming())
        inbox.forget(tx, incoming())
    with store.begin() as tx:
        left = inbox.take(tx, inbox.waiting(tx)[0])
        assert left is not None
        assert (left.chat, left.sender, left.text) == ("", "", None)
        assert not inbox.accept(tx, incoming())


def test_the_clock_never_goes_back(store: Store) -> None:
    with store.begin() as tx:
        assert inbox.clock(tx) is None
        for minutes in (0, 5, 3):
            inbox.set_clock(tx, at(minutes))
    with store.begin() as tx:
        assert inbox.clock(tx) == at(5)


def test_of_two_processes_that_start_the_clock_neither_fails(store: Store) -> None:
    def start() -> None:
        with store.begin() as tx:
            inbox.set_clock(tx, at(5))

    with ThreadPoolExecutor(1) as other:
        with store.begin() as tx:
            inbox.set_clock(tx, at())
            tx.flush()
            second = other.submit(start)
            wait([second], timeout=0.5)
        second.result()
    with store.begin() as tx:
        assert inbox.clock(tx) == at(5)


def test_several_processes_keep_the_order_of_each_sender(store: Store) -> None:
    with store.begin() as tx:
        for name, who in (("a1", "ada"), ("a2", "ada"), ("b1", "bea")):
            inbox.accept(tx, incoming(name, who=who))
    with store.begin() as first:
        (oldest,) = inbox.heads(first, 1)
        assert oldest.message.id == "a1"
        assert inbox.take(first, oldest.row) == oldest.message
        if store.engine.dialect.name == "postgresql":
            with store.begin() as second:
                (other,) = inbox.heads(second, 9)
                assert other.message.id == "b1"
                inbox.done(second, [other.row])
    with store.begin() as tx:
        assert inbox.heads(tx, 9)[0].message.id == "a2"


def test_a_thousand_messages_of_one_keep_nobody_else_waiting(store: Store) -> None:
    with store.begin() as tx:
        for number in range(1000):
            inbox.accept(tx, incoming(f"a{number}", who="ada"))
        for who in ("bea", "cem"):
            inbox.accept(tx, incoming(who, who=who))
        inbox.accept(tx, incoming("again", who="bea"))
    with store.begin() as tx:
        assert [each.message.id for each in inbox.heads(tx, 8)] == ["a0", "bea", "cem"]


def test_a_message_is_whose_the_private_chat_is(store: Store) -> None:
    with store.begin() as tx:
        tx.add(PersonRow(who="ada", marks=Marks(), why=()))
        tx.flush()
        outbox.set_address(tx, "ada", "wire", "chat-7", at())
        for name, chat in (("a1", "chat-7"), ("b1", "stranger")):
            inbox.accept(tx, incoming(name, who=chat))
    with store.begin() as tx:
        assert [each.who for each in inbox.heads(tx, 8)] == ["ada", "stranger"]
