"""Answers about the week: days, times, and the day to begin."""

import re
from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.draft import Draft, Step
from bot.conversation.survey.answer import Answer, Taken, Unclear
from bot.conversation.survey.dates import dates_said
from bot.conversation.survey.days import DaysSaid, days_said
from bot.conversation.survey.hear_person import hear_place_check
from bot.conversation.survey.lexicon import numbered
from bot.conversation.survey.numbers import digits
from bot.conversation.survey.route import done, undone
from bot.conversation.survey.text import leads, plain
from planning.calendar import local

WRONG_CLOCK = ("no", "nope", "wrong", "it's not", "it isn't", "that's wrong")
"""After "so it is 18:05 with you now" these are about the clock, not about days."""
FARTHEST_BEGIN = timedelta(days=60)
DAY_NAMES = "|".join(sorted(numbered("days"), key=len, reverse=True))
BEGIN = re.compile(
    r"\b(?:start(?:ing)?|begin(?:ning)?|from)(?: on| from)? (?P<when>next week|tomorrow|today"
    rf"|(?:(?:next|this|on) )?(?P<day>{DAY_NAMES})\b(?! ?(?:-|to|thru|through|till|until)\b)"
    r"|(?:the )?[0-9]{1,2}(?:st|nd|rd|th)?(?: of)? [a-z]{3,9}\b|[a-z]{3,9} [0-9]{1,2}(?:st|nd|rd|th)?\b)"
)


def hear_days(draft: Draft, text: str, now: datetime) -> Answer:
    """Days of the week, with their times if they were said; a day to begin may stand beside them."""
    begun, rest = begin_said(plain(text), local(now, draft.tz or "UTC").date())
    draft = replace(draft, begin=begun or draft.begin)
    said = days_said(rest)
    if not said.days and Step.DAYS not in draft.answered and leads(plain(text), WRONG_CLOCK):
        return hear_place_check(draft, text, now)
    if not said.days:
        return Unclear(replace(draft, at=said.at or draft.at), "survey_hint_days_at" if said.at else "survey_hint_days")
    return Taken(_with_days(draft, said))


def _with_days(draft: Draft, said: DaysSaid) -> Draft:
    """*draft* with its days; where a time was said before they were, it counts for all of them."""
    times = said.times or ((draft.at,) * len(said.days) if draft.at else ())
    kept = replace(draft, days=said.days, times=times, at=None)
    return done(kept, Step.DAYS) if times else undone(done(kept, Step.DAYS), Step.TIMES)


def hear_times(draft: Draft, text: str, _now: datetime) -> Answer:
    """One time for all days, or one for each; days that weren't there before come in as well."""
    said = days_said(text)
    if said.at is None:
        return Unclear(draft, "survey_hint_times")
    times = dict.fromkeys(draft.days, said.at) | dict(zip(said.days, said.times, strict=True))
    days = tuple(sorted(times))
    return Taken(done(replace(draft, days=days, times=tuple(times[day] for day in days)), Step.TIMES))


def begin_said(text: str, today: date) -> tuple[date | None, str]:
    """The day on which somebody wants to begin, if *text* names one in the next 60 days, and the text without it."""
    said = digits(text)
    found = BEGIN.search(said)
    if found is None:
        return None, text
    on = _begin(found, today)
    if on is None or not today <= on <= today + FARTHEST_BEGIN:
        return None, text
    return on, f"{said[: found.start()]} {said[found.end() :]}"


def _begin(found: re.Match[str], today: date) -> date | None:
    if found["day"]:
        return today + timedelta(days=(numbered("days")[found["day"]] - today.weekday() - 1) % 7 + 1)
    if found["when"] == "next week":
        return today + timedelta(days=7 - today.weekday())
    dates = dates_said(found["when"], today, False)
    return dates[0].on if dates else None
