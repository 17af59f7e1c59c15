"""Who may change what at one time, on a server."""

from collections.abc import Iterator

import pytest
from sqlalchemy import select

from bot.conversation.changes import KeepProfile
from bot.store import routes
from bot.store.changes import keep
from bot.store.locks import hold_person, hold_some
from bot.store.tables import RouteRow
from bot.store.unit import Store
from planning.terms.choices import Role
from tests.support.letters import at
from tests.support.profiles import a_person


@pytest.fixture
def teams(server_url: str) -> Iterator[Store]:
    """Kim coaches Ada, Lee coaches Bob."""
    store = Store.open(server_url)
    with store.begin() as tx:
        for who, coach in (("ada", "kim"), ("bob", "lee")):
            keep(tx, who, KeepProfile(a_person(who=who, coach=coach)))
        for who in ("kim", "lee"):
            keep(tx, who, KeepProfile(a_person(who=who, role=Role.COACH)))
    yield store
    store.close()


@pytest.mark.postgres
@pytest.mark.parametrize(("busy", "asked", "free"), [("ada", "kim", "bob"), ("kim", "ada", "lee")])
def test_of_somebody_whose_team_is_busy_nothing_is_held(teams: Store, busy: str, asked: str, free: str) -> None:
    with teams.begin() as one, teams.begin() as two:
        assert hold_some(one, [busy]) == {busy}
        assert hold_some(two, [asked, free]) == {free}
        hold_person(one, asked)  # as a turn does when it tells the coach, or changes a runner's plan


@pytest.mark.postgres
def test_a_process_that_renews_its_chats_waits_for_nobody_who_takes_one(server_url: str) -> None:
    store = Store.open(server_url)
    with store.begin() as tx:
        routes.speaks_through(tx, "wire", "ada", "here", at(1))
        routes.speaks_through(tx, "wire", "bob", "here", at(1))
    with store.begin() as taking:
        routes.speaks_through(taking, "wire", "ada", "there", at(5))
        with store.begin() as tx:
            routes.renew(tx, "here", at(3))
    with store.begin() as tx:
        kept = {row.chat: (row.process, row.until) for row in tx.scalars(select(RouteRow))}
    assert kept == {"ada": ("there", at(5)), "bob": ("here", at(3))}
    store.close()
