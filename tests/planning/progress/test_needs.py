"""Who needs a person, and why: common practice, no source."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from planning.progress import who_needs
from planning.progress.needs import NeedKind, RunnerNow

TODAY = date(2026, 3, 30)
NOW = datetime(2026, 3, 30, 7, tzinfo=UTC)
LONG_HERE = TODAY - timedelta(days=100)


def runner(who: str = "sam", **more: object) -> RunnerNow:
    return RunnerNow(who, LONG_HERE, **more)  # type: ignore[arg-type]


BY_KIND = {
    NeedKind.DANGER: runner(danger=True),
    NeedKind.RED: runner(red=True),
    NeedKind.CARE: runner(care=True),
    NeedKind.ASKED: runner(asked_at=NOW - timedelta(hours=30)),
    NeedKind.UNANSWERED: runner(wrote_at=NOW - timedelta(hours=5)),
    NeedKind.CLEARANCE: runner(waiting_since=TODAY - timedelta(days=9)),
    NeedKind.MISSES: runner(misses=3),
    NeedKind.SILENT: runner(silent_days=7),
    NeedKind.NEW: replace(runner(), began=TODAY - timedelta(days=13)),
    NeedKind.BACK: runner(back_on=TODAY),
    NeedKind.BIG_WEEK: runner(big_week=True),
    NeedKind.PROMISE: runner(promised_on=TODAY),
    NeedKind.AMBER: runner(amber=True),
}


@pytest.mark.parametrize("kind", NeedKind)
def test_every_need_is_found(kind: NeedKind) -> None:
    assert who_needs([BY_KIND[kind]], NOW, TODAY).named[0].kinds == (kind,)


def test_the_most_pressing_come_first() -> None:
    people = [replace(each, who=kind.value) for kind, each in reversed(BY_KIND.items())]
    assert [each.who for each in who_needs(people, NOW, TODAY).all] == [kind.value for kind in NeedKind]


@pytest.mark.parametrize(
    "well",
    [
        runner(misses=2),
        runner(silent_days=6),
        replace(runner(), began=TODAY - timedelta(days=14)),
        runner(promised_on=TODAY + timedelta(days=1)),
        runner(),
    ],
)
def test_just_below_a_limit_nobody_is_named(well: RunnerNow) -> None:
    found = who_needs([well], NOW, TODAY)
    assert (found.named, found.rest, found.all[0].kinds) == ((), 1, ())


def test_of_two_who_wait_the_longer_one_comes_first() -> None:
    people = [runner("a", asked_at=NOW - timedelta(hours=2)), runner("b", asked_at=NOW - timedelta(hours=40))]
    found = who_needs(people, NOW, TODAY)
    assert [(each.who, each.hours) for each in found.all] == [("b", 40), ("a", 2)]


def test_seven_are_named_and_the_rest_is_a_number() -> None:
    found = who_needs([runner(f"r{number}", amber=True) for number in range(10)], NOW, TODAY)
    assert (len(found.named), found.rest, len(found.all)) == (7, 3, 10)


def test_all_needs_of_one_are_told_the_gravest_first() -> None:
    assert who_needs([runner(amber=True, danger=True, misses=4)], NOW, TODAY).all[0].kinds == (
        NeedKind.DANGER,
        NeedKind.MISSES,
        NeedKind.AMBER,
    )


def test_three_are_praised_those_back_from_a_break_first() -> None:
    people = [
        runner("all", sessions=4, planned=4),
        runner("some", sessions=3, planned=4),
        runner("first", sessions=1, planned=4, first=True),
        runner("back", sessions=1, planned=4, back_on=TODAY),
        runner("more", sessions=5, planned=4),
    ]
    assert who_needs(people, NOW, TODAY).praise == ("back", "first", "all")


@pytest.mark.parametrize("flag", ["danger", "red", "amber"])
def test_nobody_is_praised_for_training_through_pain(flag: str) -> None:
    assert who_needs([runner(sessions=4, planned=4, **{flag: True})], NOW, TODAY).praise == ()
