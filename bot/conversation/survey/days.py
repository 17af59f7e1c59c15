"""Days of the week with their times, as people say them: "mondays and thursdays before work, half six"."""

from dataclasses import dataclass, field
from datetime import time

from bot.conversation.survey.text import plain
from bot.conversation.survey.week_words import EVERY, At, Days, Item, Mark, week_words
from planning.terms.choices import Weekday


@dataclass(frozen=True, slots=True)
class DaysSaid:
    """Days in order of the week. *times*: one for each day, or empty if none was said; *at*: the first time said."""

    days: tuple[Weekday, ...] = ()
    times: tuple[time, ...] = ()
    at: time | None = None


def days_said(text: str) -> DaysSaid:
    """The days and times that *text* names. A time counts for the days before it, or after it where times come first;
    days without one get the time of their neighbours. "Every other day" is Monday, Wednesday, Friday.
    """
    items = week_words(plain(text))
    times = [item.at for item in items if isinstance(item, At)]
    chosen = _Sorting(items).sorted()
    days = tuple(sorted(chosen))
    last = times[-1] if times else None
    filled = tuple(chosen[day] or last for day in days)
    return DaysSaid(days, tuple(each for each in filled if each is not None), times[0] if times else None)


@dataclass(slots=True)
class _Sorting:
    """One walk over the *items*. *since_stop*: days of the clause; *pending*: days that wait for their time."""

    items: tuple[Item, ...]
    chosen: dict[Weekday, time | None] = field(default_factory=dict)
    left_out: set[Weekday] = field(default_factory=set)
    pending: list[Weekday] = field(default_factory=list)
    since_stop: list[Weekday] = field(default_factory=list)
    current: time | None = None
    negative: bool = False

    def sorted(self) -> dict[Weekday, time | None]:
        """Each day that is meant, with its time."""
        times_first = isinstance(next((item for item in self.items if isinstance(item, At | Days)), None), At)
        last_days = max((place for place, item in enumerate(self.items) if isinstance(item, Days)), default=-1)
        for place, item in enumerate(self.items):
            if isinstance(item, Days):
                self._take_days(item, times_first)
            elif isinstance(item, At):
                self._take_time(item.at, times_first and place < last_days)
            else:
                self._take_mark(item)
        if self.left_out and not self.chosen:
            self.chosen = dict.fromkeys(EVERY, self.current)
        return {day: at for day, at in self.chosen.items() if day not in self.left_out}

    def _take_mark(self, mark: Mark) -> None:
        self.negative = mark is Mark.NOT
        if mark is Mark.STOP:
            self.since_stop = []

    def _take_days(self, item: Days, times_first: bool) -> None:
        if self.negative:
            self.left_out |= set(item.days)
            return
        self.since_stop += item.days
        if times_first:
            self.chosen |= dict.fromkeys(item.days, self.current)
        else:
            self.pending += item.days
            self.chosen |= {day: self.chosen.get(day) for day in item.days}

    def _take_time(self, at: time, for_days_after: bool) -> None:
        """A time for the days that wait, for those after it, or (the last one of all) for those of its clause."""
        self.negative = False
        if self.pending:
            self.chosen |= dict.fromkeys(self.pending, at)
            self.pending = []
        elif not for_days_after:
            self.chosen |= dict.fromkeys(self.since_stop if self.current is not None else [], at)
            self.current = self.current or at
            return
        self.current = at
