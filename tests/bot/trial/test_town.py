"""Invented people on the real turns: repeatable, whoever is followed with them, and nobody trains while barred."""

from collections import defaultdict
from datetime import date

import pytest

from bot.conversation.agenda import is_red
from bot.conversation.known import Rule
from bot.conversation.says import Kind
from bot.store.people import find_known, history_of
from bot.store.plans import find_plan
from bot.trial import person as persons
from bot.trial.crowd import Trial, follow_all
from bot.trial.life import Life
from bot.trial.person import Person
from bot.trial.told import Told
from bot.trial.totals import by_week
from bot.trial.town import Task, Town, follow
from planning import check
from planning.calendar import local
from planning.plan.happened import look_back

FEW = Task(seed=3, numbers=(0, 1, 2, 3), weeks=4)


@pytest.fixture(scope="module")
def lives() -> tuple[Life, ...]:
    """Four people, four weeks."""
    return follow(FEW)


def test_the_same_seed_gives_the_same_lives(lives: tuple[Life, ...]) -> None:
    assert follow(FEW) == lives
    assert follow(Task(4, FEW.numbers, FEW.weeks)) != lives


def test_who_is_followed_with_them_makes_no_difference(lives: tuple[Life, ...]) -> None:
    assert follow(Task(FEW.seed, (2,), FEW.weeks)) == lives[2:3]


def test_the_number_of_processes_makes_no_difference() -> None:
    trial, told = Trial(people=9, weeks=1, seed=3), list[int]()
    one, two = (follow_all((trial,), workers, told.append) for workers in (1, 2))
    assert one == two
    assert [life.number for life in one[0]] == list(range(9))
    assert sum(told) == 18


def test_a_rule_that_is_left_out_leaves_its_messages_out(lives: tuple[Life, ...]) -> None:
    without = follow(Task(FEW.seed, FEW.numbers, FEW.weeks, (Rule.NUDGE,)))
    assert sum(each.nudges for each in by_week(lives)) > 0
    assert sum(each.nudges for each in by_week(without)) == 0


class Heard:
    """What everybody is told, day by day."""

    def __init__(self) -> None:
        self.kinds: dict[str, list[tuple[date, Kind]]] = defaultdict(list)

    def __call__(self, who: str, told: Told) -> None:
        self.kinds[who] += [(told.at.date(), kind) for kind in told.kinds]


def test_nobody_trains_while_barred(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every outing brings a sign of danger: from then on no session is sent until a clinician has cleared it."""
    monkeypatch.setattr(persons, "DANGER", 1.0)
    heard = Heard()
    town = Town(FEW, heard)
    for week in range(FEW.weeks):
        town.live_week(week)
    barred = [who for who, kinds in heard.kinds.items() if Kind.URGENT in [kind for _, kind in kinds]]
    assert barred
    for who in barred:
        assert _while_barred(heard.kinds[who], town.people[who]) == []


def _while_barred(kinds: list[tuple[date, Kind]], person: Person) -> list[date]:
    """Days between a sign of danger and the word that it was cleared on which a session was sent or done."""
    is_barred, wrong, outings = False, list[date](), {each.on for each in person.outings}
    since = date.max
    for day, kind in kinds:
        is_barred = (is_barred or kind is Kind.URGENT) and kind is not Kind.CLEARED
        since = day if kind is Kind.URGENT else since if is_barred else date.max
        wrong += [day] if is_barred and (kind is Kind.TODAY or (day > since and day in outings)) else []
    return wrong


class Checked(Town):
    """Looks at each week's end whether a limit is broken by the plan as it would be told; held up, none is."""

    def look(self, week: int) -> list[object]:
        now = self.week_end(week)
        with self.talk.store.begin() as tx:
            found = [(find_known(tx, who, now), find_plan(tx, who), history_of(tx, who)) for who in self.people]
        breaches: list[object] = []
        for known, plan, history in found:
            assert known.profile is not None
            assert plan is not None
            past = look_back(plan, history, local(now, known.profile.tz).date()).past(known.profile)
            is_told = not (known.stale or known.holds or is_red(known))
            breaches += check(plan, known.profile, past) if is_told else ()
        return breaches


HALF_A_YEAR = [
    pytest.param(Task(seed=5, numbers=tuple(range(start, start + 8)), weeks=26), marks=pytest.mark.nightly)
    for start in range(0, 48, 8)
]


@pytest.mark.parametrize("task", [FEW, *HALF_A_YEAR])
def test_every_limit_holds_at_the_end_of_each_week(task: Task) -> None:
    heard = Heard()
    town = Checked(task, heard)
    for week in range(task.weeks):
        town.live_week(week)
        assert town.look(week) == [], f"week {week} of {task}"
    assert Kind.ERROR not in {kind for kinds in heard.kinds.values() for _, kind in kinds}
