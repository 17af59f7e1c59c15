"""What a message says. The letters of a code in it say nothing, and hide no danger that stands beside them."""

from datetime import datetime

from bot.conversation.coach.codes import beside_code, code_in
from bot.reading import read
from bot.reading.facts import Asked, Reading


def hear(text: str, at: datetime, tz: str, planned_min: float | None = None, asked: Asked | None = None) -> Reading:
    """*text* as `bot.reading.read` has it; what stands beside a code in it, if only that speaks of danger."""
    reading = read(text, at, tz, planned_min, asked)
    if reading.danger or code_in(text) is None:
        return reading
    beside = read(beside_code(text), at, tz, planned_min, asked)
    return beside if beside.danger or beside.alarm else reading
