"""Several processes are as good as one: killed, paused, cut off. Nothing is lost, nothing twice."""

import signal
from collections.abc import Callable, Iterator
from time import monotonic

import pytest
from sqlalchemy import func, select

from bot.store.engine import open_engine
from bot.store.tables import OutboxRow
from bot.store.unit import Store
from tests.support.served import Client, Crowd, answers, enrolled
from tests.support.several import TAKEN_OVER_WITHIN, Company, Fault

pytestmark = pytest.mark.servers

RUNS = 25
"""In one test; a process lives over many of them."""


@pytest.fixture
def company(shared_url: str, crowd: Crowd) -> Iterator[Callable[[int], Company]]:
    """So many processes on one database."""
    found: list[Company] = []

    def of(size: int) -> Company:
        found.append(Company(shared_url, crowd, size))
        return found[-1]

    yield of
    for each in found:
        each.end()


def survive(company: Company, seeds: range) -> None:
    """Each seed is one run with one fault; the one that fails is named."""
    for seed in seeds:
        try:
            company.run(seed)
        except Exception as fault:
            fault.add_note(f"seed {seed} of {seeds}, {len(company.members)} processes")
            raise


@pytest.mark.postgres
def test_two_processes_survive_each_fault(company: Callable[[int], Company]) -> None:
    pair = company(2)
    survive(pair, range(6))
    assert pair.happened == {Fault.KILLED: 2, Fault.PAUSED: 2, Fault.CUT_OFF: 1, Fault.UNHEARD: 1}


@pytest.mark.postgres
def test_danger_gets_help_while_the_database_does_not_answer(company: Callable[[int], Company]) -> None:
    (alone,) = company(1).members
    alone.network.silence()
    alone.client.say("u-1", "tight chest and dizzy", "ada")
    line = alone.client.hear()
    alone.network.mend()
    assert line["about"]["kind"] == "urgent"  # type: ignore[index]


@pytest.mark.nightly
@pytest.mark.postgres
@pytest.mark.parametrize("begin", range(0, 150, RUNS))
@pytest.mark.parametrize("size", [2, 4])
def test_a_hundred_and_fifty_faults_lose_nothing(company: Callable[[int], Company], size: int, begin: int) -> None:
    several = company(size)
    survive(several, range(begin, begin + RUNS))
    assert several.happened.total() == RUNS


@pytest.mark.nightly
@pytest.mark.postgres
@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGSTOP])
def test_with_the_usual_leases_another_process_takes_over_in_time(
    shared_url: str, crowd: Crowd, how: signal.Signals
) -> None:
    first, second = (crowd.serve(shared_url, lease_seconds=60, takeover_seconds=5) for _ in range(2))
    deaf, other = Client(first.listens()).dial(deaf=True), Client(second.listens()).dial()
    names = [f"p-{place}" for place in range(8)]
    for name in names:
        deaf.say(name, "hello", name)
    while on_the_way(shared_url) < 4:
        pass
    first.process.send_signal(how)
    began = monotonic()
    for name in names:
        other.say(name, "hello", name)
    for name in names:
        other.hear_out(name)
    assert monotonic() - began < TAKEN_OVER_WITHIN
    assert set(answers(shared_url).values()) == {1}


def on_the_way(url: str) -> int:
    """How many messages a sender has taken and not yet delivered."""
    store = Store(open_engine(url))
    with store.begin() as tx:
        taken = (OutboxRow.held_until.is_not(None), OutboxRow.sent.is_(False))
        count = tx.scalar(select(func.count()).where(*taken).select_from(OutboxRow))
    store.close()
    return count or 0


@pytest.mark.nightly
def test_a_hundred_second_processes_on_one_file_are_refused(blank_url: str, crowd: Crowd) -> None:
    client = Client(crowd.serve(enrolled(blank_url)).listens()).dial()
    refused = []
    for place in range(100):
        second = crowd.serve(blank_url)
        client.say(f"u-{place}", "hello", f"p-{place % 5}")
        refused.append((second.ends(), len(second.all_said), second.all_said[0].partition(" ")[0]))
        client.hear_out(f"u-{place}")
    assert set(refused) == {(2, 1, "--db:")}
