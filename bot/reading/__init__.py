"""From the text of a reply to the facts that it holds, each with the span that it came from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from datetime import datetime

    from bot.reading.facts import Asked, Reading

__all__ = ["as_json", "read"]


def read(
    text: str, at: datetime, tz: str, planned_min: float | None = None, asked: Asked | str | None = None
) -> Reading:
    """The facts of *text*, sent at *at*, in answer to the open question *asked*.

    *at*: naive is the wall time in *tz*, aware is taken there;
    *planned_min*: length of the session in question in minutes, None when none is due. Reads at most the first 4,096
    characters and never raises on any text.
    """
    from bot.reading.reader import reading_of_reply

    return reading_of_reply(text, at, tz, planned_min, asked)


def as_json(reading: Reading) -> dict[str, Any]:
    """The facts of *reading* under the keys of `python -m bot read`; what was not said is left out."""
    from bot.reading.form import json_of

    return json_of(reading)
