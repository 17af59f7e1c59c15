"""`serve` as real processes: killed, stopped, doubled, cut off from the records. Nothing is lost, nothing twice."""

import json
import resource
import signal
import sqlite3
from pathlib import Path
from random import Random
from threading import Timer

import pytest

from bot.store.engine import open_engine
from tests.support.cluster import Cluster
from tests.support.served import PATIENCE, Client, Crowd, answers, enrolled
from tests.support.shell import bot

pytestmark = pytest.mark.servers

PEOPLE = [f"p-{place}" for place in range(5)]


def test_a_reply_is_answered_and_a_stop_is_clean(url: str, crowd: Crowd) -> None:
    served = crowd.serve(url)
    client = Client(served.listens()).dial()
    client.say("u-1", "week")
    client.hear_out("u-1")
    assert [each["about"]["kind"] for each in client.to("ada")][-1:] == ["week"]  # type: ignore[index]
    assert served.kill(signal.SIGTERM) == 0
    assert [line for line in served.all_said if "ERROR" in line or "week" in line] == []


def test_a_stop_before_the_words_are_loaded_answers_what_was_heard(url: str, crowd: Crowd) -> None:
    served = crowd.serve(url)
    client = Client(served.listens()).dial()
    client.say("u-1", "week")
    assert client.socket
    client.socket.ping().wait()
    served.process.send_signal(signal.SIGTERM)
    client.hear_all()
    assert client.done == ["u-1"]
    assert served.process.wait(PATIENCE) == 0


def survives(url: str, crowd: Crowd, kills: int, seed: int, how: signal.Signals = signal.SIGKILL) -> set[int]:
    """The process is killed again and again and comes back; the program sends again what was not done. How it ended."""
    random, client, asked = Random(seed), Client(0), list[str]()
    for death in range(kills):
        served = crowd.serve(url)
        client.dial(served.listens())
        for name in [each for each in asked if each not in client.done]:
            client.say(name, "hello", name.partition(":")[0])
        timer = Timer(random.uniform(0.0, 0.4), served.kill, [how])
        timer.start()
        for place in range(12):
            name = f"{PEOPLE[place % 5]}:{death}:{place}".replace(":", "_")
            asked.append(name)
            try_to_say(client, name)
        client.hear_all()
        timer.join()
    served = crowd.serve(url)
    client.dial(served.listens())
    for name in [each for each in asked if each not in client.done]:
        client.say(name, "hello", name.partition("_")[0])
        client.hear_out(name)
    assert served.kill(signal.SIGTERM) == 0
    led_to = answers(url)
    assert [name for name in asked if led_to[name] != 1] == []
    assert client.errors == []
    return {each.process.returncode for each in crowd.all[:-1]}


def said(crowd: Crowd) -> str:
    """What the processes that ended badly had to say."""
    return "".join(line for each in crowd.all if each.process.returncode for line in each.all_said)


def try_to_say(client: Client, name: str) -> None:
    from websockets.exceptions import ConnectionClosed

    try:
        client.say(name, "hello", name.partition("_")[0])
    except ConnectionClosed:
        return


@pytest.mark.parametrize("seed", [1])
def test_a_killed_process_loses_nothing_and_does_nothing_twice(url: str, crowd: Crowd, seed: int) -> None:
    survives(url, crowd, kills=4, seed=seed)


def test_a_stop_under_load_is_clean(url: str, crowd: Crowd) -> None:
    assert survives(url, crowd, kills=3, seed=2, how=signal.SIGTERM) == {0}, said(crowd)


@pytest.mark.nightly
def test_two_hundred_stops_under_load_are_clean(url: str, crowd: Crowd) -> None:
    assert survives(url, crowd, kills=200, seed=3, how=signal.SIGTERM) == {0}, said(crowd)


@pytest.mark.nightly
@pytest.mark.parametrize("seed", range(10))
def test_fifty_deaths_lose_nothing(url: str, crowd: Crowd, seed: int) -> None:
    survives(url, crowd, kills=50, seed=seed)


def test_a_second_process_on_one_file_says_why_it_will_not(blank_url: str, crowd: Crowd) -> None:
    crowd.serve(enrolled(blank_url)).listens()
    second = crowd.serve(blank_url)
    assert second.ends() == 2
    (line,) = second.all_said
    assert line.startswith("--db: another process serves")


def test_the_file_is_free_when_its_process_was_killed(blank_url: str, crowd: Crowd) -> None:
    first = crowd.serve(enrolled(blank_url))
    first.listens()
    first.kill()
    assert crowd.serve(blank_url).listens()


@pytest.mark.postgres
def test_two_processes_share_the_work(shared_url: str, crowd: Crowd) -> None:
    clients = [Client(crowd.serve(shared_url).listens()).dial() for _ in range(2)]
    for place in range(20):
        clients[place % 2].say(f"u-{place}", "hello", f"c-{place % 4}")
    for place in range(20):
        clients[place % 2].hear_out(f"u-{place}")
    assert set(answers(shared_url).values()) == {1}
    assert [len(each.to(f"c-{number}")) for number, each in enumerate(clients)] == [5, 5]
    assert [each.doubled for each in clients] == [[], []]


@pytest.mark.postgres
def test_a_door_that_allows_only_one_is_taken_over(shared_url: str, crowd: Crowd) -> None:
    first = crowd.serve(shared_url, wire_alone=True)
    port = first.listens()
    second = crowd.serve(shared_url, port=port, wire_alone=True)
    Client(port).dial().say("u-1", "hello")
    assert second.said.empty()
    first.kill()
    assert second.listens() == port
    client = Client(port).dial()
    client.say("u-1", "hello")
    client.hear_out("u-1")
    assert answers(shared_url)["u-1"] == 1


@pytest.mark.postgres
def test_work_of_a_paused_process_is_done_by_the_other_one_and_once(shared_url: str, crowd: Crowd) -> None:
    first, second = crowd.serve(shared_url), crowd.serve(shared_url)
    paused, client = Client(first.listens()).dial(), Client(second.listens()).dial()
    for place in range(10):
        paused.say(f"a-{place}", "hello", f"c-{place}")
    paused.hear_out("a-0")
    first.process.send_signal(signal.SIGSTOP)
    for place in range(10):
        client.say(f"a-{place}", "hello", f"c-{place}")
        client.hear_out(f"a-{place}")
    first.process.send_signal(signal.SIGCONT)
    for place in range(10):
        paused.hear_out(f"a-{place}")
    assert set(answers(shared_url).values()) == {1}


@pytest.mark.postgres
def test_a_database_that_restarts_delays_and_loses_nothing(shared_url: str, cluster: Cluster, crowd: Crowd) -> None:
    client = Client(crowd.serve(shared_url).listens()).dial()
    client.say("u-1", "hello")
    client.hear_out("u-1")
    cluster.stop("immediate")
    client.say("u-2", "tight chest and dizzy", "ada")
    client.hear_out("u-2")
    assert [each["about"]["kind"] for each in client.to("ada")][-1] == "urgent"  # type: ignore[index]
    cluster.start()
    client.say("u-3", "hello")
    client.hear_out("u-3")
    client.say("u-2", "tight chest and dizzy", "ada")
    client.done.remove("u-2")
    client.hear_out("u-2")
    assert min(answers(shared_url)[name] for name in ("u-1", "u-2", "u-3")) >= 1


def test_a_file_that_is_locked_delays_and_loses_nothing(blank_url: str, crowd: Crowd) -> None:
    client = Client(crowd.serve(enrolled(blank_url)).listens()).dial()
    other = sqlite3.connect(blank_url.removeprefix("sqlite:///"), isolation_level=None, check_same_thread=False)
    other.execute("BEGIN IMMEDIATE")
    Timer(7.0, lambda: other.execute("ROLLBACK")).start()
    client.say("u-1", "hello", "bea")
    client.hear_out("u-1")
    assert client.to("bea")
    client.say("u-2", "hello", "bea")
    client.hear_out("u-2")
    assert answers(blank_url)["u-2"] == 1


def test_a_full_disk_is_said_and_all_goes_on_when_there_is_room(blank_url: str, crowd: Crowd) -> None:
    full = Path(enrolled(blank_url).removeprefix("sqlite:///")).stat().st_size + 150_000

    def limit() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (full, resource.RLIM_INFINITY))

    served = crowd.serve(blank_url, limit=limit)
    client = Client(served.listens()).dial()
    asked = [f"u-{place}" for place in range(150)]
    for name in asked:
        client.say(name, "hello", name)
    client.say("u-help", "tight chest and dizzy", "ada")
    while not client.to("ada"):
        client.hear()
    assert client.to("ada")[-1]["about"]["kind"] == "urgent"  # type: ignore[index]
    refused = [name for name in asked if any(each["about"]["kind"] == "error" for each in client.to(name))]  # type: ignore[index]
    assert refused or len(client.done) < len(asked), "the disk was never full"
    resource.prlimit(served.process.pid, resource.RLIMIT_FSIZE, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
    client.hear_out("u-help")
    for name in asked:
        client.hear_out(name)
        assert client.to(name), "answered, or told that it was not kept"
    assert json.loads(bot("data", "--db", blank_url, "ada").stdout)["who"] == "ada"


@pytest.mark.postgres
def test_a_port_that_is_taken_is_told_in_one_line(shared_url: str, crowd: Crowd) -> None:
    second = crowd.serve(shared_url, port=crowd.serve(shared_url).listens())
    assert second.ends() == 2
    assert second.all_said[-1].startswith("LAMPPOST_WIRE: can't listen there")


def test_nothing_is_open_without_a_door(blank_url: str, crowd: Crowd) -> None:
    served = crowd.serve(blank_url, wire="", wire_token="")
    assert served.ends() == 2
    assert open_engine(blank_url).dialect.name == "sqlite"
    assert "no door is set up" in served.all_said[0]
