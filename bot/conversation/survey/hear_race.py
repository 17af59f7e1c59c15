"""Answers about the race and the shorter ones on the way."""

from dataclasses import replace
from datetime import date, datetime, timedelta

from bot.conversation.draft import Draft, Step
from bot.conversation.survey.answer import Answer, Taken, Unclear
from bot.conversation.survey.assent import Assent, assent, skips
from bot.conversation.survey.dates import dates_said, day_in_month, first_sunday
from bot.conversation.survey.echo import Line
from bot.conversation.survey.numbers import digits
from bot.conversation.survey.races import HALF_KM, LONGEST_KM, SHORTEST_KM, RaceNamed, RacesSaid, no_race, races_said
from bot.conversation.survey.route import done, undone
from bot.conversation.survey.text import plain
from planning.calendar import local
from planning.terms.choices import RaceMode, Units
from planning.terms.person import Race

FARTHEST = timedelta(days=3 * 366)
"""A race farther off than this is thought to be a slip of the finger. Common practice, no source."""
CUTOFFS = (20, 720)
"""Minutes of a time limit that are believed."""


def hear_race(draft: Draft, text: str, now: datetime) -> Answer:
    """A race with distance and date, or that there is none yet."""
    today = _today(draft, now)
    said = races_said(text, today, draft.country == "US")
    if said.none or (not said.races and skips(text)):
        return Taken(done(undone(_without(draft), Step.RACE_DAY), Step.RACE))
    if not said.races and assent(text) is Assent.YES:
        return Unclear(draft, "survey_hint_race_which")
    problem = _problem(said, today)
    if problem:
        return Unclear(draft, problem)
    main = max(said.races, key=lambda race: race.km or HALF_KM)
    stops = tuple(race for race in said.races if race is not main)
    if main.first and not stops and (main.km or HALF_KM) < HALF_KM and main.on:
        return Unclear(_milestones(draft, (main,)), "survey_hint_race_after_first")
    return Taken(_with_race(_milestones(draft, stops), main, said))


def hear_race_day(draft: Draft, text: str, now: datetime) -> Answer:
    """The date of a race whose distance or month is known. Nobody has to know it yet: then the first Sunday of the
    month counts, so that all is ready in time; without a month there is no race yet.
    """
    today = _today(draft, now)
    said = plain(text)
    dates = dates_said(digits(said), today, draft.country == "US")
    on = next((each.on for each in dates if each.on), None)
    month = next((each.month for each in dates if each.month), draft.race_month)
    if on is None and month is not None and not no_race(said):
        on = day_in_month(said, month)
    if on is None and (skips(text) or no_race(said)):
        on = first_sunday(month, today + timedelta(days=1)) if month else None
        if on is None:
            return Taken(done(_without(draft), Step.RACE_DAY), Line("survey_got_no_race"))
        return Taken(done(replace(draft, race_on=on), Step.RACE_DAY), Line("survey_got_race_guess", ("race_on",)))
    if on is None and month != draft.race_month:
        return Unclear(replace(draft, race_month=month), "survey_hint_race_which_day")
    problem = _problem_on(on, today) if on else "survey_hint_race_day"
    return Unclear(draft, problem) if problem else Taken(done(replace(draft, race_on=on), Step.RACE_DAY))


def _today(draft: Draft, now: datetime) -> date:
    return local(now, draft.tz or "UTC").date()


def _without(draft: Draft) -> Draft:
    return replace(draft, race_km=None, race_on=None, race_month=None, cutoff_min=None)


def _problem(said: RacesSaid, today: date) -> str | None:
    """The sentence that says why these can't be the races."""
    if not said.races:
        return "survey_hint_race"
    if any(race.wrong for race in said.races):
        return "survey_hint_race_no_such_day"
    if any(not SHORTEST_KM <= (race.km or HALF_KM) <= LONGEST_KM for race in said.races):
        return "survey_hint_race_long"
    return next((found for race in said.races if (found := _problem_with(race, today))), None)


def _problem_with(race: RaceNamed, today: date) -> str | None:
    if race.on:
        return _problem_on(race.on, today)
    if race.month and race.month < today.replace(day=1):
        return "survey_hint_race_past"
    return "survey_hint_race_far" if race.month and race.month - today > FARTHEST else None


def _problem_on(on: date, today: date) -> str | None:
    if on < today:
        return "survey_hint_race_past"
    if on <= today + timedelta(days=1):
        return "survey_hint_race_soon"
    return "survey_hint_race_far" if on - today > FARTHEST else None


def _milestones(draft: Draft, stops: tuple[RaceNamed, ...]) -> Draft:
    """*draft* with the shorter races that have a date."""
    known = tuple(Race(race.on, race.km) for race in stops if race.on and race.km)
    return (
        replace(draft, milestones=tuple({race.on: race for race in (*draft.milestones, *known)}.values()))
        if known
        else draft
    )


def _with_race(draft: Draft, main: RaceNamed, said: RacesSaid) -> Draft:
    cutoff = said.cutoff_min if said.cutoff_min and CUTOFFS[0] <= said.cutoff_min <= CUTOFFS[1] else None
    kept = replace(
        draft,
        race_km=main.km or HALF_KM,
        race_on=main.on,
        race_month=main.month,
        race_mode=said.mode or RaceMode.RUN_WALK,
        cutoff_min=cutoff,
        units=Units.MILES if said.miles else draft.units,
    )
    return done(undone(kept, Step.RACE_DAY), Step.RACE)
