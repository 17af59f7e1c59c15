"""`simulate`: tables plain when piped, the same for the same seed; two rules side by side; one line for each fault."""

from pathlib import Path
from random import Random

import pytest

from bot.cli import main
from bot.trial.life import Life, OneWeek
from bot.trial.table import INVENTED
from bot.trial.totals import band, by_week, compare
from tests.support.shell import bot

SMALL = ("simulate", "--people", "2", "--weeks", "2", "--seed", "7", "--workers", "1")


def test_the_output_is_plain_when_piped() -> None:
    ran = bot(*SMALL)
    assert ran.returncode == 0
    assert "\x1b" not in ran.stdout + ran.stderr
    assert ran.stdout.splitlines()[-1] == INVENTED
    assert ran.stderr.splitlines() == ["2 of 2 people"]


def test_the_same_seed_prints_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    printed = []
    for seed in ("7", "7", "8"):
        assert main(["simulate", "--people", "2", "--weeks", "2", "--seed", seed, "--workers", "1"]) == 0
        printed.append(capsys.readouterr().out)
    assert printed[0] == printed[1] != printed[2]


@pytest.mark.parametrize(("name", "start"), [("a.png", b"\x89PNG"), ("a.svg", b"<?xml")])
def test_two_rules_stand_side_by_side(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, name: str, start: bytes
) -> None:
    assert main([*SMALL, "--compare", "nudge", "--chart", str(tmp_path / name)]) == 0
    out = capsys.readouterr().out
    assert [word in out for word in ("all rules", "without nudge", "difference", "95 % band")] == [True] * 4
    assert (tmp_path / name).read_bytes().startswith(start)


@pytest.mark.parametrize(
    ("options", "line"),
    [
        (("--people", "none"), "--people: none is no whole number from 1 to 100000"),
        (("--people", "0"), "--people: 0 is no whole number from 1 to 100000"),
        (("--weeks", "53"), "--weeks: 53 is no whole number from 1 to 52"),
        (("--seed", "-1"), "--seed: -1 is no whole number from 0 to 9223372036854775808"),
        (("--without", "luck"), "--without: luck is none of nudge, smaller, sure"),
        (("--compare", "luck"), "--compare: luck is none of nudge, smaller, sure"),
        (
            ("--without", "nudge", "--compare", "nudge"),
            "--compare, --without: nudge can't be compared when it is left out",
        ),
        (("--chart", "weeks.bmp"), "--chart: weeks.bmp ends in neither .png nor .svg"),
        (("--chart", "/nowhere/weeks.png"), "/nowhere/weeks.png: can't be written (No such file or directory)"),
    ],
)
def test_a_wrong_option_is_one_line(capsys: pytest.CaptureFixture[str], options: tuple[str, ...], line: str) -> None:
    assert main([*SMALL, *options]) == 2
    assert capsys.readouterr().err.splitlines() == [line]


def lives(*minutes: float) -> list[Life]:
    """One week each."""
    return [Life(number, (OneWeek(minutes=each, done=1),)) for number, each in enumerate(minutes)]


def test_totals_count_everybody_who_began() -> None:
    [week] = by_week([*lives(30, 0), Life(2, (OneWeek(going=False),))])
    assert (week.minutes, round(week.going, 1), week.done) == (10, 66.7, 2)


def test_people_are_compared_with_themselves() -> None:
    """Where everybody does five minutes more the difference is five, without any doubt, however people differ."""
    found = {each.name: each for each in compare(lives(10, 200, 35), lives(15, 205, 40), seed=1)}
    minutes = found["minutes a week"]
    assert (minutes.difference, minutes.low, minutes.high) == (5, 5, 5)
    assert found["sessions done"].difference == 0


def test_the_band_is_about_two_standard_errors_wide() -> None:
    """Of 400 values with deviation 1 the mean lies within 1.96 / 20 of itself (normal approximation)."""
    values = [-1.0, 1.0] * 200
    low, high = band(values, Random(1))
    assert low == pytest.approx(-0.098, abs=0.02)
    assert high == pytest.approx(0.098, abs=0.02)
    assert band(values, Random(1)) == (low, high)
