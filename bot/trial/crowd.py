"""Many people, followed by several processes: each takes some of them at a time, and all get the same lives anyway."""

import gc
import multiprocessing
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from bot.conversation.known import Rule
from bot.trial.life import Life
from bot.trial.town import Task, follow

TOGETHER = 8
"""People on the same records; a process takes so many at a time."""

MANY_OBJECTS = 100_000
"""After so many new objects a worker looks for garbage that refers to itself."""


@dataclass(frozen=True, slots=True)
class Trial:
    """So many people for so many weeks, all of it from one seed; *left_out*: rules by which they aren't spoken to."""

    people: int
    weeks: int
    seed: int
    left_out: tuple[Rule, ...] = ()

    @property
    def tasks(self) -> tuple[Task, ...]:
        """The people in parts that can be followed each by itself."""
        starts = range(0, self.people, TOGETHER)
        parts = (tuple(range(start, min(start + TOGETHER, self.people))) for start in starts)
        return tuple(Task(self.seed, part, self.weeks, self.left_out) for part in parts)


def follow_all(trials: tuple[Trial, ...], workers: int, tell: Callable[[int], object]) -> tuple[tuple[Life, ...], ...]:
    """The lives of each trial, in order of number. *tell*: is told how many more are through."""
    tasks = [(place, task) for place, trial in enumerate(trials) for task in trial.tasks]
    found: list[list[Life]] = [[] for _ in trials]
    with _spread(min(workers, len(tasks))) as each_of:
        for place, lives in each_of(tasks):
            found[place] += lives
            tell(len(lives))
    return tuple(tuple(sorted(lives, key=lambda each: each.number)) for lives in found)


Tasks = list[tuple[int, Task]]
Found = Iterator[tuple[int, tuple[Life, ...]]]


@contextmanager
def _spread(workers: int) -> Iterator[Callable[[Tasks], Found]]:
    """Does tasks in that many processes, in this one if it is just one."""
    if workers == 1:
        yield lambda tasks: map(_follow, tasks)
        return
    with multiprocessing.get_context("spawn").Pool(workers, _begin) as pool:
        yield lambda tasks: pool.imap_unordered(_follow, tasks)


def _follow(task: tuple[int, Task]) -> tuple[int, tuple[Life, ...]]:
    return task[0], follow(task[1])


def _begin() -> None:
    """Who interrupts the program ends all of it, by its first process. Little garbage is left that needs a search."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    gc.set_threshold(MANY_OBJECTS)
