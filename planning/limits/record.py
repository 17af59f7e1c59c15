"""What counts as done, day by day: the ground that every growth limit stands on."""

from bisect import bisect_left
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from operator import attrgetter
from typing import NamedTuple

from planning.limits.ceilings import (
    FIRST_SESSION,
    FIRST_WEEK,
    LOOK_BACK,
    MOST_DAYS,
    first_session,
    seconds_of,
)
from planning.limits.gaps import ONE_DAY_A_WEEK, SHORTEST_GAP, percent_left
from planning.terms.person import Profile

WALK_OF_THIRTY = 30 * 60
"""Seconds of plain walking that make a day count towards the first running."""
WHOLE = 100
SECONDS, RUN = attrgetter("seconds"), attrgetter("run")
LATELY = 5
NOT_KNOWN = (-1, -1, WHOLE)
FOUR_WEEKS = 34
"""Days back from any day of a week that reach the four weeks before it."""


class Outing(NamedTuple):
    """One outing in numbers. *on*: day as ordinal; the rest in seconds.

    *run*: running in all; *rep*: one run; *bout*: walking between standing rests, 0 without rests; *long*: the long
    session of its week; *held*: its step of the ladder was held, neither too hard nor cut short. A named tuple, since
    hundreds are made for each plan.
    """

    on: int
    seconds: int
    run: int = 0
    rep: int = 0
    bout: int = 0
    long: bool = False
    held: bool = True

    @property
    def walks_thirty(self) -> bool:
        """Plain walking of 30 minutes or more, without runs or rests."""
        return self.run == 0 and self.bout == 0 and self.seconds >= WALK_OF_THIRTY


def shrunk(outing: Outing, percent: int) -> Outing:
    """What *percent* of an outing leave of it."""
    part = outing.seconds * percent // 100, outing.run * percent // 100, outing.rep * percent // 100
    return Outing(outing.on, *part, outing.bout, outing.long, outing.held)


@dataclass(slots=True)
class Record:
    """Outings in order of day, with what a profile says of the time before the first of them.

    Days are ordinals. *monday*: Monday of week 1; *days*: how many days a week `jog_min` counts for; *now*: days before
    it are what really happened, none if it is the beginning; *gaps*: days that ended a gap, each with the percent that
    it left of what came before; *known*: what `left` found last, with the day and the number of outings that it was
    asked for.
    """

    profile: Profile
    begin: int
    monday: int
    days: int
    now: int
    outings: list[Outing] = field(default_factory=list)
    days_out: list[int] = field(default_factory=list)
    gaps: list[tuple[int, int]] = field(default_factory=list)
    totals: dict[int, int] = field(default_factory=dict)
    runs: dict[int, int] = field(default_factory=dict)
    known: tuple[int, int, int] = NOT_KNOWN

    def number(self, on: int) -> int:
        """Number of the week that holds the day *on*."""
        return (on - self.monday) // 7 + 1

    def add(self, outings: Iterable[Outing]) -> None:
        """Count *outings*, which come after all that are there."""
        totals, runs, last = self.totals, self.runs, self.days_out[-1] if self.days_out else self.begin
        for each in outings:
            on, number = each.on, self.number(each.on)
            if on - last >= SHORTEST_GAP and (percent := percent_left(self.gap(on, last))) < WHOLE:
                self.gaps.append((on, percent))
            self.outings.append(each)
            self.days_out.append(on)
            totals[number] = totals.get(number, 0) + each.seconds
            runs[number] = runs.get(number, 0) + each.run
            last = on

    def take_back(self, count: int) -> None:
        """Uncount the last *count* outings."""
        for _ in range(count):
            last = self.outings.pop()
            number = self.number(self.days_out.pop())
            self.totals[number] -= last.seconds
            self.runs[number] -= last.run
            if self.gaps and self.gaps[-1][0] == last.on:
                self.gaps.pop()
        self.known = NOT_KNOWN

    @property
    def count(self) -> int:
        """Sessions of a full week."""
        return min(MOST_DAYS, len(self.profile.days))

    @property
    def has_past(self) -> bool:
        """Something has happened already: what was surely doable at first may be asked for again."""
        return self.now > self.begin

    def gap(self, on: int, before: int) -> int:
        """Days without an outing between the day *before* and *on*, less what is usual."""
        return on - before - ONE_DAY_A_WEEK if self.days == 1 else on - before

    def left(self, on: int) -> int:
        """Percent that the gap before the day *on* leaves of what came before it; all of it if that is no gap."""
        out = self.days_out
        if out and not self.gaps and on - out[-1] < SHORTEST_GAP:
            return WHOLE
        day, count, percent = self.known
        if day != on or count != len(out):
            index = bisect_left(out, on)
            percent = percent_left(self.gap(on, out[index - 1] if index else self.begin))
            self.known = (on, len(out), percent)
        return percent

    def back(self, on: int, days: int = LOOK_BACK) -> list[Outing]:
        """Outings of the *days* before the day *on*, newest first, shrunk by the gaps that came after them."""
        end = bisect_left(self.days_out, on)
        found = self.outings[bisect_left(self.days_out, on - days, 0, end) : end]
        found.reverse()
        left = self.left(on)
        if left == WHOLE and not (self.gaps and self.gaps[-1][0] > on - days):
            return found
        gaps = self.gaps[: bisect_left(self.gaps, (on,))]
        for place, each in enumerate(found):
            while gaps and gaps[-1][0] > each.on:
                left = min(left, gaps.pop()[1])
            if left < WHOLE:
                found[place] = shrunk(each, left)
        return found

    def still_counts(self, said: int, on: int) -> int:
        """What counts on the day *on* of what was *said* of the time before the first day: less after gaps."""
        if not self.gaps and self.left(on) == WHOLE:
            return said
        late = [percent for day, percent in self.gaps if on - LOOK_BACK < day < on]
        return said * min([self.left(on), *late]) // 100

    def session_again(self, on: int) -> int:
        """Seconds of a session that everybody may be asked for on the day *on*, whatever was missed: silence is not
        zero; 0 in a plan without a past."""
        return FIRST_SESSION if self.has_past or self.is_new_start(on) else 0

    def week_again(self, on: int) -> int:
        """Seconds of a week that everybody may be asked for, whatever was missed. *on*: its first outing."""
        return FIRST_WEEK if self.is_new_start(on) else self.session_again(on) * self.count

    def is_new_start(self, on: int) -> bool:
        """Nothing was done for so long before *on* that everything starts anew."""
        return self.left(on) == 0

    def longest(self, on: int) -> int:
        """Seconds of the longest outing of the 30 days before *on*; in the first 30 what was said counts too."""
        said = self.still_counts(first_session(self.profile), on) if on - self.begin < LOOK_BACK else 0
        return max(said, max(map(SECONDS, self.back(on)), default=0))

    def best_run(self, on: int) -> int:
        """Most seconds of running in one outing of the 30 days before *on*, `jog_min` too in the first 30."""
        said = self.still_counts(seconds_of(self.profile.jog_min), on) if on - self.begin < LOOK_BACK else 0
        return max(said, max(map(RUN, self.back(on)), default=0))

    def is_whole(self, on: int, days: int) -> bool:
        """No gap shrinks what was done in the *days* before the day *on*."""
        late = self.gaps and self.gaps[-1][0] > on - days
        return not late and self.left(on) == WHOLE

    def is_small_step(self, on: int, wanted: int, size: Callable[[Outing], int], grow: Callable[[int], int]) -> bool:
        """A step to *wanted* is small above one of the last outings before the day *on*: a quick look that spares the
        search of 30 days. False is no answer."""
        if not self.is_whole(on, LOOK_BACK):
            return False
        end = bisect_left(self.days_out, on)
        for each in self.outings[max(0, end - LATELY) : end]:
            if on - each.on <= LOOK_BACK and grow(size(each)) >= wanted:
                return True
        return False

    def sums(self, weeks: range, on: int, run: bool) -> list[int]:
        """Seconds, or seconds of running, of each of the *weeks* before the day *on*, shrunk by gaps."""
        known = self.runs if run else self.totals
        if self.is_whole(on, FOUR_WEEKS):
            return [known.get(each, 0) for each in weeks]
        sums = dict.fromkeys(weeks, 0)
        for each in self.back(on, FOUR_WEEKS):
            week = self.number(each.on)
            if week in sums:
                sums[week] += each.run if run else each.seconds
        return list(sums.values())

    def highest_week(self, number: int, on: int) -> int:
        """Seconds of the highest of the four weeks before, `week_min` as one of them in the first four.

        *on*: first day with an outing in week *number*, which ends the gap before it.
        """
        said = self.still_counts(seconds_of(self.profile.week_min), on) if number <= 4 else 0
        return max([said, *self.sums(range(max(1, number - 4), number), on, run=False)])

    def run_week(self, number: int, on: int) -> int:
        """Seconds of running in the higher of the two weeks before; `jog_min` for each day in the first two."""
        said = self.still_counts(seconds_of(self.profile.jog_min) * self.days, on) if number <= 2 else 0
        return max([said, *self.sums(range(max(1, number - 2), number), on, run=True)])
