"""Days and times that a reply names, counted from the sender's local time."""

from calendar import monthrange
from datetime import date, datetime, time, timedelta

from bot.reading.facts import PartOfDay
from bot.reading.tags import Item, Tag

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
EARLIEST, LATEST = 5 * 60, 22 * 60
"""Between these minutes of the day a bare hour makes sense for an active person."""

_PARTS = {
    "morning": PartOfDay.MORNING, "lunch": PartOfDay.LUNCH, "afternoon": PartOfDay.AFTERNOON,
    "evening": PartOfDay.EVENING, "tonight": PartOfDay.EVENING, "this_morning": PartOfDay.MORNING,
}  # fmt: skip


def past_day(item: Item, today: date) -> date | None:
    """The last such day, today included only if it was named; None for days that lie ahead."""
    value = item.value
    if value[0] in "+-":
        offset = int(value)
        return today + timedelta(days=offset) if offset <= 0 else None
    name = value.removeprefix("next_")
    if name in WEEKDAYS:
        back = (today.weekday() - WEEKDAYS.index(name)) % 7 or 7
        return today - timedelta(days=back) if name == value else None
    return _of_year(item, today, ahead=False)


def coming_day(item: Item, today: date) -> date | None:
    """The next such day; a weekday means the next one to come, today excluded."""
    value = item.value
    if value[0] in "+-":
        offset = int(value)
        return today + timedelta(days=offset) if offset >= 0 else None
    name = value.removeprefix("next_")
    if name in WEEKDAYS:
        return today + timedelta(days=(WEEKDAYS.index(name) - today.weekday()) % 7 or 7)
    return _of_year(item, today, ahead=True)


def _of_year(item: Item, today: date, ahead: bool) -> date | None:
    """The nearest date with this day (and month) on the asked side of today; `0-14` is the 14th of any month."""
    month, day = (int(part) for part in item.value.split("-"))
    if item.n:
        options = [(int(item.n), month)]
    elif month:
        options = [(year, month) for year in range(today.year - 1, today.year + 2)]
    else:
        here = today.year * 12 + today.month - 1
        options = [(count // 12, count % 12 + 1) for count in range(here - 2, here + 3)]
    days = [date(year, number, day) for year, number in options if 1 <= day <= monthrange(year, number)[1]]
    if ahead:
        return min((each for each in days if each >= today), default=None)
    return max((each for each in days if each <= today), default=None)


def part_of(item: Item | None) -> PartOfDay | None:
    """The part of the day that *item* names."""
    return _PARTS.get(item.value) if item else None


def clock_minutes(item: Item) -> tuple[int, bool] | None:
    """Minutes from midnight, and whether morning or evening is certain. None: no time of day."""
    if item.tag is Tag.CLOCK:
        return int(item.n) % 1440, bool(item.m) or item.n >= 780
    if item.tag is Tag.CLOCKISH:
        hour, minute = (int(part) for part in item.value.split(":")[:2])
    else:
        hour, minute = int(item.n), round(item.n % 1 * 100)
        if hour >= 100 and hour % 100 < 60:
            hour, minute = divmod(hour, 100)
    if hour > 24 or minute > 59:
        return None
    return hour % 24 * 60 + minute, hour > 12 or hour == 0


def next_time(item: Item, at: datetime, part: PartOfDay | None) -> time | None:
    """The next such time after *at* on the same day; a bare hour is the one still to come."""
    said = clock_minutes(item)
    if said is None:
        return None
    minutes, certain = said
    now = at.hour * 60 + at.minute
    if not certain:
        late = part in (PartOfDay.EVENING, PartOfDay.AFTERNOON)
        gone_by = part is not PartOfDay.MORNING and minutes <= now
        if minutes < 720 and (late or gone_by):
            minutes += 720
    return _time(minutes)


def active_time(item: Item, part: PartOfDay | None) -> time | None:
    """The time on another day; a bare hour is the one between 05:00 and 21:59 that *part* allows."""
    said = clock_minutes(item)
    if said is None:
        return None
    minutes, certain = said
    late = part in (PartOfDay.EVENING, PartOfDay.AFTERNOON) or (part is PartOfDay.LUNCH and minutes < 600)
    if not certain and minutes < 720 and (late or minutes < EARLIEST):
        minutes += 720
    return _time(minutes)


def _time(minutes: int) -> time:
    return time(minutes // 60 % 24, minutes % 60)
