"""How long invented people take: `simulate` with all cores, and how many turns of the real conversation that is.

Run: `python -m benchmarks.trial [people] [weeks]`. Wished for: 1,000 people, 26 weeks, within ten minutes.
"""

import os
import resource
import sys
from time import perf_counter

from rich.console import Console
from rich.progress import track
from rich.table import Table

from bot.trial.crowd import Trial, follow_all
from bot.trial.totals import by_week

WISHED = (1_000, 26, 600)
"""People, weeks, seconds."""


def seconds_of(trial: Trial, workers: int) -> tuple[float, float]:
    """Seconds on the clock and of all processors."""
    steps = iter(track(range(trial.people), description="people", console=Console(stderr=True)))
    next(steps)
    begun = perf_counter()
    lives = follow_all((trial,), workers, lambda more: [next(steps, None) for _ in range(more)])[0]
    took = perf_counter() - begun
    assert len(by_week(lives)) == trial.weeks
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return took, used.ru_utime + used.ru_stime


def main(people: int = 100, weeks: int = 26) -> None:
    workers = os.cpu_count() or 1
    took, used = seconds_of(Trial(people, weeks, seed=1), workers)
    many, long, wished = WISHED
    table = Table("what", "figure", title=f"{people} people, {weeks} weeks, {workers} processes")
    table.add_row("seconds", f"{took:.0f}")
    table.add_row("seconds of the processors, a person", f"{used / people:.2f}")
    if weeks == long:
        rate = f"{took * many / people:.0f} (wished for: {wished} at most)"
        table.add_row(f"seconds for {many} people at this rate", rate)
    Console().print(table)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:3]))
