"""Answers about the week: days and times, and what somebody can do and has done."""

import re
from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.draft import Draft, Step
from bot.conversation.says import Slot
from bot.conversation.survey.amounts import JOG_KMH, WALK_KMH, Amounts, amounts_said
from bot.conversation.survey.answer import Answer, Taken, Unclear
from bot.conversation.survey.dates import dates_said
from bot.conversation.survey.days import DaysSaid, days_said
from bot.conversation.survey.hear_person import hear_place_check
from bot.conversation.survey.lexicon import numbered
from bot.conversation.survey.numbers import digits
from bot.conversation.survey.route import done, undone
from bot.conversation.survey.text import leads, plain
from planning.calendar import local
from planning.terms.choices import Units

MOST_SESSION = 600
MOST_WEEK = 3000
"""Minutes that are believed of one outing and of one week. Common practice, no source."""
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


def hear_times(draft: Draft, text: str, now: datetime) -> Answer:  # noqa: ARG001 - one signature for all answers
    """One time for all days, or one for each; days that weren't there before come in as well."""
    said = days_said(text)
    if said.at is None:
        return Unclear(draft, "survey_hint_times")
    times = dict.fromkeys(draft.days, said.at) | dict(zip(said.days, said.times, strict=True))
    days = tuple(sorted(times))
    return Taken(done(replace(draft, days=days, times=tuple(times[day] for day in days)), Step.TIMES))


def hear_walk(draft: Draft, text: str, now: datetime) -> Answer:  # noqa: ARG001
    """Minutes that somebody can surely walk."""
    said = amounts_said(text, WALK_KMH)
    if said is None or not said.minutes[0] <= MOST_SESSION:
        return Unclear(draft, "survey_hint_minutes")
    minutes = said.minutes[0]
    kept = _units(replace(draft, walk_min=minutes), said)
    if Step.JOG in kept.answered and kept.jog_min > minutes:
        return Unclear(
            undone(replace(done(kept, Step.WALK), step=Step.JOG), Step.JOG), "survey_hint_jog_over_walk", _both(kept)
        )
    return Taken(done(kept, Step.WALK))


def hear_jog(draft: Draft, text: str, now: datetime) -> Answer:  # noqa: ARG001
    """Minutes that somebody can surely jog: nobody jogs longer than they can walk."""
    said = amounts_said(text, JOG_KMH)
    if said is None or not said.minutes[0] <= MOST_SESSION:
        return Unclear(draft, "survey_hint_jog")
    kept = _units(replace(draft, jog_min=said.minutes[0]), said)
    if kept.jog_min > draft.walk_min:
        return Unclear(replace(draft, jog_min=0), "survey_hint_jog_over_walk", _both(kept))
    return Taken(done(kept, Step.JOG))


def hear_week(draft: Draft, text: str, now: datetime) -> Answer:  # noqa: ARG001
    """Minutes of a usual week; the longest outing may stand beside them."""
    said = amounts_said(text, WALK_KMH)
    if said is None:
        return Unclear(draft, "survey_hint_week")
    first, *others = said.minutes
    week, longest = (
        (others[0], first)
        if others and said.longest_first
        else (first * said.times_a_week, others[0] if others else None)
    )
    if not week <= MOST_WEEK or (longest or 0) > MOST_SESSION:
        return Unclear(draft, "survey_hint_week")
    kept = _units(replace(draft, week_min=week), said)
    if not week:
        return Taken(done(undone(replace(kept, longest_min=0), Step.LONGEST), Step.WEEK))
    if longest is None or longest > week:
        return Taken(done(kept, Step.WEEK))
    return Taken(done(replace(kept, longest_min=longest), Step.WEEK, Step.LONGEST))


def hear_longest(draft: Draft, text: str, now: datetime) -> Answer:  # noqa: ARG001
    """Minutes of the longest outing of the last 30 days."""
    said = amounts_said(text, WALK_KMH)
    if said is None or not said.minutes[0] <= MOST_SESSION:
        return Unclear(draft, "survey_hint_minutes")
    return Taken(done(_units(replace(draft, longest_min=said.minutes[0]), said), Step.LONGEST))


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


def _units(draft: Draft, said: Amounts) -> Draft:
    return replace(draft, units=Units.MILES) if said.miles else draft


def _both(draft: Draft) -> tuple[Slot, ...]:
    return Slot("walk", f"{draft.walk_min:g}"), Slot("jog", f"{draft.jog_min:g}")
