"""Times of day as people say them.

A bare hour is the one at which an active person is up, 05:00 to 21:59: "7" is 07:00 and "4" is 16:00; "pm" or a word
such as "evening" says otherwise. Parts of a day are 07:00 morning, 12:30 lunch, 15:00 afternoon, 18:30 evening.
Common practice, no source.
"""

import re
from dataclasses import dataclass
from datetime import time

PARTS = {"morning": time(7), "lunch": time(12, 30), "afternoon": time(15), "evening": time(18, 30)}
FIRST_UP = 5
"""Hour before which nobody is thought to be up, if it isn't said."""

HALF_DAY = r"(?P<m{0}>a\.?m\b\.?|p\.?m\b\.?)?"
HOUR = r"(?P<h{0}>[01]?[0-9]|2[0-4])"
END = r"(?![0-9]|[.:][0-9])"
MERIDIEM = HALF_DAY.format
FORMS = (
    r"half(?: past)? " + HOUR.format(1) + r"\b ?" + MERIDIEM(1),
    r"quarter (?P<q2>past|after|to|before|of|til) " + HOUR.format(2) + r"\b ?" + MERIDIEM(2),
    r"(?P<n3>5|10|20|25)(?: min(?:ute)?s?)? (?P<q3>past|after|to|before) " + HOUR.format(3) + r"\b ?" + MERIDIEM(3),
    HOUR.format(4) + r"(?:[:.]|h ?)(?P<n4>[0-5][0-9])" + END + r" ?" + MERIDIEM(4),
    HOUR.format(5) + r" ?(?P<m5>a\.?m\b\.?|p\.?m\b\.?)",
    HOUR.format(6) + r"(?: ?(?:o'?clock\b|uhr\b|ish\b|h\b)|-ish\b) ?" + MERIDIEM(6),
    HOUR.format(7) + r"(?P<n7>[0-5][0-9])(?:h|hrs?)?" + r"(?!\w) ?" + MERIDIEM(7),
    HOUR.format(8) + r" (?P<n8>00|[0-5][05])(?![0-9:.]| ?(?:min|day|time))" + r" ?" + MERIDIEM(8),
    HOUR.format(9) + r"(?!\w|[.:]?[0-9])",
)
FORM = "|".join(rf"(?P<f{place}>{form})" for place, form in enumerate(FORMS, 1))
RANGE = (
    r"(?: ?(?:-|to|till?|until|or) ?(?:[01]?[0-9]|2[0-4])(?:[:.]?[0-5][0-9])?\b(?P<mr> ?(?:a\.?m\b\.?|p\.?m\b\.?))?)?"
)
CLOCK = rf"(?<![\w.:/])(?:{FORM}){RANGE}"
PATTERN = re.compile(CLOCK)


@dataclass(frozen=True, slots=True)
class Clock:
    """A time as it was said. *half*: "a", "p" or none said; *exact*: written in the 24-hour way."""

    hour: int
    minute: int
    half: str | None = None
    exact: bool = False

    def at(self, part: str | None = None) -> time:
        """The time of day, given the *part* of the day that was said with it."""
        return time(self._hour(part) % 24, self.minute)

    def _hour(self, part: str | None) -> int:
        if self.half:
            return self.hour % 12 + (12 if self.half == "p" else 0)
        if self.exact:
            return self.hour
        if part in ("afternoon", "evening"):
            return 24 if part == "evening" and self.hour == 12 else self.hour % 12 + 12
        if part == "lunch":
            return self.hour + 12 if self.hour < 10 else self.hour
        return self.hour + 12 if part is None and self.hour < FIRST_UP else self.hour


def _minute(found: re.Match[str], place: int) -> tuple[int, int]:
    """Hours to add and the minute."""
    if place == 1:
        return 0, 30
    parts = found.groupdict()
    minute = 15 if place == 2 else int(parts.get(f"n{place}") or 0)
    if place in (2, 3) and parts[f"q{place}"] in ("to", "before", "of", "til"):
        return -1, 60 - minute
    return 0, minute


def _is_span(found: re.Match[str], place: int) -> bool:
    """Whether "5 to 7" means from five to seven: small numbers in rising order, no minutes said."""
    return place == 3 and found["q3"] == "to" and "min" not in found.group() and int(found["n3"]) < int(found["h3"])


def clock_of(found: re.Match[str]) -> Clock | None:
    """The time that a match of `PATTERN` (or of a pattern that holds `CLOCK`) says; of two times the first."""
    place = next((each for each in range(1, len(FORMS) + 1) if found[f"f{each}"]), 0)
    if not place:
        return None
    said = found[f"m{place}"] if place != 9 else None
    half = (said or (found["mr"] or "").strip() or " ")[0].strip() or None
    if _is_span(found, place):
        return Clock(int(found["n3"]), 0, half)
    shift, minute = _minute(found, place)
    written = found[f"h{place}"]
    hour = int(written) + shift
    exact = (place in (4, 7) and (written.startswith("0") or hour > 12)) or hour > 12 or written == "00"
    return Clock(hour % 25, minute, None if hour > 12 else half, exact)
