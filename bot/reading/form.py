"""A reading as plain values for JSON: keys that say nothing are left out."""

from datetime import date, datetime, time
from typing import Any

from bot.reading.facts import MoveTo, Reading, Want
from planning.terms.choices import Weekday

_SKIPPED = frozenset({"text", "at", "did", "move_to", "off"})


def json_of(reading: Reading) -> dict[str, Any]:
    """The facts of *reading* under the keys that the wire and `python -m bot read` use."""
    out: dict[str, Any] = {}
    if reading.did:
        out["did"] = [_renamed(_object(each), "on", "day") for each in reading.did]
    for name in Reading._fields:
        if name not in _SKIPPED and _says(value := getattr(reading, name)):
            out[name] = _value(value)
    if reading.wants is Want.REVIEW:
        del out["wants"]
        out["review"] = True
    if reading.move_to is not None:
        out["move_to"] = _moved(reading.move_to)
    if reading.off is not None:
        out["off"] = _renamed(_renamed(_object(reading.off), "first", "from"), "last", "to")
    return out


def _says(value: object) -> bool:
    return value is not None and value is not False and value != ()


def _object(value: object) -> dict[str, Any]:
    slots: tuple[str, ...] = type(value).__slots__  # type: ignore[attr-defined]
    return {
        name: _value(said)
        for name in slots
        if _says(said := getattr(value, name)) or (name == "bears" and said is False)
    }


def _renamed(found: dict[str, Any], old: str, new: str) -> dict[str, Any]:
    if old in found:
        found[new] = found.pop(old)
    return found


def _value(value: object) -> Any:
    if isinstance(value, tuple):
        return [_value(each) for each in value]
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, time):
        return value.strftime("%H:%M")
    if isinstance(value, Weekday):
        return value.name.lower()
    if isinstance(value, str):
        return str(value)
    if isinstance(value, float):
        return _plain(value)
    return value if isinstance(value, bool | int) or value is None else _object(value)


def _plain(value: float) -> float | int:
    return int(value) if value == int(value) else round(value, 4)


def _moved(move: MoveTo) -> str:
    if move.at is not None:
        return f"{move.on.isoformat()}T{move.at.strftime('%H:%M')}"
    return move.on.isoformat() + (f" {move.part.value}" if move.part else "")
