"""A coach's change of a session: tried out on the whole plan first, so that what is told is what stands."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from bot.conversation.agenda import is_red, is_settled
from bot.conversation.coach.orders import Drop, Ease, HoldWeek, Make, Move
from bot.conversation.known import Known, Whole
from planning import replan
from planning.safety import screen
from planning.step import move, resize, step_down
from planning.step.cap import Cap, under
from planning.terms.choices import Purpose
from planning.terms.entry import Fixed
from planning.terms.person import Profile
from planning.terms.plan import Session
from planning.terms.reasons import Reason

WEEK = timedelta(days=7)
WALKED = Cap(runs=False)


@dataclass(frozen=True, slots=True)
class Change:
    """What comes of it: sessions as they stand now (none: nothing changed), the sentence that says so, the reasons.

    *session*: the one that the sentence speaks of.
    """

    words: str
    fixed: tuple[Fixed, ...] = ()
    session: Session | None = None
    why: tuple[Reason, ...] = (Reason.COACH_ASKED,)


@dataclass(frozen=True, slots=True)
class Trial:
    """The runner, the whole plan and today (their local date), for trying out changes."""

    known: Known
    profile: Profile
    whole: Whole
    today: date

    def stands(self, *fixed: Fixed) -> bool:
        """Whether the plan made anew keeps all of these."""
        changed = {each.on: each for each in (*self.whole.history.fixed, *fixed)}
        history = replace(self.whole.history, fixed=tuple(changed[on] for on in sorted(changed)))
        there = {each.on: each for each in replan(self.profile, history, self.today, self.whole.plan).sessions}
        wanted = {each.on: None for each in fixed} | {each.session.on: each.session for each in fixed if each.session}
        return all(there.get(on) == session for on, session in wanted.items())

    def planned(self, on: date | None) -> Session | None:
        """The session of that day, as long as nothing was said of it; without a day the next one."""
        coming = (each for each in self.whole.plan.sessions if each.on >= self.today)
        open_ones = (each for each in coming if not is_settled(self.known, each.on))
        return next((each for each in open_ones if on is None or each.on == on), None)


def changed(trial: Trial, deed: HoldWeek | Make | Drop | Ease | Move) -> Change:
    """What the coach's wish comes to within the limits."""
    known, profile = trial.known, trial.profile
    if known.holds or is_red(known) or not screen(profile.screen, profile.cleared).may_start:
        return Change("coach_on_hold", why=(Reason.STANDING_RED,))
    if isinstance(deed, HoldWeek):
        return _held(trial)
    session = trial.planned(deed.on)
    if deed.on is not None and deed.on < trial.today:
        return Change("coach_past", why=(Reason.DAY_IS_OVER,))
    if session is not None and session.purpose is Purpose.RACE:
        return Change("coach_race", why=(Reason.AS_PLANNED,))
    if isinstance(deed, Make):
        return _made(trial, deed, session)
    return Change("coach_nothing_there", why=(Reason.AS_PLANNED,)) if session is None else _other(trial, deed, session)


def _other(trial: Trial, deed: Drop | Ease | Move, session: Session) -> Change:
    match deed:
        case Drop():
            return _if_it_stands(trial, Change("coach_dropped", (Fixed(session.on, None),), session))
        case Ease():
            step = step_down(session)
            return _if_it_stands(trial, Change("coach_made", (Fixed(session.on, step.session),), step.session))
        case Move(to=to):
            return _moved(trial, session, to)


def _if_it_stands(trial: Trial, change: Change) -> Change:
    if trial.stands(*change.fixed):
        return change
    return Change("coach_refused", session=change.session, why=(Reason.GROWTH_LIMIT,))


def _moved(trial: Trial, session: Session, to: date) -> Change:
    found = move(trial.known.sessions, session, to, None, trial.profile.days, trial.today)
    if found.session is None:
        return Change("coach_not_moved", session=session, why=found.why)
    dropped = tuple(Fixed(each.on, None) for each in found.dropped if each.on != found.session.on)
    fixed = (Fixed(session.on, found.session), *dropped)
    return _if_it_stands(trial, Change("coach_made", fixed, found.session, (Reason.COACH_ASKED, *found.why)))


def _made(trial: Trial, deed: Make, session: Session | None) -> Change:
    """As wished; else walked; else as long as the limits allow; else as it was."""
    base = session or _blank(trial, deed.on)
    if base is None:
        return Change("coach_nothing_there", why=(Reason.AS_PLANNED,))
    wished = _as_wished(base, deed)
    if trial.stands(Fixed(base.on, wished)):
        return Change("coach_made", (Fixed(base.on, wished),), wished)
    walked = under(wished, WALKED)
    least = session.seconds // 60 if session else 0
    for minutes in _from_most(trial, walked, least):
        trimmed = resize(walked, minutes).session
        if trimmed != session:
            return Change("coach_trimmed", (Fixed(base.on, trimmed),), trimmed, TRIMMED)
    return Change("coach_refused", session=session or wished, why=(Reason.GROWTH_LIMIT,))


TRIMMED = (Reason.COACH_ASKED, Reason.GROWTH_LIMIT)


def _from_most(trial: Trial, session: Session, least: int) -> tuple[int, ...]:
    """The most minutes of *session* above *least* that the limits allow, found by halving; empty if there are none."""
    low, high = least, session.seconds // 60
    if trial.stands(Fixed(session.on, session)):
        return (high,)
    while high - low > 1:
        middle = (low + high) // 2
        fits = trial.stands(Fixed(session.on, resize(session, middle).session))
        low, high = (middle, high) if fits else (low, middle)
    return (low,) if low > least else ()


def _as_wished(base: Session, deed: Make) -> Session:
    if deed.segments:
        return replace(base, segments=deed.segments)
    minutes = deed.minutes or 0
    if minutes * 60 <= base.seconds:
        return resize(base, minutes).session
    longest = max(range(len(base.segments)), key=lambda place: base.segments[place].seconds)
    more = round(minutes * 60) - base.seconds
    segments = tuple(
        replace(each, seconds=each.seconds + more) if place == longest else each
        for place, each in enumerate(base.segments)
    )
    return replace(base, segments=segments)


def _blank(trial: Trial, on: date | None) -> Session | None:
    """A session for a day that holds none, at that day's usual time, like the next easy one."""
    like = next((each for each in trial.whole.plan.sessions if each.on >= trial.today and each.segments), None)
    if on is None or like is None or is_settled(trial.known, on):
        return None
    usual = {int(each.day): each.at for each in trial.profile.days}
    return replace(like, on=on, at=usual.get(on.weekday(), like.at), purpose=Purpose.EASY)


def _held(trial: Trial) -> Change:
    """What is left of this week stays no larger than last week: the largest as the largest, and so on in turn."""
    monday = trial.today - timedelta(days=trial.today.weekday())
    this, last = _week(trial, monday), _week(trial, monday - WEEK)
    pairs = zip(this, (*last, *last[-1:] * len(this)), strict=False) if last else ((each, each) for each in this)
    kept = {each.on: _no_larger(each, before) for each, before in pairs}
    left = sorted(on for on in kept if on >= trial.today and not is_settled(trial.known, on))
    if not left:
        return Change("coach_nothing_there", why=(Reason.AS_PLANNED,))
    return _if_it_stands(trial, Change("coach_held", tuple(Fixed(on, kept[on]) for on in left), kept[left[0]]))


def _week(trial: Trial, monday: date) -> tuple[Session, ...]:
    """The sessions of a week without a race, the largest first."""
    sessions = (each for each in trial.whole.plan.sessions if monday <= each.on < monday + WEEK)
    training = (each for each in sessions if each.purpose is not Purpose.RACE)
    return tuple(sorted(training, key=lambda each: (each.seconds, each.run_seconds), reverse=True))


def _no_larger(session: Session, before: Session) -> Session:
    """*session*, or the one *before* in its place where that had fewer minutes or less running."""
    if session.seconds <= before.seconds and session.run_seconds <= before.run_seconds:
        return session
    if session.seconds <= before.seconds:
        return under(session, WALKED)
    less = replace(session, segments=before.segments, effort=min(session.effort, before.effort))
    return less if less.run_seconds <= session.run_seconds else under(less, WALKED)
