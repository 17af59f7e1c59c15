"""Random years of somebody's life, by a seed: what was done, missed, moved, and what hurt."""

import random
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

from planning.terms.choices import Activity, Colour, Do, Part, Purpose
from planning.terms.entry import Break, Entry, Fixed, Flag, History, Status
from planning.terms.plan import Plan, Segment, Session

KINDS = (None, Activity.SESSION, Activity.WALK, Activity.RUN_WALK)


def as_planned(plan: Plan, first: date, after: date) -> tuple[Entry, ...]:
    """Entries of somebody who does all that is planned from *first* to before *after*."""
    return tuple(done(each) for each in training(plan, first, after))


def training(plan: Plan, first: date, after: date) -> list[Session]:
    """Sessions from *first* to before *after*, races left out."""
    return [each for each in plan.sessions if first <= each.on < after and each.purpose is not Purpose.RACE]


def done(session: Session, **said: object) -> Entry:
    """The entry of a session done as planned, with what else was *said*."""
    known: dict[str, object] = {
        "kind": Activity.SESSION,
        "minutes": session.minutes,
        "planned_on": session.on,
        "effort": 3,
    }
    return Entry(session.on, Status.DONE, **(known | said))  # type: ignore[arg-type]


@dataclass
class Life:
    """A life that goes on in steps of days; *luck*: how many sessions are done."""

    dice: random.Random
    luck: float
    history: History = field(default_factory=History)

    def live(self, plan: Plan, first: date, after: date) -> None:
        """What happens from *first* to before *after*."""
        entries = [self.entry(each) for each in training(plan, first, after)]
        self.history = replace(self.history, entries=(*self.history.entries, *entries))
        self.hurt(after)
        if self.dice.random() < 0.04:
            days = self.dice.choice((2, 5, 9, 16, 30))
            off = Break(after, after + timedelta(days=days), fever=self.dice.random() < 0.3)
            self.history = replace(self.history, breaks=(*self.history.breaks, off))
        if self.dice.random() < 0.1:
            self.history = replace(self.history, fixed=(*self.history.fixed, *self.change(plan, after)))

    def entry(self, session: Session) -> Entry:
        """One session done, in part, beyond, or not."""
        if self.dice.random() > self.luck:
            return Entry(session.on, self.dice.choice((Status.MISSED, Status.NO_WORD)), planned_on=session.on)
        minutes = session.minutes * self.dice.choice((1, 1, 0.5, 1.6))
        effort = self.dice.choice((None, 2, 3, 5, 7, 9))
        return done(session, minutes=minutes, effort=effort, kind=self.dice.choice(KINDS))

    def hurt(self, today: date) -> None:
        """Flags that rise and clear."""
        flags = [each for each in self.history.flags if each.cleared_on]
        flags += [
            replace(each, cleared_on=today) if self.dice.random() < 0.4 else each
            for each in self.history.flags
            if each.cleared_on is None
        ]
        if self.dice.random() < 0.06:
            colour = self.dice.choice((Colour.AMBER, Colour.RED))
            flags.append(Flag(Part.KNEE, None, colour, today - timedelta(days=1)))
        self.history = replace(self.history, flags=tuple(flags))

    def change(self, plan: Plan, today: date) -> tuple[Fixed, ...]:
        """A session dropped, changed or moved."""
        ahead = training(plan, today, today + timedelta(days=9))
        if not ahead:
            return ()
        session = self.dice.choice(ahead)
        what = self.dice.choice(("drop", "change", "move"))
        if what == "change":
            walk = Segment(Do.WALK, self.dice.choice((600, 900, 3600, 9000)))
            return (Fixed(session.on, replace(session, segments=(walk,))),)
        to = session.on + timedelta(days=self.dice.choice((-1, 1, 2)))
        if what == "drop" or to < today or to in {each.on for each in plan.sessions}:
            return (Fixed(session.on, None),)
        return (Fixed(session.on, None), Fixed(to, replace(session, on=to)))
