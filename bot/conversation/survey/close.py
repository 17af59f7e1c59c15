"""The end of the survey: the profile, and what happens next."""

from datetime import datetime

from bot.conversation.draft import Draft
from bot.conversation.survey.echo import Line
from bot.conversation.survey.shown import begins_on
from planning.safety.screen import screen
from planning.terms.choices import Role
from planning.terms.person import DayTime, Profile, Race, Screen, coach_profile


def profile_of(draft: Draft, who: str, now: datetime) -> Profile:
    """The profile of somebody who has answered all. What they left out is unknown and counts as the careful side."""
    if draft.role is Role.COACH:
        return coach_profile(who, draft.tz or "UTC", draft.called)
    begin = begins_on(draft, now)
    race = (
        Race(draft.race_on, draft.race_km, draft.race_mode, draft.cutoff_min)
        if draft.race_on and draft.race_km
        else None
    )
    return Profile(
        who=who,
        tz=draft.tz or "UTC",
        days=tuple(DayTime(day, at) for day, at in zip(draft.days, draft.times, strict=True)),
        begin=begin,
        called=draft.called,
        coach=draft.coach,
        walk_min=draft.walk_min,
        jog_min=draft.jog_min,
        week_min=draft.week_min,
        longest_min=draft.longest_min,
        race=race,
        milestones=_milestones(draft, race),
        age=draft.age,
        height_cm=draft.height_cm,
        weight_kg=draft.weight_kg,
        units=draft.units,
        screen=_screen(draft),
        country=draft.country,
    )


def closing(draft: Draft) -> tuple[Line, ...]:
    """The sentences that end the survey: the plan starts, or who has to be seen first."""
    if draft.role is Role.COACH:
        return (Line("survey_done_coach", ("called",)) if draft.called else Line("survey_done_coach_nameless"),)
    said = screen(_screen(draft), cleared=False)
    midwife = (Line("survey_done_midwife"),) if said.midwife else ()
    thanks = Line("survey_done", ("called",)) if draft.called else Line("survey_done_nameless")
    if said.may_start:
        careful = (Line("survey_done_careful"),) if draft.consent is False else ()
        return (thanks, *midwife, Line("survey_done_next", ("begin",)), *careful)
    stays = Line("survey_done_signs", ("country", "here")) if draft.signs else Line("survey_done_walks")
    return (Line("survey_done_doctor"), *midwife, stays, Line("survey_done_cleared"))


def _screen(draft: Draft) -> Screen:
    return Screen(bool(draft.active), bool(draft.disease), bool(draft.signs), bool(draft.pregnant))


def _milestones(draft: Draft, race: Race | None) -> tuple[Race, ...]:
    """The shorter races on the way, in order of date, those before the race."""
    before = (each for each in draft.milestones if race is None or (each.on < race.on and each.km < race.km))
    return tuple(sorted(before, key=lambda each: each.on))
