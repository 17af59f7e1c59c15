"""`simulate`: weeks of invented people on the real conversation, as a table and a picture; two rules compared."""

import argparse
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from bot.cli.shared import add_command, complain

if TYPE_CHECKING:
    from bot.conversation.known import Rule
    from bot.trial.crowd import Trial
    from bot.trial.life import Life

EXAMPLES = """\
  python -m bot simulate --people 50 --weeks 8 --seed 1
  python -m bot simulate --people 1000 --weeks 26 --seed 1 --chart weeks.svg
  python -m bot simulate --people 200 --weeks 12 --seed 1 --compare nudge
"""
PICTURES = (".png", ".svg")
MOST = {"people": 100_000, "weeks": 52, "seed": 2**63, "workers": 256}
LEAST = {"people": 1, "weeks": 1, "seed": 0, "workers": 1}
STANDARD = "all rules"
TELL_EVERY = 10
"""Percent between two lines about how far it is, where no bar can be shown."""


def add(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Register the command."""
    what = "follow invented people through weeks of the real conversation; says nothing about real people"
    parser = add_command(commands, "simulate", what, EXAMPLES, run)
    parser.add_argument("--people", metavar="N", default="100", help="how many; default: 100")
    parser.add_argument("--weeks", metavar="W", default="12", help="for how many weeks, 52 at most; default: 12")
    parser.add_argument("--seed", metavar="S", default="1", help="the same seed gives the same people; default: 1")
    rules = 'a rule of the conversation: "nudge" (on silent evenings), "smaller" (after misses), "sure" (below 7 of 10)'
    parser.add_argument("--without", metavar="RULE", action="append", default=[], help=f"leave out {rules}")
    parser.add_argument("--compare", metavar="RULE", help="the same people with that rule, and without it")
    parser.add_argument("--chart", metavar="FILE", help="draw the weeks into a file that ends in .png or .svg")
    workers = str(os.cpu_count() or 1)
    parser.add_argument("--workers", metavar="N", default=workers, help="processes; default: one for each core")


def run(args: argparse.Namespace) -> int:
    """Follow them and print what became of them; exit status 2, with one line for each fault, for wrong options."""
    faults = wrong_options(args)
    if faults:
        return complain(*faults)
    try:
        if args.chart:
            Path(args.chart).touch()
        show(trials_of(args), args)
    except OSError as wrong:
        return complain(f"{wrong.filename}: can't be written ({wrong.strerror})")
    return 0


def wrong_options(args: argparse.Namespace) -> list[str]:
    """What is wrong with the options, one line each."""
    from bot.conversation.known import Rule

    lines = [line for name in MOST for line in wrong_number(name, getattr(args, name))]
    names = [each.value for each in Rule]
    for option, rules in (("--without", args.without), ("--compare", [args.compare] if args.compare else [])):
        lines += [f"{option}: {each} is none of {', '.join(names)}" for each in rules if each not in names]
    if args.compare in args.without:
        lines.append(f"--compare, --without: {args.compare} can't be compared when it is left out")
    if args.chart and Path(args.chart).suffix.lower() not in PICTURES:
        lines.append(f"--chart: {args.chart} ends in neither .png nor .svg")
    return lines


def wrong_number(name: str, said: str) -> list[str]:
    """The line about a number that can't be used; none if it can."""
    low, high = LEAST[name], MOST[name]
    is_whole = said.isascii() and said.isdigit() and len(said) <= len(str(high))
    return (
        [] if is_whole and low <= int(said) <= high else [f"--{name}: {said} is no whole number from {low} to {high}"]
    )


def trials_of(args: argparse.Namespace) -> "dict[str, Trial]":
    """What is to be followed, by the name of its rules."""
    from bot.conversation.known import Rule
    from bot.trial.crowd import Trial

    def trial(*rules: "Rule") -> "Trial":
        return Trial(int(args.people), int(args.weeks), int(args.seed), rules)

    left_out = tuple(dict.fromkeys(map(Rule, args.without)))
    trials = {_name(left_out): trial(*left_out)}
    if args.compare:
        fewer = (*left_out, Rule(args.compare))
        trials[_name(fewer)] = trial(*fewer)
    return trials


def _name(left_out: "tuple[Rule, ...]") -> str:
    return f"without {', '.join(left_out)}" if left_out else STANDARD


def show(trials: "dict[str, Trial]", args: argparse.Namespace) -> None:
    """Follow all, print the tables, draw the picture."""
    from bot.trial.table import print_compared, print_invented, print_weeks
    from bot.trial.totals import by_week, compare

    lives = followed(trials, int(args.workers))
    weeks = {name: by_week(each) for name, each in lives.items()}
    for name, each in weeks.items():
        print_weeks(each, name)
    if len(lives) == 2:
        (first, ones), (second, others) = lives.items()
        print_compared(compare(ones, others, int(args.seed)), (first, second))
    print_invented()
    if args.chart:
        from bot.trial.picture import Line, save

        save([Line(name, each) for name, each in weeks.items()], args.chart)


def followed(trials: "dict[str, Trial]", workers: int) -> "dict[str, tuple[Life, ...]]":
    """The lives of each trial, by its name."""
    from bot.trial.crowd import follow_all

    plan = tuple(trials.values())
    with progress(sum(each.people for each in plan)) as tell:
        return dict(zip(trials, follow_all(plan, workers, tell), strict=True))


@contextmanager
def progress(total: int) -> "Iterator[Callable[[int], None]]":
    """Shows on standard error how far it is: a bar at a terminal, else a line now and then."""
    if not sys.stderr.isatty():
        yield Lines(total).tell
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

    columns = (TextColumn("people"), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=Console(stderr=True), transient=True) as bar:
        task = bar.add_task("people", total=total)
        yield lambda more: bar.advance(task, more)


class Lines:
    """How far it is, as plain lines."""

    def __init__(self, total: int) -> None:
        """*total*: people to follow."""
        self.total, self.through, self.told = total, 0, 0

    def tell(self, more: int) -> None:
        """So many *more* are through; says so whenever another tenth is."""
        self.through += more
        percent = 100 * self.through // self.total
        if percent >= self.told + TELL_EVERY:
            self.told = percent - percent % TELL_EVERY
            print(f"{self.through} of {self.total} people", file=sys.stderr, flush=True)
