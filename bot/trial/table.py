"""What became of all, as tables: plain text when piped."""

from collections.abc import Sequence

from rich.console import Console
from rich.table import Table
from rich.text import Text

from bot.trial.totals import Compared, WeekTotals

PIPED_WIDTH = 100
INVENTED = "The people and how they behave are invented; these figures say nothing about real people."
MEANING = (
    "going: had not given up, of 100. done / planned: outings, and sessions that the bot sent. "
    "min: minutes really done in the week, a person who began."
)


def print_weeks(weeks: Sequence[WeekTotals], name: str) -> None:
    """Print the table of the weeks, then what its columns mean. *name*: by which rules people were spoken to."""
    table = _table(name, "week", "going", "done / planned", "min", "nudges", "grave")
    for each in weeks:
        sessions = f"{each.done} / {each.planned}"
        counts = (str(each.nudges), str(each.grave))
        table.add_row(str(each.number), f"{each.going:.1f}", sessions, f"{each.minutes:.1f}", *counts)
    _print(table, MEANING)


def print_compared(rows: Sequence[Compared], names: tuple[str, str]) -> None:
    """Print each measure under both rules, and how they differ for the same people."""
    table = _table("the same people, by two rules", "a person", *names, "difference", "95 % band")
    for each in rows:
        band = f"{each.low:+.2f} to {each.high:+.2f}"
        table.add_row(each.name, f"{each.first:.2f}", f"{each.second:.2f}", f"{each.difference:+.2f}", band)
    _print(table)


def print_invented() -> None:
    """Print that all of it is invented."""
    print(INVENTED)


def _table(title: str, first: str, *others: str) -> Table:
    table = Table(title=Text(title), title_justify="left", pad_edge=False)
    for name in (first, *others):
        table.add_column(name, justify="left" if name == "a person" else "right")
    return table


def _print(table: Table, *lines: str) -> None:
    console = Console(width=None if Console().is_terminal else PIPED_WIDTH, highlight=False)
    console.print(table)
    for line in lines:
        console.print(Text(line), soft_wrap=True)
