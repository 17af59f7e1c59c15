"""Strength twice a week: on which days, which moves, for how long."""

from dataclasses import dataclass
from datetime import date
from functools import cache
from itertools import combinations

from planning.facts import load
from planning.plan.frame import Frame
from planning.terms.choices import WeekKind
from planning.terms.plan import Strength

FROM_WEEK = 2
A_WEEK = 2


@dataclass(frozen=True, slots=True)
class Level:
    """Moves from a week on, and how many of them one session takes."""

    from_week: int
    moves: tuple[str, ...]
    a_session: int


@cache
def levels() -> tuple[Level, ...]:
    """All levels, hardest first."""
    rows = load("moves")["level"]
    found = [Level(each["from_week"], tuple(each["moves"]), each["a_session"]) for each in rows]
    return tuple(sorted(found, key=lambda each: -each.from_week))


@cache
def choose_moves(number: int, turn: int, age: int | None) -> tuple[str, ...]:
    """Moves of the session *turn* (0 or 1) in week *number*, a balance move first for older people."""
    level = next(each for each in levels() if each.from_week <= number)
    start = (number * A_WEEK + turn) * level.a_session
    moves = [level.moves[(start + step) % len(level.moves)] for step in range(level.a_session)]
    balance = load("moves")["balance"]
    if age is None or age < balance["from_age"]:
        return tuple(moves)
    return (balance["move"], *moves[1:])


@cache
def strength_weekdays(used: tuple[int, ...], long: int, barred: frozenset[int]) -> tuple[int, ...]:
    """Two weekdays: on days that have a session anyway, apart from each other, never on the *barred* ones."""
    eve = (long - 1) % 7
    free = [each for each in range(7) if each not in barred and each not in (eve, long)]
    return max(
        combinations(free, A_WEEK),
        key=lambda pair: (sum(each in used for each in pair), min((pair[1] - pair[0]) % 7, (pair[0] - pair[1]) % 7)),
    )


def plan_strength(frame: Frame, number: int, kind: WeekKind, races: tuple[int, ...]) -> tuple[Strength, ...]:
    """Strength sessions of week *number*, kept away from *races* (ordinals) and their eves."""
    if number < FROM_WEEK or kind is WeekKind.RACE:
        return ()
    monday = frame.day(number, 0)
    near = {race - monday - step for race in races for step in (0, 1)}
    barred = frozenset(each for each in near if 0 <= each < 7)
    seconds = load("moves")["seconds_a_move"]
    found = []
    for turn, weekday in enumerate(strength_weekdays(frame.used, frame.long, barred)):
        moves = choose_moves(number, turn, frame.profile.age)
        found.append(Strength(date.fromordinal(monday + weekday), seconds * len(moves), moves))
    return tuple(found)
