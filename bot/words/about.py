"""Say -> the `about` object: in facts what the text says in words, so that no other program needs to read prose."""

import json
from collections.abc import Callable, Mapping
from datetime import UTC, date, datetime
from enum import Enum

from bot.conversation.says import UNSET, Say, Standing
from bot.forms.plan import segment_to_json, session_to_json, strength_to_json
from bot.reading import as_json
from planning.progress.review import WeekNumbers
from planning.terms.entry import Entry, Flag, Status
from planning.terms.plan import Segment, Session, Strength

PLAIN = ("asks", "session", "entries", "next", "why", "weight_kg", "left_min", "segments", "was_min", "dropped", "at")
MORE = (
    "flag",
    "parts",
    "do",
    "codes",
    "until",
    "weeks",
    "sessions",
    "who",
    "runners",
    "strength",
    "flags",
    "loads",
    "moods",
)

TO_TEXT = json.JSONEncoder(ensure_ascii=False).encode


def about(say: Say) -> str:
    """The object as JSON text, keys in a fixed order."""
    said: dict[str, object] = {"kind": say.kind.value}
    if say.also:
        said["also"] = [kind.value for kind in say.also]
    for name in (*PLAIN, *MORE):
        value = getattr(say.facts, name)
        if value is not UNSET:
            said[name] = _json(value)
    if say.facts.reading is not None:
        said["facts"] = as_json(say.facts.reading)
    return TO_TEXT(said)


def instant_text(at: datetime) -> str:
    """A UTC instant in whole seconds."""
    return at.astimezone(UTC).replace(microsecond=0).isoformat()


def entry_to_json(entry: Entry) -> dict[str, object]:
    """One flat object for a thing done, or for a day missed; what was not said is left out."""
    if entry.status is not Status.DONE:
        key = "missed" if entry.status is Status.MISSED else "no_word"
        return {"date": entry.on.isoformat(), key: True} | ({"from_id": entry.from_id} if entry.from_id else {})
    said = {
        "kind": entry.kind.value if entry.kind else None,
        "minutes": entry.minutes,
        "km": entry.km,
        "share": entry.share,
        "effort": entry.effort,
        "from_id": entry.from_id,
    }
    return {"date": entry.on.isoformat()} | {name: _short(value) for name, value in said.items() if value is not None}


def week_numbers_to_json(week: WeekNumbers) -> dict[str, object]:
    """What one week held: minutes, sessions, minutes of the longest, strength sessions."""
    return {
        "monday": week.monday.isoformat(),
        "minutes": _short(week.minutes),
        "sessions": week.sessions,
        "longest_min": _short(week.longest_min),
        "strength": week.strength,
    }


def standing_to_json(standing: Standing) -> dict[str, object]:
    """How one runner stands: the first need (null: none), all of them, and how long the first has waited."""
    said: dict[str, object] = {
        "who": standing.who,
        "called": standing.called,
        "need": standing.needs[0].value if standing.needs else None,
        "needs": [each.value for each in standing.needs],
    }
    waited = {"hours": standing.hours and round(standing.hours, 1), "days": standing.days}
    return said | {name: _short(value) for name, value in waited.items() if value is not None}


def flag_to_json(flag: Flag) -> dict[str, object]:
    """One complaint of one part of the body, from its first to its last day (null: it stands)."""
    return {
        "part": flag.part.value,
        "side": flag.side and flag.side.value,
        "flag": flag.colour.value,
        "since": flag.since.isoformat(),
        "cleared_on": flag.cleared_on and flag.cleared_on.isoformat(),
    }


def _short(value: object) -> object:
    return int(value) if isinstance(value, float) and value.is_integer() else value


WRITERS: Mapping[type, Callable[..., object]] = {
    Session: session_to_json,
    Segment: segment_to_json,
    WeekNumbers: week_numbers_to_json,
    Entry: entry_to_json,
    Standing: standing_to_json,
    Flag: flag_to_json,
    Strength: strength_to_json,
    datetime: instant_text,
    date: date.isoformat,
}


def _json(value: object) -> object:
    if isinstance(value, tuple):
        return [_json(each) for each in value]
    if isinstance(value, Enum):
        return value.value
    writer = WRITERS.get(type(value))
    return writer(value) if writer else _short(value)
