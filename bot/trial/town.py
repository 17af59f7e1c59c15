"""Some people and the bot on one clock: what falls due and what is written, in order."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from heapq import heappop, heappush

from bot.conversation.known import Rule
from bot.conversation.says import Kind
from bot.messages import Outgoing
from bot.trial.life import Life, OneWeek
from bot.trial.person import Person, Reply, first_word, hear
from bot.trial.start import BEGIN, begins, name_of
from bot.trial.talk import Talk
from bot.trial.told import Told, told_by
from planning.calendar import local

BEFORE = datetime.combine(BEGIN - timedelta(days=1), time(6), UTC)
"""When all are enrolled: before the first day in every zone."""

GRAVE = frozenset({Kind.URGENT, Kind.CARE})


@dataclass(frozen=True, slots=True)
class Task:
    """People to follow, by number, for so many weeks; *left_out*: rules by which they aren't spoken to."""

    seed: int
    numbers: tuple[int, ...]
    weeks: int
    left_out: tuple[Rule, ...] = ()


Watch = Callable[[str, Told], object]
"""Is shown each message and to whom it goes."""


def follow(task: Task, watch: Watch = lambda _who, _told: None) -> tuple[Life, ...]:
    """The lives of the people of *task*. Each of them is the same, whoever else is followed with them."""
    town = Town(task, watch)
    for week in range(task.weeks):
        town.live_week(week)
    return town.close()


class Town:
    """The people of one task, with a bot of their own."""

    def __init__(self, task: Task, watch: Watch) -> None:
        """Everybody is enrolled, and says how sure they are of the first session."""
        self.task, self.watch = task, watch
        self.replies: list[tuple[datetime, str, int, Reply]] = []
        self.count = 0
        self.people = {name_of(number): _person(task.seed, number) for number in task.numbers}
        self.weeks = {who: [OneWeek() for _ in range(task.weeks)] for who in self.people}
        self.talk = Talk((each.profile for each in self.people.values()), BEFORE, task.left_out)
        for who, person in self.people.items():
            self._expect(who, (first_word(person, BEFORE + timedelta(minutes=5)),))

    def live_week(self, week: int) -> None:
        """All that happens up to the end of one week, counted from 0."""
        while self._step(self.week_end(week)):
            pass
        for who, person in self.people.items():
            self.weeks[who][week].going = person.going

    def week_end(self, week: int) -> datetime:
        """The UTC instant at which a week is over in every zone."""
        return BEFORE + timedelta(weeks=week + 1, days=1)

    def close(self) -> tuple[Life, ...]:
        """The lives, with all that was really done; the records end."""
        self.talk.close()
        for who, person in self.people.items():
            for outing in person.outings:
                week = self._week(who, outing.on)
                week.minutes += outing.minutes
                week.done += 1
        return tuple(Life(each.number, tuple(self.weeks[who])) for who, each in self.people.items())

    def _step(self, until: datetime) -> bool:
        """The next thing by *until*: something falls due, or somebody writes. False: there is nothing more."""
        reply_at = self.replies[0][0] if self.replies else until
        messages = self.talk.next_due(min(until, reply_at))
        if messages is None:
            if not self.replies or reply_at > until:
                return False
            messages = self._say(*heappop(self.replies))
        for message in messages:
            self._arrive(message)
        return True

    def _say(self, at: datetime, who: str, number: int, reply: Reply) -> tuple[Outgoing, ...]:
        if reply.returns:
            self.people[who].going = True
        return self.talk.say(who, f"{who}-{number}", at, reply.text)

    def _arrive(self, message: Outgoing) -> None:
        told = told_by(message)
        self.watch(message.chat, told)
        self._count(message.chat, told)
        self._expect(message.chat, hear(self.people[message.chat], told))

    def _expect(self, who: str, replies: Iterable[Reply]) -> None:
        for each in replies:
            self.count += 1
            heappush(self.replies, (each.at, who, self.count, each))

    def _count(self, who: str, told: Told) -> None:
        week = self._week(who, local(told.at, self.people[who].profile.tz).date())
        week.planned += told.kind is Kind.TODAY and told.minutes is not None
        week.nudges += told.kind is Kind.NUDGE
        week.grave += not GRAVE.isdisjoint(told.kinds)

    def _week(self, who: str, day: date) -> OneWeek:
        """The week of that day; what lies outside of the weeks that are followed is counted nowhere."""
        place = (day - BEGIN).days // 7
        return self.weeks[who][place] if 0 <= place < self.task.weeks else OneWeek()


def _person(seed: int, number: int) -> Person:
    nature, profile = begins(seed, number)
    return Person(seed, number, nature, profile)
