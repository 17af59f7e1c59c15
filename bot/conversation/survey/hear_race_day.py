"""Answers about the day of a race, and what makes a day impossible."""

from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.draft import Draft, Step
from bot.conversation.survey.answer import Answer, Taken, Unclear
from bot.conversation.survey.assent import skips
from bot.conversation.survey.dates import dates_said, day_in_month, first_sunday
from bot.conversation.survey.echo import Line
from bot.conversation.survey.numbers import digits
from bot.conversation.survey.races import no_race
from bot.conversation.survey.route import done
from bot.conversation.survey.text import plain
from planning.calendar import local

FARTHEST = timedelta(days=3 * 366)
"""A race farther off than this is thought to be a slip of the finger. Common practice, no source."""


def hear_race_day(draft: Draft, text: str, now: datetime) -> Answer:
    """The date of a race whose distance or month is known. Nobody has to know it yet: then the first Sunday of the
    month counts, so that all is ready in time; without a month there is no race yet.
    """
    today = today_of(draft, now)
    said = plain(text)
    dates = dates_said(digits(said), today, draft.country == "US")
    on = next((each.on for each in dates if each.on), None)
    month = next((each.month for each in dates if each.month), draft.race_month)
    if on is None and month is not None and not no_race(said):
        on = day_in_month(said, month)
    if on is None and (skips(text) or no_race(said)):
        on = first_sunday(month, today + timedelta(days=1)) if month else None
        if on is None:
            return Taken(done(without_race(draft), Step.RACE_DAY), Line("survey_got_no_race"))
        return Taken(done(replace(draft, race_on=on), Step.RACE_DAY), Line("survey_got_race_guess", ("race_on",)))
    if on is None and month != draft.race_month:
        return Unclear(replace(draft, race_month=month), "survey_hint_race_which_day")
    problem = problem_on(on, today) if on else "survey_hint_race_day"
    return Unclear(draft, problem) if problem else Taken(done(replace(draft, race_on=on), Step.RACE_DAY))


def today_of(draft: Draft, now: datetime) -> date:
    """The local day."""
    return local(now, draft.tz or "UTC").date()


def without_race(draft: Draft) -> Draft:
    """The *draft* of somebody who has no race yet."""
    return replace(draft, race_km=None, race_on=None, race_month=None, cutoff_min=None)


def problem_on(on: date, today: date) -> str | None:
    """The sentence that says why *on* can't be the day of a race; None: it can."""
    if on < today:
        return "survey_hint_race_past"
    if on <= today + timedelta(days=1):
        return "survey_hint_race_soon"
    return "survey_hint_race_far" if on - today > FARTHEST else None
