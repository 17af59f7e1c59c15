"""How a reading compares with its label: numbers within 1 %, lists in any order, keys that say nothing left out."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from bot.reading import as_json, read

FOLDER = Path(__file__).parent / "examples"
KEYS = (
    "did", "missed", "missed_day", "effort", "body", "clear", "danger", "ill", "fever", "have_min", "later_min",
    "later_at", "move_to", "off", "weight_kg", "mood", "sure", "tally", "wants",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Labelled:
    """One reply with its context and the facts that a careful person reads in it."""

    text: str
    at: datetime
    tz: str
    planned_min: float | None
    asked: str | None
    want: dict[str, Any]


def labelled(name: str) -> Iterator[Labelled]:
    """The labelled replies of file *name*; its first line says what they are."""
    for line in (FOLDER / f"{name}.jsonl").read_text(encoding="utf-8").splitlines():
        told = json.loads(line)
        if "text" in told:
            at = datetime.fromisoformat(told["at"])
            yield Labelled(told["text"], at, told["tz"], told["planned_min"], told["asked"], told["want"])


def facts(text: str, at: datetime, tz: str = "Europe/London", planned: float | None = 25, asked: str | None = None):
    """The scored facts of *text*."""
    found = as_json(read(text, at, tz, planned, asked))
    return {key: norm(found[key]) for key in KEYS if norm(found.get(key)) is not None}


def wanted(reply: Labelled) -> dict[str, Any]:
    """The facts of the label, as `facts` gives them."""
    return {key: norm(reply.want[key]) for key in KEYS if norm(reply.want.get(key)) is not None}


def norm(value: Any) -> Any:
    """A value that compares: numbers to 3 significant figures, lists sorted, empty things as None."""
    if isinstance(value, bool):
        return value or None
    if isinstance(value, int | float):
        return float(f"{value:.3g}")
    if isinstance(value, dict):
        kept = {k: n for k, v in value.items() if (n := v if k == "bears" else norm(v)) is not None}
        return kept or None
    if isinstance(value, list):
        return sorted((norm(each) for each in value), key=lambda each: json.dumps(each, sort_keys=True)) or None
    return None if value == "" else value


def same(one: Any, other: Any) -> bool:
    """Whether two normed values agree."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= max(0.011 * max(abs(one), abs(other)), 0.006)
    if isinstance(one, dict) and isinstance(other, dict):
        return one.keys() == other.keys() and all(same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and _each_has_its_own(one, list(other))
    return bool(one == other)


def _each_has_its_own(one: list[Any], left: list[Any]) -> bool:
    for each in one:
        hit = next((place for place, fact in enumerate(left) if same(each, fact)), None)
        if hit is None:
            return False
        left.pop(hit)
    return True
