"""What counts as done, day by day: the ground that every growth limit stands on."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from planning.limits.ceilings import LOOK_BACK, first_session, seconds_of
from planning.terms.person import Profile

WALK_OF_THIRTY = 30 * 60
"""Seconds of plain walking that make a day count towards the first running."""


@dataclass(frozen=True, slots=True)
class Outing:
    """One outing in numbers. *on*: day as ordinal; the rest in seconds.

    *run*: running in all; *rep*: one run; *bout*: walking between standing rests, 0 without rests; *long*: the long
    session of its week.
    """

    on: int
    seconds: int
    run: int = 0
    rep: int = 0
    bout: int = 0
    long: bool = False

    @property
    def walks_thirty(self) -> bool:
        """Plain walking of 30 minutes or more, without runs or rests."""
        return self.run == 0 and self.bout == 0 and self.seconds >= WALK_OF_THIRTY


@dataclass(slots=True)
class Record:
    """Outings in order of day, with what a profile says of the time before the first of them.

    Days are ordinals. *monday*: Monday of week 1; *days*: how many days a week `jog_min` counts for.
    """

    profile: Profile
    begin: int
    monday: int
    days: int
    outings: list[Outing] = field(default_factory=list)
    totals: dict[int, int] = field(default_factory=dict)
    runs: dict[int, int] = field(default_factory=dict)

    def number(self, on: int) -> int:
        """Number of the week that holds the day *on*."""
        return (on - self.monday) // 7 + 1

    def add(self, outings: Iterable[Outing]) -> None:
        """Count *outings*, which come after all that are there."""
        for each in outings:
            number = self.number(each.on)
            self.outings.append(each)
            self.totals[number] = self.totals.get(number, 0) + each.seconds
            self.runs[number] = self.runs.get(number, 0) + each.run

    def back(self, on: int, days: int = LOOK_BACK) -> list[Outing]:
        """Outings of the *days* before the day *on*, newest first."""
        found = []
        for each in reversed(self.outings):
            if each.on < on - days:
                break
            if each.on < on:
                found.append(each)
        return found

    def longest(self, on: int, days: int = LOOK_BACK) -> int:
        """Seconds of the longest outing of the *days* before *on*; in the first *days* what was said counts too."""
        said = first_session(self.profile) if on - self.begin < days else 0
        return max([said, *(each.seconds for each in self.back(on, days))])

    def best_run(self, on: int, days: int = LOOK_BACK) -> int:
        """Most seconds of running in one outing of the *days* before *on*, `jog_min` too in the first *days*."""
        said = seconds_of(self.profile.jog_min) if on - self.begin < days else 0
        return max([said, *(each.run for each in self.back(on, days))])

    def highest_week(self, number: int) -> int:
        """Seconds of the highest of the four weeks before, `week_min` as one of them in the first four."""
        said = seconds_of(self.profile.week_min) if number <= 4 else 0
        return max([said, *(self.totals.get(each, 0) for each in range(max(1, number - 4), number))])

    def run_week(self, number: int) -> int:
        """Seconds of running in the higher of the two weeks before; `jog_min` for each day in the first two."""
        said = seconds_of(self.profile.jog_min) * self.days if number <= 2 else 0
        return max([said, *(self.runs.get(each, 0) for each in range(max(1, number - 2), number))])
