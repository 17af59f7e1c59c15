"""What is remembered of people between turns is what stands in the records, whoever writes them."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

import pytest
from sqlalchemy import text

from bot.conversation import changes as c
from bot.conversation.known import Known
from bot.store import outbox, people, seen
from bot.store.changes import keep
from bot.store.unit import Store
from bot.turn.turns import enrol
from planning.terms.choices import Activity
from planning.terms.entry import Entry
from tests.support.letters import at
from tests.support.profiles import MONDAY, a_person

NAMES = ("sam", "bea", "kit")
DONE = Entry(MONDAY, kind=Activity.WALK, minutes=20, planned_on=MONDAY, from_id="u-1")
WALKED = c.AddEntry(DONE)


@pytest.fixture
def three(store: Store) -> Store:
    """Records with three runners, each with a plan."""
    with store.begin() as tx:
        for who in NAMES:
            enrol(tx, c.KeepProfile(replace(a_person(), who=who), since=at()))
    return store


@pytest.fixture
def another(three: Store) -> Iterator[Store]:
    """The same records, opened by another process."""
    opened = Store.open(three.engine.url.render_as_string(hide_password=False))
    yield opened
    opened.close()


def known(store: Store, who: str = "sam", days: int = 0) -> Known:
    with store.begin() as tx:
        return people.find_known(tx, who, at(24 * 60 * days))


def walk(store: Store, who: str = "sam") -> None:
    with store.begin() as tx:
        keep(tx, who, WALKED)


def walk_in_vain(store: Store) -> None:
    with store.begin() as tx:
        keep(tx, "sam", WALKED)
        assert people.find_known(tx, "sam", at()).entries == (DONE,)
        raise ZeroDivisionError


def test_what_was_kept_in_one_turn_is_known_in_the_next(three: Store) -> None:
    assert known(three).entries == ()
    walk(three)
    assert known(three).entries == (DONE,)


def test_what_was_rolled_back_is_not_known(three: Store) -> None:
    known(three)
    with pytest.raises(ZeroDivisionError):
        walk_in_vain(three)
    assert known(three).entries == ()


def test_what_another_process_keeps_is_known_at_once(three: Store, another: Store) -> None:
    assert known(three).entries == known(another).entries == ()
    walk(another)
    assert known(three).entries == (DONE,)
    walk(three, "bea")
    assert known(another, "bea").entries == (DONE,)


def test_what_a_host_changes_by_hand_is_known_at_once(three: Store, another: Store) -> None:
    known(three)
    with another.begin() as tx:
        tx.execute(text("DELETE FROM session"))
    assert known(three).sessions == ()


def test_another_day_shows_other_sessions_and_entries(three: Store) -> None:
    walk(three)
    first, later = known(three).sessions, known(three, days=7 * 15).sessions
    assert first[0].on == MONDAY
    assert all(each.on - MONDAY >= timedelta(weeks=6) for each in later)
    assert known(three, days=7 * 15).entries == ()
    assert known(three).entries == (DONE,)


def test_sessions_are_known_from_nine_weeks_back_to_three_weeks_ahead(three: Store) -> None:
    days = [(each.on - MONDAY).days - 70 for each in known(three, days=70).sessions]
    assert days == sorted(days)
    assert (-64 < days[0] <= -56, 14 < days[-1] <= 21) == (True, True)


def test_many_are_looked_up_at_once_as_each_would_be_alone(three: Store, another: Store) -> None:
    walk(three, "bea")
    with three.begin() as tx:
        people.look_ahead(tx, [*NAMES, "nobody"], at())
        together = [people.find_known(tx, who, at()) for who in (*NAMES, "nobody")]
    assert together == [known(another, who) for who in (*NAMES, "nobody")]


def test_somebody_who_left_and_came_back_is_a_stranger(three: Store) -> None:
    walk(three)
    with three.begin() as tx:
        outbox.set_address(tx, "sam", "wire", "chat", at())
    assert known(three).entries
    with three.begin() as tx:
        keep(tx, "sam", c.Erase())
    assert known(three) == Known("sam")
    with three.begin() as tx:
        enrol(tx, c.KeepProfile(replace(a_person(), who="sam"), since=at()))
        assert outbox.address_of(tx, "sam", "terminal") == ("terminal", "sam")
    assert known(three).entries == ()


def test_what_is_remembered_has_an_end(three: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(seen, "MOST", 2)
    for who in NAMES:
        known(three, who)
    if three.memory is not None:
        assert list(three.memory.people) == ["bea", "kit"]
    assert known(three, "sam").sessions


def test_on_a_file_somebody_is_looked_up_once(three: Store) -> None:
    assert (known(three).sessions is known(three).sessions) == (three.memory is not None)
