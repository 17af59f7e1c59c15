"""Dates as people say them, without a clock: today is an argument."""

import re
from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta

from bot.conversation.survey.lexicon import numbered, words
from bot.conversation.survey.numbers import digits

YEARS_TRIED = 9
"""Years in which 29 February is looked for: at most eight lie between two leap days."""

MONTHS = "|".join(sorted(numbered("months"), key=len, reverse=True))
NO_UNIT = r" ?(?:k|km|mi|miles?|min)\b"
YEAR = r"(?:,? ?(?P<y{0}>20[0-9]{{2}}|'?2[0-9]|next year|this year)(?![0-9]|" + NO_UNIT + "))?"
FORMS = (
    r"(?P<y1>20[0-9]{2})[-/.](?P<m1>[0-9]{1,2})[-/.](?P<d1>[0-9]{1,2})(?![0-9])",
    r"(?P<d2>[0-9]{1,2})[-/.](?P<m2>[0-9]{1,2})[-/.](?P<y2>20[0-9]{2}|[0-9]{2})(?![0-9])",
    r"(?P<d3>[0-9]{1,2})/(?P<m3>[0-9]{1,2})(?![0-9])",
    rf"(?P<d4>[0-9]{{1,2}})(?:st|nd|rd|th)?(?: of)? ?(?P<n4>{MONTHS})\b\.?" + YEAR.format(4),
    rf"(?P<n5>{MONTHS})\b\.? ?(?:the )?(?P<d5>[0-9]{{1,2}})(?:st|nd|rd|th)?(?![0-9]|[.:/][0-9]|{NO_UNIT})"
    + YEAR.format(5),
    rf"(?P<q6>next |this |in |by |early |late |mid |end of |start of |of |for )?(?P<n6>{MONTHS})\b\.?" + YEAR.format(6),
    r"in (?P<c7>[0-9]{1,2}|a|half a) (?P<u7>days?|weeks?|months?|years?)\b"
    r"|(?P<c7b>[0-9]{1,2}) (?P<u7b>days|weeks|months) (?:from now|away|to go|out|left|time)",
    r"\b(?P<w8>today|tonight|tomorrow|yesterday|last week)\b",
)
PATTERN = re.compile("|".join(rf"(?P<f{place}>(?<![\w/]){form}|(?!))" for place, form in enumerate(FORMS, 1)))
NAMED = {"today": 0, "tonight": 0, "tomorrow": 1, "yesterday": -1, "last week": -7}


@dataclass(frozen=True, slots=True)
class DateSaid:
    """A date in a text, at *start* to *end*. *month*: its first day where only the month is known; both None: a day
    that no calendar has.
    """

    start: int
    end: int
    on: date | None = None
    month: date | None = None


def dates_said(text: str, today: date, month_first: bool) -> tuple[DateSaid, ...]:
    """All dates of the plain *text* in order. One without a year is the next to come. *month_first*: how "5/3" is read
    where both ways are possible.
    """
    found = (match for match in PATTERN.finditer(text) if not _is_verb(match, text))
    return tuple(_date(match, today, month_first) for match in found)


def show_date(on: date) -> str:
    """A date for people: "Sun 1 Nov 2026"."""
    return f"{words('show', 'days')[on.weekday()]} {on.day} {words('show', 'months')[on.month - 1]} {on.year}"


def show_month(month: date) -> str:
    """A month for people: "Nov 2026"."""
    return f"{words('show', 'months')[month.month - 1]} {month.year}"


def first_sunday(month: date, after: date) -> date | None:
    """The first Sunday of the month that begins on *month* and lies later than *after*."""
    sundays = [month.replace(day=day) for day in range(1, monthrange(month.year, month.month)[1] + 1)]
    return next((each for each in sundays if each.weekday() == 6 and each > after), None)


def day_in_month(text: str, month: date) -> date | None:
    """A day of the month as an answer to "which day?": "the 18th", "second sunday", "last sunday"."""
    said = digits(text)
    ordinal = re.search(r"\b(first|1st|second|2nd|third|3rd|fourth|4th|last) (sat|sun)[a-z]*\b", said)
    days = [month.replace(day=day) for day in range(1, monthrange(month.year, month.month)[1] + 1)]
    if ordinal:
        wanted = [day for day in days if day.weekday() == (5 if ordinal[2] == "sat" else 6)]
        place = {"first": 0, "1st": 0, "second": 1, "2nd": 1, "third": 2, "3rd": 2, "fourth": 3, "4th": 3}
        return wanted[place.get(ordinal[1], -1)]
    number = re.search(r"\b([0-9]{1,2})(?:st|nd|rd|th)?\b", said)
    return days[int(number[1]) - 1] if number and 1 <= int(number[1]) <= len(days) else None


def _is_verb(found: re.Match[str], text: str) -> bool:
    """Whether "may" or "march" stands without a sign that it is a month."""
    name = found["n6"]
    return bool(name in ("may", "march", "mar") and not found["q6"] and not found["y6"] and text.strip(" .,!?") != name)


def _date(found: re.Match[str], today: date, month_first: bool) -> DateSaid:
    start, end = found.span()
    place = next(each for each in range(1, len(FORMS) + 1) if found[f"f{each}"])
    if place == 1:
        return DateSaid(start, end, _exact(int(found["y1"]), int(found["m1"]), int(found["d1"])))
    if place in (2, 3):
        return DateSaid(start, end, _numeric(found, place, today, month_first))
    if place in (4, 5):
        month, day = numbered("months")[found[f"n{place}"]] + 1, int(found[f"d{place}"])
        return DateSaid(start, end, _dated(month, day, found[f"y{place}"], today))
    if place == 6:
        return DateSaid(start, end, None, _month(found, today))
    return _relative(found, today)


def _exact(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None


def _numeric(found: re.Match[str], place: int, today: date, month_first: bool) -> date | None:
    day, month = int(found[f"d{place}"]), int(found[f"m{place}"])
    if day <= 12 and (month > 12 or month_first):
        day, month = month, day
    return _dated(month, day, found["y2"] if place == 2 else None, today)


def _year(said: str, today: date) -> int:
    if said in ("next year", "this year"):
        return today.year + (said == "next year")
    number = int(said.strip("'"))
    return number if number > 99 else 2000 + number


def _dated(month: int, day: int, year: str | None, today: date) -> date | None:
    if year:
        return _exact(_year(year, today), month, day)
    tried = (_exact(today.year + more, month, day) for more in range(YEARS_TRIED))
    return next((each for each in tried if each and each >= today), None)


def _month(found: re.Match[str], today: date) -> date:
    number = numbered("months")[found["n6"]] + 1
    if found["y6"]:
        return date(_year(found["y6"], today), number, 1)
    later = number < today.month or (number == today.month and (found["q6"] or "").startswith("next"))
    return date(today.year + later, number, 1)


def _relative(found: re.Match[str], today: date) -> DateSaid:
    start, end = found.span()
    if found["w8"]:
        return DateSaid(start, end, today + timedelta(days=NAMED[found["w8"]]))
    count, unit = found["c7"] or found["c7b"], found["u7"] or found["u7b"]
    number = {"a": 1.0, "half a": 0.5}.get(count) or float(count)
    if unit.startswith(("month", "year")):
        ahead = today.month - 1 + round(number * (12 if unit.startswith("year") else 1))
        return DateSaid(start, end, None, date(today.year + ahead // 12, ahead % 12 + 1, 1))
    return DateSaid(start, end, today + timedelta(days=round(number * (7 if unit.startswith("week") else 1))))
