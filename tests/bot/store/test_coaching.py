"""Between runners and coaches: each change is kept, and nothing of a coach who left stays with the runners."""

from datetime import date, timedelta

import pytest
from sqlalchemy import select

from bot.conversation.changes import (
    Change,
    Erase,
    KeepProfile,
    MakeCode,
    NoteClearance,
    PassNotices,
    SeeNotices,
    SendNotice,
    SetWaiting,
    TakeBack,
    UseCode,
)
from bot.store import coaching, invites
from bot.store.changes import keep
from bot.store.people import find_known
from bot.store.tables import ClearanceRow, InviteRow
from bot.store.unit import Store
from planning.terms.choices import Role
from planning.terms.person import coach_profile
from tests.support.letters import at
from tests.support.profiles import a_person
from tests.support.wire import dump

SENT = SendNotice("kim", at(), "m-1")


@pytest.fixture
def team(store: Store) -> Store:
    """Ada, coached by Kim; Lee is another coach."""
    with store.begin() as tx:
        for who in ("kim", "lee"):
            keep(tx, who, KeepProfile(coach_profile(who, "Europe/London", who.title())))
        keep(tx, "ada", KeepProfile(a_person(who="ada", coach="kim")))
    return store


def kept(store: Store, *changes: tuple[str, Change]) -> None:
    with store.begin() as tx:
        for who, change in changes:
            keep(tx, who, change)


def unseen(store: Store, who: str) -> list[str]:
    with store.begin() as tx:
        return [each.runner for each in coaching.notices_to(tx, who)]


def test_a_coach_is_known_by_the_runners(team: Store) -> None:
    with team.begin() as tx:
        assert coaching.runners_of(tx, "kim") == ("ada",)
        assert [each.who for each in coaching.peers_of(tx, "kim")] == ["lee"]
        assert coaching.runners_of(tx, "lee") == ()


def test_a_message_leads_to_one_notice(team: Store) -> None:
    kept(team, ("ada", SENT), ("ada", SENT))
    assert unseen(team, "kim") == ["ada"]
    assert unseen(team, "lee") == []


@pytest.mark.parametrize("who", ["kim", "lee"])
def test_whoever_got_it_may_have_seen_it(team: Store, who: str) -> None:
    kept(team, ("ada", SENT), ("kim", PassNotices(("ada",), "lee")))
    assert unseen(team, who) == ["ada"]
    kept(team, (who, SeeNotices(("ada",), at())))
    assert unseen(team, "kim") == unseen(team, "lee") == []


def test_nobody_else_has_seen_it(team: Store) -> None:
    kept(team, ("ada", SENT), ("lee", SeeNotices(("ada",), at())))
    assert unseen(team, "kim") == ["ada"]


def test_somebody_waits_until_the_coach_wrote(team: Store) -> None:
    for since in (at(), None):
        kept(team, ("ada", SetWaiting(since)))
        with team.begin() as tx:
            assert find_known(tx, "ada", at()).waiting_since == since


def test_a_clearance_goes_with_the_message_that_told_it(team: Store) -> None:
    kept(team, ("ada", NoteClearance(date(2026, 3, 2), "her gp", "kim", "m-2")))
    kept(team, ("ada", TakeBack("m-2")))
    with team.begin() as tx:
        assert tx.scalars(select(ClearanceRow)).all() == []


def test_a_code_is_kept_and_used_up(team: Store) -> None:
    kept(team, ("kim", MakeCode("mark", Role.RUNNER, at())))
    with team.begin() as tx:
        assert invites.look_up(tx, "mark", "wire", "zoe", at()) == invites.Invitation("mark", Role.RUNNER, "kim")
    kept(team, ("zoe", UseCode("mark", at())))
    with team.begin() as tx:
        assert invites.look_up(tx, "mark", "wire", "zoe", at()) is None


@pytest.mark.parametrize(("age", "opens"), [(timedelta(days=14, seconds=-1), True), (timedelta(days=14), False)])
def test_a_code_opens_for_two_weeks(team: Store, age: timedelta, *, opens: bool) -> None:
    kept(team, ("kim", MakeCode("mark", Role.RUNNER, at())))
    with team.begin() as tx:
        assert (invites.look_up(tx, "mark", "wire", "zoe", at() + age) is not None) is opens


def test_the_two_weeks_of_an_early_code_begin_with_the_clock(store: Store) -> None:
    with store.begin() as tx:
        invites.make(tx, "mark", None, Role.COACH, None)
        invites.start_clock(tx, at())
        row = tx.get(InviteRow, "mark")
        assert row is not None
        assert row.made_at == at()


def test_nothing_of_a_coach_who_left_stays_with_the_runners(team: Store) -> None:
    told = NoteClearance(date(2026, 3, 2), "her gp", "kim", "m-2")
    kept(team, ("ada", SENT), ("ada", told), ("kim", MakeCode("mark", Role.RUNNER, at())))
    kept(team, ("ada", KeepProfile(a_person(who="ada"))), ("kim", Erase()))
    assert "kim" not in str(dump(team))
