"""What falls due next for one person: a function of what is known, computed anew after each turn."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta
from functools import lru_cache

from bot.conversation.coach_agenda import dues
from bot.conversation.events import Due, DueKind
from bot.conversation.known import Known, Rule
from planning.calendar import instant as reckoned
from planning.calendar import is_quiet, local
from planning.terms.choices import Colour, Danger, Purpose, Role
from planning.terms.entry import Break
from planning.terms.person import Profile
from planning.terms.plan import Session

instant = lru_cache(maxsize=4096)(reckoned)
"""The hours of many people are the same, and the same ones are looked for after every reply."""

ORDER = {kind: place for place, kind in enumerate(DueKind)}
"""Which kind goes first when two fall due at one instant."""

BED, WAKE, NUDGE = time(22), time(5), time(19, 30)
FOLLOW_UP = time(10)
REVIEW = time(18)
FOUR_WEEKS = timedelta(weeks=4)
NUDGE_AFTER = timedelta(hours=2)
"""A nudge closer to the push than this is left out."""

SILENCE = ((84, None), (28, 14), (7, 7))
"""Days without a word, and how many days then lie between two messages; None: no more of them."""

SILENT = 7
"""From so many days without a word on nothing but the few messages above goes out."""

CARE = frozenset({Danger.SELF_HARM, Danger.EATING})


@dataclass(frozen=True, slots=True)
class Appointment:
    """Something due at a UTC instant."""

    at: datetime
    due: Due


def agenda(known: Known, swept: datetime | None = None) -> tuple[Appointment, ...]:
    """The next appointment of each kind. Empty for somebody who isn't enrolled or whose clock hasn't started.

    *swept*: UTC instant up to which all was done; what would lie before it (a push held up until now) is left out.
    """
    profile = known.profile
    if profile is None or known.since is None:
        return ()
    since = max(known.since, swept) if swept else known.since
    known = replace(known, since=since)
    if profile.role is Role.COACH:
        return tuple(Appointment(at, due) for at, due in dues(known, profile, since))
    parts = (_close, _home, _count, _follow_up, _push, _evening, _nudge, _review)
    found = (each for part in parts for each in part(known, profile))
    return tuple(each for each in found if each.at >= since)


def bed_of(profile: Profile) -> time:
    """The local time after which nothing but answers and danger goes out."""
    return profile.bed or BED


def in_break(breaks: tuple[Break, ...], day: date) -> bool:
    """Whether *day* is one of the days off."""
    return any(each.first <= day and (each.last is None or day <= each.last) for each in breaks)


def is_red(known: Known) -> bool:
    """Whether a red flag stands."""
    return any(flag.colour is Colour.RED and flag.cleared_on is None for flag in known.flags)


def is_settled(known: Known, day: date) -> bool:
    """Whether the session planned for *day* was done, missed or closed."""
    return any(entry.planned_on == day for entry in known.entries)


def pushed_at(known: Known, profile: Profile, day: date) -> datetime | None:
    """When the session of *day* was sent, by plan; None if nothing is planned for that day."""
    session = next((each for each in known.sessions if each.on == day), None)
    return None if session is None else instant(day, session.at, profile.tz)


def _after(day: date | None, mark: date | None) -> bool:
    return day is not None and (mark is None or day > mark)


def _push(known: Known, profile: Profile) -> Iterator[Appointment]:
    if known.holds or is_red(known):
        return
    if known.snooze and not is_settled(known, known.snooze.on):
        yield Appointment(known.snooze.at, Due(DueKind.PUSH, known.snooze.on, known.snooze.ordinal))
        return
    for session in known.sessions:
        if not _may_push(known, profile, session):
            continue
        at = instant(session.on, session.at, profile.tz)
        if known.since is not None and at >= known.since:
            yield Appointment(at, Due(DueKind.PUSH, session.on))
            return


def _may_push(known: Known, profile: Profile, session: Session) -> bool:
    if not _after(session.on, known.marks.pushed_on) or is_settled(known, session.on):
        return False
    return not in_break(known.breaks, session.on) and _speaks_up(known, profile, session)


def _speaks_up(known: Known, profile: Profile, session: Session) -> bool:
    """Whether a message may go out although nothing was heard for a long time. A race is always told."""
    if known.marks.pushed_on is None or session.purpose is Purpose.RACE:
        return True
    gap = _gap(_silent_days(known, profile, session.on))
    return gap is not None and (session.on - known.marks.pushed_on).days >= gap


def _gap(silent: int) -> int | None:
    """Days between two messages after so many silent ones; None: no more of them."""
    return next((gap for days, gap in SILENCE if silent >= days), 0)


def _silent_days(known: Known, profile: Profile, day: date) -> int:
    heard = known.marks.heard_at or known.since
    return 0 if heard is None else (day - local(heard, profile.tz).date()).days


def _nudge(known: Known, profile: Profile) -> Iterator[Appointment]:
    day = None if Rule.NUDGE in known.marks.left_out else known.marks.pushed_on
    if day is None or not _after(day, known.marks.nudged_on) or is_settled(known, day) or _unwanted(known, day):
        return
    if _silent_days(known, profile, day) >= SILENT or _bad_day(known) == day:
        return
    pushed = pushed_at(known, profile, day)
    heard = known.marks.heard_at
    if pushed is None or (heard is not None and heard >= pushed):
        return
    at = instant(day, profile.nudge or NUDGE, profile.tz)
    if at >= pushed + NUDGE_AFTER and not is_quiet(local(at, profile.tz).time(), bed_of(profile), profile.wake or WAKE):
        yield Appointment(at, Due(DueKind.NUDGE, day))


def _unwanted(known: Known, day: date) -> bool:
    return bool(known.holds) or is_red(known) or in_break(known.breaks, day)


def _close(known: Known, profile: Profile) -> Iterator[Appointment]:
    day = known.marks.pushed_on
    if day is not None and _after(day, known.marks.closed_on) and not is_settled(known, day):
        yield Appointment(instant(day + timedelta(days=1), time(0), profile.tz), Due(DueKind.CLOSE, day))


def _count(known: Known, _profile: Profile) -> Iterator[Appointment]:
    """The next change of a live count."""
    count = known.marks.count
    if count is not None and not _unwanted(known, count.on):
        yield Appointment(count.ends_at(count.told), Due(DueKind.COUNT, count.on, count.told))


def _evening(known: Known, profile: Profile) -> Iterator[Appointment]:
    """After an amber flag or a session that went badly: one question in the evening, two hours later at the soonest."""
    day = _bad_day(known)
    heard = known.marks.heard_at
    if day is None or heard is None or not _after(day, known.marks.evening_on) or _unwanted(known, day):
        return
    at = max(instant(day, profile.nudge or NUDGE, profile.tz), heard + NUDGE_AFTER)
    here = local(at, profile.tz)
    if here.date() == day and not is_quiet(here.time(), bed_of(profile), profile.wake or WAKE):
        yield Appointment(at, Due(DueKind.EVENING, day))


def _bad_day(known: Known) -> date | None:
    """The last day of an amber flag that stands, or of a session that went badly."""
    ambers = (flag.since for flag in known.flags if flag.colour is Colour.AMBER and flag.cleared_on is None)
    rescued = known.marks.rescued_on
    return max((*ambers, *((rescued,) if rescued else ())), default=None)


def _home(known: Known, profile: Profile) -> Iterator[Appointment]:
    """The end of a stay elsewhere: midnight there, or the first session of the day after by the clock of home."""
    journey = known.marks.journey
    if journey is None or journey.until is None:
        return
    day = journey.until + timedelta(days=1)
    session = next((each for each in known.sessions if each.on == day), None)
    first = instant(day, session.at, journey.home) if session else None
    at = instant(day, time(0), profile.tz)
    yield Appointment(min(at, first) if first else at, Due(DueKind.HOME, day))


def _follow_up(known: Known, profile: Profile) -> Iterator[Appointment]:
    days = tuple(_days_to_ask(known))
    gap = _gap(_silent_days(known, profile, min(days))) if days else None
    last = known.marks.followed_on
    if days and gap is not None and (last is None or (min(days) - last).days >= gap):
        at = max(FOLLOW_UP, profile.wake or WAKE)
        yield Appointment(instant(min(days), at, profile.tz), Due(DueKind.FOLLOW_UP, min(days)))


def _review(known: Known, profile: Profile) -> Iterator[Appointment]:
    """Each fourth Sunday, counted from the first whole week; not on hold, nor for a silence that is over."""
    if known.holds or known.since is None:
        return
    first = profile.begin + timedelta(days=(7 - profile.begin.weekday()) % 7 + 27)
    after = max(
        known.marks.reviewed_on or first - timedelta(days=1), local(known.since, profile.tz).date() - FOUR_WEEKS
    )
    sunday = first
    soonest = max(known.since, known.marks.heard_at or known.since)
    while sunday <= after or (at := instant(sunday, REVIEW, profile.tz)) < soonest:
        sunday += FOUR_WEEKS
    if not in_break(known.breaks, sunday) and _silent_days(known, profile, sunday) < SILENT:
        yield Appointment(at, Due(DueKind.REVIEW, sunday))


def _days_to_ask(known: Known) -> Iterator[date]:
    """Local dates on which somebody is asked how it is now; with a session on that day it is asked together with it."""
    followed = known.marks.followed_on
    for hold in known.holds:
        day = hold.since + timedelta(days=2 if CARE & set(hold.codes) else 1)
        if _after(day, followed):
            yield day
    for flag in known.flags:
        if flag.cleared_on is not None:
            continue
        next_day = flag.since + timedelta(days=1)
        red = flag.colour is Colour.RED
        day = max(next_day, followed + timedelta(days=1)) if red and followed else next_day
        if _after(day, followed) and (red or not any(each.on == day for each in known.sessions)):
            yield day
