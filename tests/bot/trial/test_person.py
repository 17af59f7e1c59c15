"""How invented people behave: ready by what the model says, moved by what the bot says, the same for the same seed."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import pairwise

import pytest

from bot.conversation.says import Asks, Kind
from bot.trial.luck import Luck, luck_of
from bot.trial.person import Ache, Moment, Person, hear, readiness
from bot.trial.start import begins
from bot.trial.told import Told

AT = datetime(2026, 4, 6, 7, tzinfo=UTC)
"""A Monday."""

EVEN = Luck(*(0.5,) * 17)
PUSH = Told(AT, (Kind.TODAY,), None, 20.0)


def somebody(seed: int = 1, **changes: object) -> Person:
    nature, profile = begins(seed, 0)
    return Person(seed, 0, replace(nature, **changes), replace(profile, tz="Europe/London"))  # type: ignore[arg-type]


def chance(person: Person, minutes: float = 20, day: int = 6, luck: Luck = EVEN) -> float:
    return readiness(person, Moment(PUSH, datetime(2026, 4, day, 8, tzinfo=UTC), luck), minutes)


def test_luck_is_the_same_whenever_it_is_asked_for() -> None:
    assert luck_of(1, 2, date(2026, 4, 6)) == luck_of(1, 2, date(2026, 4, 6))
    assert luck_of(1, 2, date(2026, 4, 6)) != luck_of(1, 3, date(2026, 4, 6))


def test_people_are_the_same_for_the_same_seed() -> None:
    assert begins(1, 5) == begins(1, 5)
    assert begins(1, 5) != begins(2, 5)


def test_what_is_long_sore_or_wet_keeps_people_in() -> None:
    person = somebody()
    plain = chance(person)
    sore = somebody()
    sore.ache = Ache("calf", 3, date(2026, 4, 9))
    assert chance(person, minutes=60) < plain < chance(person, minutes=10)
    assert chance(person, luck=replace(EVEN, weather=0.0)) < plain
    assert chance(sore) < plain


def test_a_weekend_counts_for_those_who_are_busy() -> None:
    busy = somebody(weekend=0.6)
    assert chance(busy, day=11) > chance(busy, day=10)


def test_each_nudge_costs_more_than_the_one_before() -> None:
    person, keen = somebody(cools=0), [0.0]
    for day in range(3):
        hear(person, Told(AT + timedelta(days=day), (Kind.NUDGE,), None, 20.0))
        keen.append(person.keen)
    first, second, third = (before - after for before, after in pairwise(keen))
    assert 0 < first < second < third


def test_who_has_given_up_hears_nothing_but_a_session_now_and_then() -> None:
    person = somebody()
    person.going = False
    assert hear(person, Told(AT, (Kind.REVIEW,), Asks.EFFORT, None)) == ()
    assert not person.going


@pytest.mark.parametrize(("answers", "texts"), [(1.0, {"3"}), (0.0, set())])
def test_a_question_is_answered_once_by_those_who_answer(answers: float, texts: set[str]) -> None:
    person, asked = somebody(answers=answers, cools=0), Told(AT, (Kind.LOGGED,), Asks.EFFORT, None)
    assert {each.text for each in hear(person, asked)} == texts
    assert hear(person, asked) == ()


def test_a_reply_never_comes_before_its_message() -> None:
    replies = [each for seed in range(200) for each in hear(somebody(seed), PUSH)]
    assert replies
    assert all(each.at > AT for each in replies)


def test_a_sore_day_after_day_ends() -> None:
    person = somebody(answers=1.0)
    person.ache = Ache("calf", 3, date(2026, 4, 6))
    assert "calf" in hear(person, Told(AT, (Kind.LOGGED,), None, None))[0].text
    assert person.ache is None
