"""Answers about the race and the shorter ones on the way."""

from dataclasses import replace
from datetime import date, datetime

from bot.conversation.draft import Draft, Step
from bot.conversation.survey.answer import Answer, Taken, Unclear
from bot.conversation.survey.assent import Assent, assent, skips
from bot.conversation.survey.hear_race_day import FARTHEST, problem_on, today_of, without_race
from bot.conversation.survey.races import HALF_KM, LONGEST_KM, SHORTEST_KM, RaceNamed, RacesSaid, races_said
from bot.conversation.survey.route import done, undone
from planning.terms.choices import RaceMode, Units
from planning.terms.person import Race

CUTOFFS = (20, 720)
"""Minutes of a time limit that are believed."""


def hear_race(draft: Draft, text: str, now: datetime) -> Answer:
    """A race with distance and date, or that there is none yet."""
    today = today_of(draft, now)
    said = races_said(text, today, draft.country == "US")
    if said.none or (not said.races and skips(text)):
        return Taken(done(undone(without_race(draft), Step.RACE_DAY), Step.RACE))
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
        return problem_on(race.on, today)
    if race.month and race.month < today.replace(day=1):
        return "survey_hint_race_past"
    return "survey_hint_race_far" if race.month and race.month - today > FARTHEST else None


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
