"""Some weeks of some invented people, all of it from one seed: who they are, what they write and when."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from random import Random

from bot.conversation.changes import KeepProfile
from bot.forms import profile_from_json
from bot.store.unit import Store
from bot.turn.turns import enrol
from tests.support.people import kim
from tests.support.wire import Json

BEGIN = date(2026, 3, 23)
"""The week in which most of Europe changes its clocks."""

ZONES = ("Europe/London", "America/New_York", "Africa/Cairo", "Pacific/Kiritimati", "Australia/Lord_Howe")
TIMES = ("06:40", "07:00", "12:30", "18:30", "23:30")
TEXTS = (
    *("done", "did 20", "did 12 of 20, ran out of time", "done, felt easy", "too hard today", "effort 4"),
    *("stopped at 8, can't go on", "only 15 min today", "remind me in an hour", "move it to tomorrow", "skip today"),
    *("calf a bit sore 2/10, eased off", "knee hurt 4/10 all the way", "knee is clear", "week", "why", "undo"),
    *("tight chest on the hill", "doctor cleared me", "fever and a cough", "fever is gone", "thanks", "back", "ok"),
)


@dataclass(frozen=True, slots=True)
class World:
    """People and what they write. *lines*: as the wire takes them, in order of time."""

    profiles: tuple[Json, ...]
    lines: tuple[Json, ...]

    def enrolled(self, url: str) -> None:
        """All of them are added to new records."""
        store = Store.open(url)
        with store.begin() as tx:
            for profile in self.profiles:
                enrol(tx, KeepProfile(profile_from_json(profile)))
        store.close()


def world(seed: int, people: int, days: int) -> World:
    """The world of a seed."""
    random = Random(seed)
    names = [f"p-{place}" for place in range(people)]
    start = datetime.combine(BEGIN - timedelta(days=1), datetime.min.time(), UTC)
    lines = [line for name in names for line in _said(random, name, start, days)]
    end: Json = {"at": (start + timedelta(days=days + 1)).isoformat()}
    ordered = sorted(lines, key=lambda line: (str(line["at"]), str(line["id"])))
    return World((kim(), *(_profile(random, name) for name in names)), ({"at": start.isoformat()}, *ordered, end))


def _profile(random: Random, name: str) -> Json:
    days = random.sample(("mon", "tue", "wed", "thu", "fri", "sat", "sun"), random.randint(2, 4))
    return {
        "who": name,
        "tz": random.choice(ZONES),
        "coach": "kim",
        "days": {day: random.choice(TIMES) for day in days},
        "begin": BEGIN.isoformat(),
        "race": {"date": "2026-05-17", "km": 5},
        "walk_min": random.choice((10, 20, 30)),
        "weight_kg": 92,
        "height_cm": 170,
    }


def _said(random: Random, name: str, start: datetime, days: int) -> Iterator[Json]:
    """About two messages in three days."""
    for day in range(1, days + 1):
        if random.random() < 0.65:
            at = start + timedelta(days=day, minutes=random.randrange(24 * 60))
            yield {"at": at.isoformat(), "id": f"{name}-{day}", "chat": name, "text": random.choice(TEXTS)}


def as_text(line: Json) -> str:
    """The line as it is sent."""
    return json.dumps(line)
