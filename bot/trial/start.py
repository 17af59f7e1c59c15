"""Who somebody is before the first day, drawn by their number."""

from datetime import date, time, timedelta
from random import Random

from bot.trial.data import Nature, natures
from planning.terms.choices import Sex, Weekday
from planning.terms.person import DayTime, Profile, Race

BEGIN = date(2026, 3, 2)
"""A Monday; all begin together."""

ZONES = ("Europe/London", "Europe/Berlin", "America/New_York", "Asia/Tokyo")
HOURS = (time(6, 40), time(7), time(12, 30), time(17, 30))
RACES_KM = (5, 10, 21.0975)


def name_of(number: int) -> str:
    """What person *number* is called in the records."""
    return f"p-{number}"


def begins(seed: int, number: int) -> tuple[Nature, Profile]:
    """Nature and profile of person *number*."""
    random = Random(f"{seed}:{number}")
    nature = random.choices(natures(), [each.share for each in natures()])[0]
    return nature, _profile(random, number)


def _profile(random: Random, number: int) -> Profile:
    days = sorted(random.sample(range(7), random.choice((3, 3, 3, 4))))
    hour = random.choice(HOURS)
    walk = random.choice((10, 15, 20, 30))
    return Profile(
        who=name_of(number),
        tz=random.choice(ZONES),
        days=tuple(DayTime(Weekday(day), hour) for day in days),
        begin=BEGIN,
        walk_min=walk,
        week_min=walk * random.choice((0, 1, 2)),
        longest_min=walk,
        race=Race(BEGIN + timedelta(weeks=random.randint(28, 38), days=6), random.choice(RACES_KM)),
        age=random.randint(22, 64),
        sex=random.choice(tuple(Sex)),
        height_cm=random.randint(155, 190),
        weight_kg=random.randint(62, 125),
    )
