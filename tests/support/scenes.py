"""Scenes of March 2026 on the wire: what Ada says when, and what the last answer tells in facts."""

from typing import Any

from tests.support.wire import OnTheWire, abouts

Facts = dict[str, Any]
Line = tuple[int, str, str | None]
"""Day of March, UTC time, text; None: time passes."""


def moment(day: int, clock: str) -> str:
    """An instant of March 2026."""
    return f"2026-03-{day:02d}T{clock}:00+00:00"


def happens(wire: OnTheWire, *lines: Line, chat: str = "ada") -> list[Facts]:
    """All that Ada is told in these lines, as facts, in order."""
    found = []
    for day, clock, text in lines:
        wire.count += 1
        said = {} if text is None else {"id": f"t-{wire.count}", "chat": chat, "text": text}
        found += wire.feed({"at": moment(day, clock), **said})
    assert [each for each in found if "error" in each] == []
    return abouts(found)


def answer(wire: OnTheWire, *lines: Line) -> Facts:
    """What the last line brought: every answer carries the reading of what it answers; danger overtakes what waited."""
    told = happens(wire, *lines)
    return [each for each in told if "facts" in each][-1]


def holds(told: Facts, expected: Facts) -> Facts:
    """Those fields of *told* that *expected* names, sessions as "month-day minutes"."""
    return {name: _brief(told.get(name, "left out")) for name in expected}


def _brief(value: object) -> object:
    if isinstance(value, dict) and "segments" in value:
        return f"{value['date'][5:]} {value['minutes']:g}"
    if isinstance(value, list):
        return [_brief(each) for each in value]
    if isinstance(value, dict):
        return {name: each for name, each in value.items() if name != "from_id"}
    return value
