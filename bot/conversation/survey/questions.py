"""The questions: their sentences and buttons. One question a message."""

from dataclasses import dataclass

from bot.conversation.draft import Draft, Step
from bot.conversation.says import Choice
from bot.conversation.survey.echo import Line
from bot.conversation.survey.races import HALF_KM

YES_NO = (Choice("survey_yes", "yes"), Choice("survey_no", "no"))
NOT_SURE = Choice("survey_not_sure", "not sure")
SKIP = Choice("survey_skip", "skip")
KEEP = Choice("survey_keep", "keep")


@dataclass(frozen=True, slots=True)
class Question:
    """Sentences of one question, and its buttons."""

    lines: tuple[Line, ...]
    choices: tuple[Choice, ...] = ()


CHOICES: dict[Step, tuple[Choice, ...]] = {
    Step.PLACE_CHECK: YES_NO,
    Step.DAYS: (
        Choice("survey_days_mornings", "tue thu sat at 7"),
        Choice("survey_days_evenings", "mon wed fri at 18:30"),
        Choice("survey_days_weekend", "wed 18:30, sat 9, sun 9"),
    ),
    Step.TIMES: (
        Choice("survey_time_morning", "07:00"),
        Choice("survey_time_lunch", "12:30"),
        Choice("survey_time_evening", "18:30"),
    ),
    Step.WALK: tuple(Choice(f"survey_min_{minutes}", f"{minutes} minutes") for minutes in (5, 10, 20, 30)),
    Step.JOG: (
        Choice("survey_jog_none", "none yet"),
        *(Choice(f"survey_min_{minutes}", f"{minutes} minutes") for minutes in (1, 3, 10)),
    ),
    Step.WEEK: (
        Choice("survey_week_none", "nothing yet"),
        *(Choice(f"survey_min_{minutes}", f"{minutes} minutes") for minutes in (30, 60, 100)),
    ),
    Step.LONGEST: tuple(Choice(f"survey_min_{minutes}", f"{minutes} minutes") for minutes in (10, 20, 30, 60)),
    Step.RACE: (Choice("survey_no_race", "no race yet"),),
    Step.RACE_DAY: (Choice("survey_no_day", "not sure"),),
    Step.SUMMARY: (
        Choice("survey_all_right", "yes"),
        Choice("survey_change_days", "change days"),
        Choice("survey_change_walk", "change walk"),
        Choice("survey_change_race", "change race"),
    ),
    Step.CONSENT: (Choice("survey_consent_yes", "yes"), Choice("survey_consent_no", "no")),
    Step.ACTIVE: YES_NO,
    Step.DISEASE: (*YES_NO, NOT_SURE),
    Step.SIGNS: (*YES_NO, NOT_SURE),
    Step.PREGNANT: YES_NO,
    Step.AGE: (SKIP,),
    Step.ADULT: YES_NO,
    Step.SIZE: (SKIP,),
    Step.HEIGHT: (SKIP,),
    Step.WEIGHT: (SKIP,),
    Step.ANY_SIGN: YES_NO,
    Step.LEAVE: (Choice("survey_erase", "yes, erase"), Choice("survey_go_on", "no, go on")),
}


def question(step: Step, draft: Draft) -> Question:
    """What is asked at *step*, with its buttons; one that was answered before can be left as it is."""
    choices = CHOICES.get(step, ())
    return Question(_lines(step, draft), (KEEP, *choices) if step in draft.answered else choices)


def _lines(step: Step, draft: Draft) -> tuple[Line, ...]:
    if step is Step.SUMMARY:
        return _summary(draft)
    if step is Step.PLACE_CHECK:
        return (Line("survey_ask_place_check", ("time",)),)
    if step is Step.CONSENT:
        return (Line("survey_ask_consent"), Line("survey_consent_coach" if draft.coach else "survey_consent_alone"))
    return (Line(f"survey_ask_{step}"),)


def _summary(draft: Draft) -> tuple[Line, ...]:
    """All that was understood; the race and the shorter ones only if there are any."""
    known = ("place", "time", "days", "begin", "walk", "jog")
    lines = [Line("survey_summary", ("called", *known)) if draft.called else Line("survey_summary_nameless", known)]
    lines.append(
        Line("survey_summary_recent", ("week", "longest")) if draft.week_min else Line("survey_summary_no_week")
    )
    if draft.race_km is None:
        lines.append(Line("survey_summary_no_race"))
    elif draft.race_km == HALF_KM:
        lines.append(Line("survey_summary_half", ("race_on",)))
    else:
        lines.append(Line("survey_summary_race", ("distance", "race_on")))
    if draft.milestones:
        lines.append(Line("survey_summary_stops", ("stops",)))
    return (*lines, Line("survey_ask_summary"))
