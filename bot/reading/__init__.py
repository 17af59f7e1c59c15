"""From the text of a reply to the facts that it holds, each with the span that it came from."""

from datetime import datetime

from bot.reading.facts import Asked, Reading
from bot.reading.form import as_json

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
