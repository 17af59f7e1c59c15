"""What falls due: in order, once, found by an index."""

from collections.abc import Iterator
from datetime import date, timedelta

import pytest
from sqlalchemy import text

from bot.conversation.agenda import Appointment
from bot.conversation.changes import KeepProfile
from bot.conversation.events import Due, DueKind
from bot.store.changes import keep, person_row
from bot.store.due import claim_some, next_claim, set_agenda, take, unstarted
from bot.store.unit import Store
from tests.support.letters import at
from tests.support.profiles import a_person

DAY = date(2026, 3, 2)


def due(kind: DueKind, minutes: float = 0, ordinal: int = 0) -> Appointment:
    return Appointment(at(minutes), Due(kind, DAY, ordinal))


@pytest.fixture
def known(store: Store) -> Store:
    """Records in which Ada, Bea and Cem are somebody."""
    with store.begin() as tx:
        for who in ("cem", "ada", "bea"):
            person_row(tx, who)
    return store


def claims(store: Store, until: float) -> Iterator[tuple[str, str]]:
    while True:
        with store.begin() as tx:
            claim = next_claim(tx, at(until))
        if claim is None:
            return
        yield claim.who, claim.due.kind.value


def test_the_earliest_goes_first_and_nothing_goes_early(known: Store) -> None:
    with known.begin() as tx:
        set_agenda(tx, "ada", [due(DueKind.PUSH, 10), due(DueKind.NUDGE, 30)])
        set_agenda(tx, "bea", [due(DueKind.PUSH, 5)])
    assert list(claims(known, 9.99)) == [("bea", "push")]
    assert list(claims(known, 29.99)) == [("ada", "push")]
    assert list(claims(known, 30)) == [("ada", "nudge")]


def test_at_one_instant_kinds_go_in_their_order_and_then_by_name(known: Store) -> None:
    for who in ("cem", "ada"):
        with known.begin() as tx:
            set_agenda(tx, who, [due(kind) for kind in reversed(DueKind)])
    expected = [(who, kind.value) for kind in DueKind for who in ("ada", "cem")]
    assert list(claims(known, 0)) == expected


def test_a_new_agenda_takes_the_place_of_the_old_one(known: Store) -> None:
    with known.begin() as tx:
        set_agenda(tx, "ada", [due(DueKind.PUSH), due(DueKind.CLOSE)])
        set_agenda(tx, "bea", [due(DueKind.PUSH)])
        set_agenda(tx, "ada", [due(DueKind.NUDGE)])
    assert list(claims(known, 0)) == [("bea", "push"), ("ada", "nudge")]


def test_a_claim_that_is_rolled_back_is_still_due(known: Store) -> None:
    with known.begin() as tx:
        set_agenda(tx, "ada", [due(DueKind.PUSH, ordinal=2)])

    def claim_and_fail() -> None:
        with known.begin() as tx:
            next_claim(tx, at())
            raise RuntimeError

    with pytest.raises(RuntimeError):
        claim_and_fail()
    with known.begin() as tx:
        claim = next_claim(tx, at())
    assert claim is not None
    assert (claim.due, claim.at) == (Due(DueKind.PUSH, DAY, 2, at()), at())


def test_the_sweep_is_found_by_an_index(known: Store) -> None:
    wanted = "SELECT * FROM due WHERE at <= '2026' ORDER BY at, rank, who LIMIT 1"
    on_server = known.engine.dialect.name == "postgresql"
    with known.begin() as tx:
        if on_server:
            tx.execute(text("SET LOCAL enable_seqscan = off"))
        explain = "EXPLAIN" if on_server else "EXPLAIN QUERY PLAN"
        steps = " ".join(str(row) for row in tx.execute(text(f"{explain} {wanted}")))
    assert "ix_due_at" in steps
    assert "TEMP B-TREE" not in steps
    assert "Sort" not in steps


def test_those_whose_clock_has_not_started_are_found(known: Store) -> None:
    with known.begin() as tx:
        keep(tx, "zoe", KeepProfile(a_person(who="zoe")))
        keep(tx, "amy", KeepProfile(a_person(who="amy")))
        keep(tx, "ned", KeepProfile(a_person(who="ned"), since=at()))
        assert unstarted(tx) == ("amy", "zoe")


LEASE = timedelta(minutes=1)


def shared(store: Store, minutes: float = 0, most: int = 10) -> list[str]:
    with store.begin() as tx:
        return [who for _, who in claim_some(tx, at(minutes), LEASE, most)]


def test_what_one_process_is_at_no_other_one_gets(known: Store) -> None:
    with known.begin() as tx:
        for place, who in enumerate(("cem", "bea", "ada")):
            set_agenda(tx, who, [due(DueKind.PUSH, place)])
    assert [shared(known, 5, most=2), shared(known, 5, most=2), shared(known, 5)] == [["cem", "bea"], ["ada"], []]
    assert shared(known, 6) == ["cem", "bea", "ada"], "the processes that were at it died"


def test_a_row_is_taken_once_and_only_while_it_is_due(known: Store) -> None:
    with known.begin() as tx:
        set_agenda(tx, "ada", [due(DueKind.PUSH, 1)])
    with known.begin() as tx:
        ((row, who),) = claim_some(tx, at(1), LEASE, 1)
        assert take(tx, row, who, at(0)) is None, "it was put off"
        assert take(tx, row, who, at(1)) is not None
        assert take(tx, row, who, at(1)) is None


def test_the_same_agenda_again_leaves_a_claim_as_it_is(known: Store) -> None:
    for agenda, free in (([due(DueKind.PUSH)], []), ([due(DueKind.PUSH, ordinal=1)], ["ada"])):
        with known.begin() as tx:
            set_agenda(tx, "ada", [due(DueKind.PUSH)])
        shared(known)
        with known.begin() as tx:
            set_agenda(tx, "ada", agenda)
        assert shared(known) == free


def test_what_is_due_already_stays_when_the_rest_is_computed_anew(known: Store) -> None:
    with known.begin() as tx:
        set_agenda(tx, "ada", [due(DueKind.PUSH, 1), due(DueKind.NUDGE, 9), due(DueKind.CLOSE, 20)])
        set_agenda(tx, "ada", [due(DueKind.PUSH, 30), due(DueKind.NUDGE, 8)], kept_until=at(5))
    assert list(claims(known, 60)) == [("ada", "push"), ("ada", "nudge")]
