"""Load week by week, for the coach alone: a trend, never a risk."""

from dataclasses import replace
from datetime import date, timedelta

from bot.conversation.known import Known
from planning.progress.load import daily_loads, week_load
from planning.progress.review import minutes_done, monday_of
from planning.terms.entry import Entry, Status

WEEKS = 4


def loads(runner: Known, today: date) -> tuple[float | None, ...]:
    """Effort x minutes of each of the last four whole weeks, oldest first; None: not all of it is known."""
    log = tuple(with_minutes(each, runner) for each in runner.entries)
    quiet = frozenset(each.on for each in log if each.status is Status.NO_WORD)
    mondays = [monday_of(today) - timedelta(weeks=back) for back in range(WEEKS, 0, -1)]
    return tuple(week_load(daily_loads(_of(log, each), each, each + timedelta(days=6), quiet)) for each in mondays)


def _of(log: tuple[Entry, ...], monday: date) -> tuple[Entry, ...]:
    return tuple(each for each in log if 0 <= (each.on - monday).days < 7)


def with_minutes(entry: Entry, runner: Known) -> Entry:
    """*entry* with the minutes that were planned, where only a share was said."""
    lengths = {each.on: each.minutes for each in runner.sessions}
    return replace(entry, minutes=minutes_done(entry, lengths) or None) if entry.status is Status.DONE else entry
