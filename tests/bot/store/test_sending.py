"""Several senders share what waits: each message is given to one of them, in order within a chat."""

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import timedelta

import pytest

from bot.store import inbox, outbox, routes, sending
from bot.store.changes import person_row
from bot.store.sending import Claim, Try
from bot.store.tables import OutboxRow
from bot.store.unit import Store
from tests.support.letters import at, incoming, letter

LEASE = timedelta(seconds=60)


def wish(minutes: float = 0, most: int = 10) -> Claim:
    return Claim("wire", at(minutes), LEASE, most, "here")


def claimed(store: Store, minutes: float = 0, most: int = 10) -> tuple[Try, ...]:
    with store.begin() as tx:
        return sending.claim(tx, wish(minutes, most))


def texts(tries: tuple[Try, ...]) -> list[str]:
    return [each.message.text for each in tries]


@pytest.fixture
def filled(store: Store) -> Iterator[Store]:
    """Two messages to Ada and one to Bea wait."""
    with store.begin() as tx:
        for who in ("ada", "bea"):
            person_row(tx, who)
        for name, who in (("a1", "ada"), ("a2", "ada"), ("b1", "bea")):
            outbox.put(tx, letter(name, name, who=who))
    return store


def test_one_message_of_each_chat_is_on_its_way(filled: Store) -> None:
    assert texts(claimed(filled)) == ["a1", "b1"]
    assert claimed(filled) == ()


def test_the_next_one_follows_when_the_first_is_sent(filled: Store) -> None:
    first = claimed(filled)[0]
    with filled.begin() as tx:
        outbox.mark_sent(tx, [first.message.id])
    assert texts(claimed(filled)) == ["a2"]


def test_what_a_dead_sender_held_is_given_again_under_the_same_id(filled: Store) -> None:
    before, after = claimed(filled), claimed(filled, minutes=1)
    assert [each.message for each in after] == [each.message for each in before]
    assert [each.number for each in after] == [2, 2]


def test_help_overtakes_and_does_not_wait_for_what_hangs(filled: Store) -> None:
    claimed(filled)
    with filled.begin() as tx:
        outbox.put(tx, replace(letter("u", "help", who="ada"), about='{"kind": "urgent"}'))
    assert texts(claimed(filled)) == ["help"]


def test_what_is_refused_for_now_waits_longer_each_time_and_keeps_the_order(filled: Store) -> None:
    now, waits = at(), []
    for _ in range(12):
        with filled.begin() as tx:
            (tried, *_rest) = sending.claim(tx, replace(wish(), now=now, most=1))
            assert tried.key == "a1"
            sending.later(tx, tried, now)
            tx.expire_all()
            free_at = tx.get_one(OutboxRow, tried.row).held_until
        assert free_at is not None
        waits.append((free_at - now).total_seconds())
        now = free_at
    assert waits == [2, 4, 8, 16, 32, 64, 128, 256, 512, 600, 600, 600]


def test_a_door_may_say_how_long_to_wait(filled: Store) -> None:
    (first, _) = claimed(filled)
    with filled.begin() as tx:
        sending.later(tx, first, at(), timedelta(minutes=3))
    assert "a1" not in texts(claimed(filled, 2.9))
    assert "a1" in texts(claimed(filled, 3))


@pytest.mark.parametrize("hours", [1, 1.5, 30])
def test_a_door_that_wants_to_be_left_in_peace_for_long_is_asked_once_an_hour(filled: Store, hours: float) -> None:
    (first, _) = claimed(filled)
    with filled.begin() as tx:
        sending.later(tx, first, at(), timedelta(hours=hours))
    assert "a1" not in texts(claimed(filled))
    assert "a1" not in texts(claimed(filled, 59.9))
    assert "a1" in texts(claimed(filled, 60))


def test_what_is_refused_for_good_is_shown_and_holds_nobody_up(filled: Store) -> None:
    (first, _) = claimed(filled)
    with filled.begin() as tx:
        sending.park(tx, first, "blocked")
    assert texts(claimed(filled, 5))[0] == "a2"
    with filled.begin() as tx:
        assert sending.parked(tx) == (sending.Parked("wire", "blocked", 1, at()),)
        assert "a1" not in [each.text for each in outbox.unsent(tx, "wire")]


@pytest.mark.parametrize("what", ["later", "park"])
def test_a_sender_whose_lease_was_taken_over_changes_nothing(filled: Store, what: str) -> None:
    old, new = claimed(filled)[0], claimed(filled, minutes=2)[0]
    with filled.begin() as tx:
        if what == "park":
            sending.park(tx, old, "blocked")
        else:
            sending.later(tx, old, at(2), timedelta(minutes=30))
        assert sending.parked(tx) == ()
    assert claimed(filled, minutes=4)[0].row == new.row


def test_a_clock_that_stood_wrong_holds_nothing_up(filled: Store) -> None:
    claimed(filled, minutes=60 * 24 * 30)
    assert texts(claimed(filled)) == ["a1", "b1"]


def test_what_was_taken_but_not_tried_is_free_at_once(filled: Store) -> None:
    with filled.begin() as tx:
        sending.let_go(tx, sending.claim(tx, wish()))
    assert texts(claimed(filled)) == ["a1", "b1"]


def test_chats_that_speak_elsewhere_are_left_to_that_process_while_it_lives(filled: Store) -> None:
    with filled.begin() as tx:
        routes.speaks_through(tx, "wire", "ada", "there", at(1))
        routes.speaks_through(tx, "wire", "bea", "here", at(1))
    shared = filled.engine.dialect.name == "postgresql"
    assert _here(filled, 0) == (["b1"] if shared else ["a1", "b1"]), "a file has one process"
    with filled.begin() as tx:
        routes.renew(tx, "there", at(3))
    assert _here(filled, 2) == (["b1"] if shared else ["a1", "b1"])
    with filled.begin() as tx:
        routes.end(tx, "wire", ["ada"], "there")
    assert _here(filled, 2) == ["a1", "b1"]


def _here(store: Store, minutes: float) -> list[str]:
    with store.begin() as tx:
        found = texts(sending.claim(tx, wish(minutes)))
        tx.rollback()
    return found


def test_a_message_is_over_when_it_is_answered_and_all_of_it_is_sent(filled: Store) -> None:
    def over() -> bool:
        with filled.begin() as tx:
            return sending.over(tx, "wire", {"u-1": "cem", "u-2": "cem"}) == {"u-1"}

    with filled.begin() as tx:
        inbox.accept(tx, incoming("u-1", who="cem"))
    assert not over()
    with filled.begin() as tx:
        inbox.take(tx, inbox.heads(tx, 1)[0].row)
        outbox.put(tx, letter("wire:u-1:0", "notice", who="kim"))
    assert not over()
    with filled.begin() as tx:
        outbox.mark_sent(tx, [each.id for each in outbox.unsent(tx, "wire")])
    assert over()


def test_many_senders_give_each_message_out_once(store: Store) -> None:
    with store.begin() as tx:
        for place in range(60):
            outbox.put(tx, letter(f"k-{place}", str(place), who=f"p-{place % 40}"))

    def work(_sender: int) -> list[str]:
        done: list[str] = []
        while tries := claimed(store, most=3):
            done += texts(tries)
            with store.begin() as tx:
                outbox.mark_sent(tx, [each.message.id for each in tries])
        return done

    with ThreadPoolExecutor(4) as senders:
        sent = [text for texts in senders.map(work, range(4)) for text in texts]
    assert sorted(sent, key=int) == [str(place) for place in range(60)]
