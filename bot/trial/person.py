"""How somebody behaves: a model of our own making, with numbers that nobody measured. It says nothing of real people.

Somebody goes out or not by how ready they are: by nature, keenness, weekday, weather, the length of the session, what
is sore, what was missed. What the bot says acts on that: a session made smaller, an answer, a nudge too many.
"""

from dataclasses import dataclass, field
from datetime import date, datetime, time, timedelta
from math import exp

from bot.conversation.says import Asks, Kind
from bot.trial.data import Nature, answers, parts, phrases
from bot.trial.luck import Luck, luck_of
from bot.trial.told import Told
from planning.calendar import instant, local
from planning.terms.person import Profile

ILL, DANGER = 0.006, 0.0008
"""How often a day of a session brings an illness, and how often an outing brings a sign of danger."""

PARTLY, DOUBTS = 0.25, 0.25
"""How often an outing ends early, and how often a daunting one is met with doubt."""

ASKS_FOR_BREAK, CLEARED, RETURNS = 0.3, 0.8, 0.04
"""Of those who give up: how many ask for a break. After danger: how many are cleared. Of messages to people who have
given up: how many bring them back."""

RAIN = {12: 0.35, 1: 0.35, 2: 0.3, 3: 0.3, 10: 0.3, 11: 0.35}
USUAL_RAIN = 0.2
BAD_WEATHER, A_MINUTE, AN_ACHE, A_MISS = 0.7, 0.025, 0.35, 0.15
"""What takes readiness away: bad weather, each minute beyond the daunting ones, each point of pain, each miss."""

KEENER = {Kind.LOGGED: 0.01, Kind.SHRUNK: 0.06, Kind.REVIEW: 0.04}
"""What a message alone does for keenness: to be seen, to be given less, to see four weeks."""

ALL_OF_IT, PART_OF_IT, TOO_HARD, MISSED, FELL_ILL, NUDGED = 0.06, 0.02, -0.06, -0.08, -0.1, -0.006
"""What it does for keenness: to have done all or a part, to find it too hard, to miss one, to be ill; and a nudge, once
for each in the last fortnight."""

WEARS_OFF = 0.85
"""What is left of the power of a nudge with each one more in a fortnight."""

LEAST_KEEN, MOST_KEEN = -2.0, 1.2
BEDTIME = time(22, 30)
FORTNIGHT = timedelta(days=14)


@dataclass(frozen=True, slots=True)
class Reply:
    """What is going to be written, and at which UTC instant. *returns*: they are back with it."""

    at: datetime
    text: str
    returns: bool = False


@dataclass(frozen=True, slots=True)
class Outing:
    """What was really done, whether it was said or not."""

    on: date
    minutes: float


@dataclass(frozen=True, slots=True)
class Ache:
    """Something sore: part, level of 10, the day on which it is over."""

    part: str
    level: int
    over_on: date


@dataclass(slots=True)
class Person:
    """One invented person in the course of the weeks."""

    seed: int
    number: int
    nature: Nature
    profile: Profile
    going: bool = True
    keen: float = 0.0
    keen_on: date | None = None
    misses: int = 0
    effort: int = 3
    ache: Ache | None = None
    doubts: bool = False
    unsaid: float | None = None
    """Minutes of an outing of today of which nothing was said."""
    open_on: date | None = None
    """The day of a session that neither happened nor was called off."""
    nudges: tuple[date, ...] = ()
    answered: tuple[date, Asks] | None = None
    """The last question that was answered: the same one again on that day is not."""
    outings: list[Outing] = field(default_factory=list)

    def feel(self, change: float) -> None:
        """Keenness moves."""
        self.keen = min(MOST_KEEN, max(LEAST_KEEN, self.keen + change))

    def write(self, name: str, luck: Luck, **values: object) -> str:
        """One of the ways to say something."""
        return pick(phrases(name), luck).format(**values)


@dataclass(frozen=True, slots=True)
class Moment:
    """A message reaches somebody: the message, their own date and clock, the luck of the day."""

    told: Told
    here: datetime
    luck: Luck

    @property
    def today(self) -> date:
        """Their local date."""
        return self.here.date()

    def after(self, minutes: float) -> datetime:
        """The UTC instant so many minutes later."""
        return self.told.at + timedelta(minutes=minutes)


def pick(ways: tuple[str, ...], luck: Luck) -> str:
    """One of several ways."""
    return ways[int(luck.pick * len(ways))]


def first_word(person: Person, at: datetime) -> Reply:
    """How sure they are of the first session, as everybody is asked at the end of the survey."""
    luck = luck_of(person.seed, person.number, local(at, person.profile.tz).date())
    return Reply(at, person.write("unsure", luck, level=4 + int(luck.doubt * 6)))


def hear(person: Person, told: Told) -> tuple[Reply, ...]:
    """What somebody does and writes after a message."""
    here = local(told.at, person.profile.tz)
    moment = Moment(told, here, luck_of(person.seed, person.number, here.date()))
    _pass_time(person, moment)
    if not person.going:
        return _come_back(person, moment) if told.kind is Kind.TODAY else ()
    person.feel(_pleased(told))
    healed = _heal(person, moment)
    if told.kind is Kind.NUDGE:
        return (*healed, *_nudged(person, moment))
    if told.kind is Kind.TODAY:
        return (*healed, *_answer(person, moment), *_pushed(person, moment))
    if person.doubts and told.minutes is not None:
        person.doubts = False
        return (*healed, *_answer(person, moment), *_decide(person, moment, told.minutes))
    return (*healed, *_answer(person, moment))


def _pass_time(person: Person, moment: Moment) -> None:
    """Keenness cools, and yesterday's sessions are past."""
    days = (moment.today - person.keen_on).days if person.keen_on else 0
    person.keen_on = moment.today
    person.feel(-person.nature.cools * days / 7)
    if days:
        person.unsaid, person.doubts = None, False


def _pleased(told: Told) -> float:
    """What the message alone does for keenness."""
    return sum(KEENER.get(kind, 0) for kind in told.kinds)


def _heal(person: Person, moment: Moment) -> tuple[Reply, ...]:
    ache = person.ache
    if ache is None or moment.today < ache.over_on:
        return ()
    person.ache = None
    if moment.luck.answers > person.nature.answers or moment.told.asks is Asks.NEXT_MORNING:
        return ()
    return (Reply(moment.after(2), person.write("clear", moment.luck, part=ache.part)),)


def _come_back(person: Person, moment: Moment) -> tuple[Reply, ...]:
    """Now and then a message finds somebody who had given up."""
    if moment.luck.returns > RETURNS:
        return ()
    person.going, person.keen, person.misses = True, 0.0, 0
    return _pushed(person, moment)


def _pushed(person: Person, moment: Moment) -> tuple[Reply, ...]:
    """The session of the day: given up, ill, in doubt, or decided at once."""
    minutes = moment.told.minutes or 0
    if moment.luck.quits < person.nature.quits * exp(-1.5 * person.keen) * (1 + 0.4 * person.misses):
        return _give_up(person, moment)
    if moment.luck.ill < ILL:
        return _fall_ill(person, moment)
    if minutes > person.nature.daunting and moment.luck.doubt < DOUBTS and Kind.SHRUNK not in moment.told.kinds:
        person.doubts = True
        level = 3 + int(4 * moment.luck.doubt / DOUBTS)
        return (Reply(moment.after(5), person.write("unsure", moment.luck, level=level)),)
    return _decide(person, moment, minutes)


def _give_up(person: Person, moment: Moment) -> tuple[Reply, ...]:
    """Most go without a word; some ask for a break and are back from it one day."""
    person.going = False
    if moment.luck.returns > ASKS_FOR_BREAK:
        return ()
    back = moment.after(60 * 24 * (10 + 30 * moment.luck.late))
    said = Reply(moment.after(30), person.write("pause", moment.luck))
    return (said, Reply(back, person.write("back", moment.luck), returns=True))


def _fall_ill(person: Person, moment: Moment) -> tuple[Reply, ...]:
    person.feel(FELL_ILL)
    over = moment.after(60 * 24 * (3 + 6 * moment.luck.late))
    said = Reply(moment.after(30), person.write("ill", moment.luck))
    return (said, Reply(over, person.write("well", moment.luck)))


def readiness(person: Person, moment: Moment, minutes: float) -> float:
    """The chance that somebody goes out for so many minutes today."""
    nature = person.nature
    odds = nature.drive + person.keen - A_MISS * person.misses - A_MINUTE * (minutes - nature.daunting)
    odds += nature.weekend if moment.today.weekday() >= 5 else 0
    odds -= BAD_WEATHER if moment.luck.weather < RAIN.get(moment.today.month, USUAL_RAIN) else 0
    odds -= AN_ACHE * person.ache.level if person.ache else 0
    return 1 / (1 + exp(-odds))


def _decide(person: Person, moment: Moment, minutes: float) -> tuple[Reply, ...]:
    if moment.luck.go < readiness(person, moment, minutes):
        bed = instant(moment.today, BEDTIME, person.profile.tz)
        left = max(10.0, (bed - moment.told.at).total_seconds() / 60 - minutes)
        return _go(person, moment, minutes, moment.luck.late**2 * left)
    person.misses += 1
    person.feel(MISSED)
    if moment.luck.owns_up < person.nature.owns_up:
        return (Reply(moment.after(20 + 120 * moment.luck.late), person.write("skip", moment.luck)),)
    person.open_on = moment.today
    return ()


def _go(person: Person, moment: Moment, minutes: float, wait: float) -> tuple[Reply, ...]:
    """Out they go, all of the way or a part of it."""
    luck, nature = moment.luck, person.nature
    done = round(minutes * (1 if luck.amount > PARTLY else 0.4 + 0.5 * luck.amount / PARTLY))
    person.outings.append(Outing(moment.today, done))
    person.misses, person.open_on = 0, None
    person.effort = min(10, 2 + int(luck.effort * 4) + (2 if minutes > nature.daunting else 0))
    person.feel((ALL_OF_IT if done >= minutes else PART_OF_IT) * (1 - person.keen))
    person.feel(TOO_HARD if person.effort >= 7 else 0)
    at = moment.after(wait + done + 5)
    if luck.danger < DANGER:
        return _in_danger(person, moment, at)
    said = "" if person.ache or luck.aches > nature.aches * done / 30 else _get_sore(person, moment)
    if luck.tells > nature.talks and not said:
        person.unsaid = done
        return ()
    text = person.write("done" if done >= minutes else "part", luck, minutes=int(done))
    return (Reply(at, text), *((Reply(at + timedelta(minutes=3), said),) if said else ()))


def _get_sore(person: Person, moment: Moment) -> str:
    level = 2 + int(moment.luck.ache**2 * 5)
    person.ache = Ache(pick(parts(), moment.luck), level, moment.today + timedelta(days=1 + level))
    return person.write("sore", moment.luck, part=person.ache.part, level=level)


def _in_danger(person: Person, moment: Moment, at: datetime) -> tuple[Reply, ...]:
    """A sign of danger is told, always; most are cleared after some days, the others don't come back."""
    said = Reply(at, person.write("danger", moment.luck))
    person.going = False
    if moment.luck.returns > CLEARED:
        return (said,)
    cleared = at + timedelta(days=2 + 9 * moment.luck.late)
    return (said, Reply(cleared, person.write("cleared", moment.luck), returns=True))


def _nudged(person: Person, moment: Moment) -> tuple[Reply, ...]:
    """A nudge moves those who aren't nudged often; each one more in a fortnight costs some keenness."""
    luck, today = moment.luck, moment.today
    person.nudges = (*(each for each in person.nudges if today - each < FORTNIGHT), today)
    often = len(person.nudges)
    person.feel(NUDGED * often)
    moved = person.nature.nudged * WEARS_OFF ** (often - 1)
    if person.unsaid is not None:
        done, person.unsaid = person.unsaid, None
        late = Reply(moment.after(10), person.write("late", luck, minutes=int(done)))
        return (late,) if luck.nudged < person.nature.talks else ()
    if person.open_on != today or luck.nudged > moved:
        return ()
    if luck.nudged < moved / 2:
        return _go(person, moment, moment.told.minutes or 10, 10)
    person.open_on = None
    return (Reply(moment.after(15), person.write("skip", luck)),)


def _answer(person: Person, moment: Moment) -> tuple[Reply, ...]:
    """An answer to the question that the message asks, if they give one."""
    asks, luck = moment.told.asks, moment.luck
    if asks is None or luck.answers > person.nature.answers or person.answered == (moment.today, asks):
        return ()
    person.answered = (moment.today, asks)
    ways = answers(_name_of(person, asks))
    if not ways:
        return ()
    level = {Asks.EFFORT: person.effort, Asks.SURE: 7 + int(luck.doubt * 3)}.get(
        asks, person.ache.level if person.ache else 1
    )
    return (Reply(moment.after(1 + 3 * luck.late), pick(ways, luck).format(level=level)),)


def _name_of(person: Person, asks: Asks) -> str:
    """How the answer is called in the data file: whether it still hurts is a matter of fact."""
    if asks is Asks.NEXT_MORNING:
        return "still" if person.ache else "gone"
    return asks.value
