"""Danger and what lies beyond the log: phrasings that must be seen, and look-alikes that must not."""

import tomllib
from datetime import datetime
from typing import Any

import pytest

from bot.reading import read
from planning.terms.choices import Alarm, Danger
from tests.bot.reading.scoring import FOLDER

AT = datetime(2026, 5, 13, 18, 20)  # noqa: DTZ001 - the wall time of the sender
SIGNS: dict[str, dict[str, list[str]]] = tomllib.loads((FOLDER / "danger.toml").read_text(encoding="utf-8"))
UNSEEN: dict[str, dict[str, list[str]]] = tomllib.loads((FOLDER / "unseen.toml").read_text(encoding="utf-8"))
BEYOND: dict[str, dict[str, list[str]]] = tomllib.loads((FOLDER / "beyond.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize(("code", "text"), [(code, text) for code, texts in SIGNS["said"].items() for text in texts])
def test_a_danger_sign_is_seen(code: str, text: str) -> None:
    assert Danger(code) in read(text, AT, "Europe/London", 25).danger


@pytest.mark.parametrize("text", [text for texts in SIGNS["unsaid"].values() for text in texts])
def test_a_look_alike_is_no_danger(text: str) -> None:
    assert read(text, AT, "Europe/London", 25).danger == ()


@pytest.mark.parametrize(("code", "text"), [(code, text) for code, texts in UNSEEN["said"].items() for text in texts])
def test_a_danger_sign_in_words_of_others_is_seen(code: str, text: str) -> None:
    assert Danger(code) in read(text, AT, "Europe/London", 25).danger


@pytest.mark.parametrize(("code", "text"), [(code, text) for code, texts in UNSEEN["alarm"].items() for text in texts])
def test_an_alarm_in_words_of_others_is_seen(code: str, text: str) -> None:
    assert Alarm(code) in read(text, AT, "Europe/London", 25).alarm


@pytest.mark.parametrize("text", UNSEEN["unsaid"]["all"])
def test_a_look_alike_in_words_of_others_is_neither(text: str) -> None:
    reading = read(text, AT, "Europe/London", 25)
    assert (reading.danger, reading.alarm) == ((), ())


def test_each_code_has_30_phrasings_and_there_are_200_look_alikes() -> None:
    assert set(SIGNS["said"]) == {code.value for code in Danger}
    assert all(len(texts) >= 30 for texts in SIGNS["said"].values())
    assert sum(len(texts) for texts in SIGNS["unsaid"].values()) >= 200


@pytest.mark.parametrize(("key", "text"), [(key, text) for key, lists in BEYOND.items() for text in lists["said"]])
def test_a_fact_beyond_the_log_is_read(key: str, text: str) -> None:
    assert value_of(key, text)


@pytest.mark.parametrize(("key", "text"), [(key, text) for key, lists in BEYOND.items() for text in lists["unsaid"]])
def test_a_look_alike_gives_no_such_fact(key: str, text: str) -> None:
    assert not value_of(key, text)


def test_each_fact_beyond_the_log_has_twenty_of_both() -> None:
    assert all(len(lists["said"]) >= 20 and len(lists["unsaid"]) >= 20 for lists in BEYOND.values())


def value_of(key: str, text: str) -> Any:
    return getattr(read(text, AT, "Europe/London", 25), key)


@pytest.mark.parametrize(
    ("text", "c", "humidity", "wind"),
    [
        ("33C 60%", 33, 60, None),
        ("95F out there", 35, None, None),
        ("it's -8 and icy", -8, None, None),
        ("winds of 30 mph", None, None, 48.3),
        ("30 degrees, 70% humidity", 30, 70, None),
    ],
)
def test_weather_has_its_numbers(text: str, c: float | None, humidity: float | None, wind: float | None) -> None:
    weather = read(text, AT, "Europe/London").weather
    assert weather is not None
    assert (weather.c, weather.humidity, weather.wind_kmh) == (c, humidity, wind)


@pytest.mark.parametrize(
    ("slip", "code"),
    [
        ("chst pain", "chest"),
        ("dizyness at 10 min", "faint"),
        ("palpitatons again", "heart"),
        ("suicidel", "self_harm"),
    ],
)
def test_a_danger_word_one_slip_off_is_heard(slip: str, code: str) -> None:
    assert Danger(code) in read(slip, AT, "Europe/London", 25).danger


@pytest.mark.parametrize("text", ["somebody collapsed here", "he is not breathing", "my wife is having a stroke"])
def test_somebody_else_in_danger_now_is_an_alarm_and_no_danger_of_the_sender(text: str) -> None:
    reading = read(text, AT, "Europe/London", 25)
    assert (reading.alarm, reading.danger) == ((Alarm.OTHER,), ())


SEEN_SINCE = "chest went tight last week, the doctor checked it since, all fine"


def test_a_past_sign_that_a_clinician_found_to_be_nothing_is_no_danger() -> None:
    reading = read(SEEN_SINCE, AT, "Europe/London", 25)
    assert (reading.danger, reading.past_danger) == ((), ())


@pytest.mark.parametrize(
    ("said", "instead"),
    [
        ("last week", "today"),
        ("the doctor", "my mate"),
        ("checked it since", "is on holiday"),
        ("all fine", "who knows"),
    ],
)
def test_anything_less_than_time_clinician_check_and_finding_stays_danger(said: str, instead: str) -> None:
    assert Danger.CHEST in read(SEEN_SINCE.replace(said, instead), AT, "Europe/London", 25).danger


def test_a_sign_that_is_over_keeps_its_day() -> None:
    (past,) = read("fainted on monday, fine now", AT, "Europe/London").past_danger
    assert (past.code, past.on.isoformat()) == (Danger.FAINT, "2026-05-11")
