"""What falls due for a coach: grave messages that nobody has seen, and the list on Monday morning."""

from collections.abc import Iterator
from datetime import datetime, time, timedelta

from bot.conversation.events import Due, DueKind
from bot.conversation.known import Known, Notice
from planning.calendar import instant, local
from planning.terms.person import Profile

UNSEEN = timedelta(minutes=30)
MONDAY_AT = time(7)


def dues(known: Known, profile: Profile, since: datetime) -> Iterator[tuple[datetime, Due]]:
    """Instants and what falls due then. *since*: up to there all was done; no message is too old to be passed on."""
    unseen = [each for each in known.notices if may_pass(known, each)]
    if unseen:
        at = max(since, min(passed_at(profile, each) for each in unseen))
        yield at, Due(DueKind.DEPUTY, local(at, profile.tz).date(), at=at)
    monday = local(since, profile.tz).date()
    monday += timedelta(days=-monday.weekday() % 7)
    last = known.marks.digested_on
    while instant(monday, MONDAY_AT, profile.tz) < since or (last is not None and monday <= last):
        monday += timedelta(weeks=1)
    yield instant(monday, MONDAY_AT, profile.tz), Due(DueKind.DIGEST, monday)


def may_pass(known: Known, notice: Notice) -> bool:
    """Whether the message went to this coach, and to nobody else yet."""
    return notice.coach == known.who and notice.passed_to is None


def passed_at(profile: Profile, notice: Notice) -> datetime:
    """At once while the coach is away and somebody stands in, else after half an hour."""
    away = profile.deputy is not None and is_away(profile, notice.at)
    return notice.at if away else notice.at + UNSEEN


def is_away(profile: Profile, now: datetime) -> bool:
    """Whether the coach said to be away."""
    return profile.away is not None and local(now, profile.tz).date() <= profile.away
