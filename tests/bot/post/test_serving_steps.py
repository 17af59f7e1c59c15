"""What `serve` does, step by step: answered once, sent once, late things told as late, whatever the clock does."""

import json
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import update
from sqlalchemy.exc import OperationalError

from bot.conversation.changes import KeepProfile
from bot.forms import profile_from_json
from bot.messages import Outgoing
from bot.ports import Never, NotNow
from bot.post.clerk import Clerk
from bot.store import inbox, sending
from bot.store.seen import forget_all
from bot.store.tables import ClockRow, DueRow
from bot.store.unit import Store
from bot.turn.turns import enrol
from tests.support.letters import incoming
from tests.support.people import ada, kim
from tests.support.serving import FakeDoor, HandClock, InstantClerk, Process

EVENING = datetime(2026, 3, 1, 20, tzinfo=UTC)
MORNING = datetime(2026, 3, 2, 7, tzinfo=UTC)


def kinds(messages: list[Outgoing], chat: str = "ada") -> list[str]:
    return [json.loads(each.about)["kind"] for each in messages if each.chat == chat]


@pytest.fixture
def process(any_url: str) -> Iterator[Process]:
    """Ada and her coach, on the evening before her first day."""
    store = Store.open(any_url)
    with store.begin() as tx:
        for profile in (ada(), kim()):
            enrol(tx, KeepProfile(profile_from_json(profile)))
    started = Process(store, FakeDoor(), HandClock(EVENING))
    started.work()
    yield started
    store.close()


def test_a_day_goes_as_it_should(process: Process) -> None:
    assert kinds(process.at(MORNING)) == ["today"]
    process.hear(replace(incoming("u-1", "done"), at=MORNING))
    assert kinds(process.at(MORNING + timedelta(hours=1))) == ["logged"]
    process.hear(replace(incoming("u-1", "done"), at=MORNING))
    assert process.at(MORNING + timedelta(hours=2)) == []


@pytest.mark.parametrize("jump", [timedelta(hours=-2), timedelta(days=-1), timedelta(days=-30)])
def test_a_clock_that_jumps_back_sends_nothing_twice(process: Process, jump: timedelta) -> None:
    assert kinds(process.at(MORNING)) == ["today"]
    assert process.at(MORNING + jump) == []
    assert process.at(MORNING + timedelta(minutes=1)) == []


def test_a_clock_that_jumps_a_month_ahead_and_back_leads_to_no_burst(process: Process) -> None:
    process.at(MORNING)
    ahead = process.at(MORNING + timedelta(days=30, hours=6))
    assert len(kinds(ahead)) <= 1
    back = process.at(MORNING + timedelta(days=1))
    assert kinds(back) == []


@pytest.mark.parametrize(("late", "told"), [(3, ["today"]), (3.01, ["today"]), (17.5, [])])
def test_a_process_that_slept_says_once_what_it_missed(process: Process, late: float, told: list[str]) -> None:
    found = process.at(MORNING + timedelta(hours=late))
    assert [kind for kind in kinds(found) if kind == "today"] == told
    texts = [each.text for each in found if each.chat == "ada"]
    assert ["late" in each for each in texts if told] == [late > 3 for _ in texts if told]


def refusing(error: Exception) -> object:
    def refuse(_message: Outgoing) -> None:
        raise error

    return refuse


def test_a_chat_system_that_is_down_delays_and_never_loses(process: Process) -> None:
    process.door.refuse = refusing(NotNow())  # type: ignore[assignment]
    process.at(MORNING)
    process.hear(replace(incoming("u-1", "did 20"), at=MORNING))
    process.at(MORNING + timedelta(minutes=20))
    process.door.refuse = lambda _: None
    assert kinds(process.at(MORNING + timedelta(hours=1))) == ["today", "logged"]


def test_a_push_that_no_door_took_in_time_is_told_as_late(process: Process) -> None:
    process.door.open = False
    process.at(MORNING)
    process.door.open = True
    (found,) = [each for each in process.at(MORNING + timedelta(hours=6)) if each.chat == "ada"]
    assert kinds([found]) == ["today"]
    assert "late" in found.text


def test_pushes_of_days_without_a_door_make_no_burst(process: Process) -> None:
    process.door.open = False
    for day in range(9):
        process.at(MORNING + timedelta(days=day))
        process.at(MORNING + timedelta(days=day, hours=15))
    process.door.open = True
    found = kinds(process.at(MORNING + timedelta(days=9)))
    assert found.count("today") <= 1
    assert found.count("nudge") == 0


def test_what_is_refused_for_good_is_parked_with_its_reason(process: Process) -> None:
    process.door.refuse = refusing(Never("blocked"))  # type: ignore[assignment]
    process.at(MORNING)
    with process.store.begin() as tx:
        reasons = {each.reason for each in sending.parked(tx)}
    assert reasons == {"blocked"}
    process.door.refuse = lambda _: None
    assert process.at(MORNING + timedelta(hours=1)) == []


def test_a_door_that_fails_in_its_own_way_is_tried_again(process: Process) -> None:
    process.door.refuse = refusing(RuntimeError("anything"))  # type: ignore[assignment]
    process.at(MORNING)
    process.door.refuse = lambda _: None
    assert kinds(process.at(MORNING + timedelta(minutes=1))) == ["today"]


def test_new_zone_data_moves_the_future_alone(process: Process) -> None:
    with process.store.begin() as tx:
        wrong = MORNING + timedelta(hours=1)
        tx.execute(update(DueRow).where(DueRow.who == "ada").values(at=wrong))
        tx.execute(update(ClockRow).values(zones="old"))
        tx.execute(update(DueRow).where(DueRow.who == "kim").values(at=EVENING))
        forget_all(tx)
    second = Process(process.store, process.door, process.clock, version="new")
    second.zones_only()
    with process.store.begin() as tx:
        due = {row.who: row.at for row in tx.query(DueRow).where(DueRow.kind.in_(("push", "digest")))}
        assert due == {"ada": MORNING, "kim": EVENING}
        assert inbox.zones(tx) == "new"


def test_jobs_of_one_round_are_kept_together_and_a_bad_one_spoils_no_other(process: Process) -> None:
    def bad(_tx: object) -> None:
        raise OperationalError("", None, RuntimeError("locked"))

    clerk = process.clerk
    futures = [super(type(clerk), clerk).ask(work) for work in (inbox.clock, bad, inbox.clock)]
    clerk.step()
    assert [type(each.exception()) for each in futures] == [type(None), OperationalError, type(None)]


def test_two_processes_answer_each_message_once_and_in_order(process: Process, any_url: str) -> None:
    names = [f"p-{place}" for place in range(6)]
    for place in range(24):
        process.hear(replace(incoming(f"u-{place}", f"hello {place}", who=names[place % 6]), at=EVENING))

    def run(_number: int) -> Process:
        other = Process(Store.open(any_url), FakeDoor(), HandClock(EVENING))
        for _ in range(40):
            other.clerk.step()
        return other

    with ThreadPoolExecutor(2) as processes:
        list(processes.map(run, range(2)))
    while process.clerk.step():
        pass
    process.send()
    answered = [each for each in process.door.got if each.chat in names]
    assert len(answered) == 24
    assert len({each.id for each in answered}) == 24


def test_a_job_whose_asker_has_gone_is_done_all_the_same(process: Process) -> None:
    at = MORNING + timedelta(minutes=1)
    own = process.clerk
    clerk = Clerk(process.store, own.turns, HandClock(at), own.zones, own.lease)
    gone = clerk.ask(lambda tx: inbox.set_clock(tx, at))
    stays = clerk.ask(inbox.clock)
    assert gone.cancel()
    clerk.step()
    assert stays.result(timeout=0) == at


def test_senders_are_woken_for_an_answer_and_not_for_what_they_asked_themselves(process: Process) -> None:
    woken: list[str] = []
    process.clerk.tell_senders = lambda: woken.append("once")
    super(InstantClerk, process.clerk).ask(lambda _: None)
    assert process.clerk.step()
    assert woken == []
    process.hear(replace(incoming("u-1", "week"), at=EVENING))
    assert process.clerk.step()
    assert woken == ["once"]
