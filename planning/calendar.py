"""Local day and time to instant and back, zone by zone, with the rule of the house for clock changes.

A wall time that comes twice is the first of the two. One that the clocks jump over becomes the first minute after the
jump or, when that is already another date, the last minute before it: so that what is meant for a day stays on it. The
common rule of calendar standards (RFC 5545, PEP 495: shift by the length of the jump) is not used: it would send a
message an hour late where the first minute after the jump will do. The edge of a jump is found by bisecting on UTC.
"""

from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

MINUTE = timedelta(minutes=1)
SECOND = timedelta(seconds=1)
COPIES = ("posix", "right")
"""Second sets of zones that some systems keep: with and without leap seconds."""


@lru_cache(maxsize=1024)
def _zone(name: str) -> ZoneInfo:
    return ZoneInfo(name)


def known_zone(name: str) -> bool:
    """Whether *name* is a zone of the tz database."""
    if not name or name.startswith(COPIES):
        return False
    try:
        _zone(name)
    except (LookupError, ValueError, OSError):
        return False
    return True


def names_place(name: str) -> bool:
    """Whether *name* is a zone with the rules of a place, no abbreviation or fixed offset: fit for a talk."""
    return known_zone(name) and "/" in name and not name.startswith(("Etc/", "SystemV/"))


def local(moment: datetime, tz: str) -> datetime:
    """*moment* (aware) on the clock of the zone. Don't count with the result: Python adds to it in wall time."""
    return moment.astimezone(_zone(tz))


def _wall(moment: datetime, zone: ZoneInfo) -> datetime:
    return moment.astimezone(zone).replace(tzinfo=None)


def _candidates(wall: datetime, zone: ZoneInfo) -> tuple[datetime, datetime]:
    """The two UTC instants that the offsets around *wall* give, the earlier one first."""
    offsets = [wall.replace(tzinfo=zone, fold=fold).utcoffset() for fold in (0, 1)]
    naive = [wall - (offset or timedelta()) for offset in offsets]
    return min(naive).replace(tzinfo=UTC), max(naive).replace(tzinfo=UTC)


def _edge(wall: datetime, before: datetime, after: datetime, zone: ZoneInfo) -> datetime:
    """First second of UTC at which the clock shows more than *wall*; the jump lies between *before* and *after*."""
    while after - before > SECOND:
        middle = before + timedelta(seconds=(after - before) // SECOND // 2)
        before, after = (before, middle) if _wall(middle, zone) > wall else (middle, after)
    return after


def _whole_minute(moment: datetime, zone: ZoneInfo) -> datetime:
    """*moment*, or the next one at which the local clock shows a full minute (old offsets held odd seconds)."""
    over = _wall(moment, zone).second
    return moment + timedelta(seconds=60 - over) if over else moment


def instant(on: date, at: time, tz: str) -> datetime:
    """The UTC instant of the local day *on* and time *at*, by the rule above; on a date that a zone left out (Apia,
    2011-12-30) the next minute that exists, on another date: see `exists`.
    """
    zone = _zone(tz)
    wall = datetime.combine(on, at.replace(tzinfo=None))
    before, after = _candidates(wall, zone)
    for each in (before, after):
        if _wall(each, zone) == wall:
            return each
    edge = _edge(wall, before, after, zone)
    following = _whole_minute(edge, zone)
    last = edge - MINUTE
    return last if _wall(following, zone).date() != on and _wall(last, zone).date() == on else following


def exists(on: date, tz: str) -> bool:
    """Whether the zone has the date: False where the clocks jumped over a whole day."""
    return local(instant(on, time(12), tz), tz).date() == on


def is_quiet(at: time, bed: time | None, wake: time | None) -> bool:
    """Whether *at* lies in the night from *bed* (inclusive) to *wake* (exclusive), local times; without both, never."""
    if bed is None or wake is None or bed == wake:
        return False
    return bed <= at < wake if bed < wake else at >= bed or at < wake
