"""The line that says what was understood."""

from dataclasses import dataclass

from bot.conversation.draft import Draft, Step
from bot.conversation.survey.races import HALF_KM


@dataclass(frozen=True, slots=True)
class Line:
    """Names of a sentence and of its slots."""

    word: str
    slots: tuple[str, ...] = ()


def echo(step: Step, draft: Draft) -> Line:
    """What was understood as the answer to *step*."""
    match step:
        case Step.CALLED:
            return Line("survey_got_called", ("called",)) if draft.called else Line("survey_got_skip")
        case Step.PLACE:
            return Line("survey_got_place" if draft.place_sure else "survey_got_place_near", ("place", "time"))
        case Step.PLACE_CHECK:
            return Line("survey_got_clock", ("time",))
        case Step.DAYS | Step.TIMES:
            return Line("survey_got_days" if draft.times else "survey_got_days_alone", ("days",))
        case Step.WALK | Step.JOG | Step.WEEK | Step.LONGEST:
            return _minutes(step, draft)
        case Step.RACE | Step.RACE_DAY:
            return _race(draft)
        case Step.SUMMARY:
            return Line("survey_got_summary")
        case Step.CONSENT:
            return Line("survey_got_consent" if draft.consent else "survey_got_no_consent")
        case _:
            return _health(step, draft)


def _minutes(step: Step, draft: Draft) -> Line:
    if step is Step.JOG and not draft.jog_min:
        return Line("survey_got_no_jog")
    if step is Step.WEEK and not draft.week_min:
        return Line("survey_got_no_week")
    if step is Step.WEEK:
        both = draft.week_min > 0 and Step.LONGEST in draft.answered
        return Line("survey_got_recent" if both else "survey_got_week", ("week", "longest") if both else ("week",))
    return Line(f"survey_got_{step}", (step.value,))


def _race(draft: Draft) -> Line:
    if draft.race_km is None:
        return Line("survey_got_no_race")
    half = draft.race_km == HALF_KM
    if draft.race_on is None and draft.race_month is None:
        return Line("survey_got_half_open") if half else Line("survey_got_race_open", ("distance",))
    return Line("survey_got_half", ("race_on",)) if half else Line("survey_got_race", ("distance", "race_on"))


def _health(step: Step, draft: Draft) -> Line:
    said = {
        Step.ACTIVE: draft.active,
        Step.DISEASE: draft.disease,
        Step.SIGNS: draft.signs,
        Step.PREGNANT: draft.pregnant,
        Step.ADULT: True,
        Step.ANY_SIGN: False,
    }
    if step in said:
        return Line("survey_got_yes" if said[step] else "survey_got_no")
    if step is Step.AGE:
        return Line("survey_got_age", ("age",)) if draft.age else Line("survey_got_skip")
    return _size(draft)


def _size(draft: Draft) -> Line:
    names = tuple(
        name for name in ("height", "weight") if getattr(draft, "height_cm" if name == "height" else "weight_kg")
    )
    words = {(): "survey_got_skip", ("height",): "survey_got_height", ("weight",): "survey_got_weight"}
    return Line(words.get(names, "survey_got_size"), names)
