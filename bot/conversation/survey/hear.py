"""Who hears the answer to which question."""

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime

from bot.conversation.draft import Draft, Step
from bot.conversation.survey import hear_days, hear_health, hear_minutes, hear_person, hear_race, hear_race_day
from bot.conversation.survey.answer import Answer, Leaving, Taken, Unclear
from bot.conversation.survey.assent import Assent, assent, has_but
from bot.conversation.survey.commands import Command, command_in, topic_in
from bot.conversation.survey.route import done, next_step


def hear(draft: Draft, text: str, now: datetime) -> Answer:
    """What the answer *text* to the open question comes to."""
    return HEAR[draft.step](draft, text, now)


def hear_summary(draft: Draft, text: str, _now: datetime) -> Answer:
    """Whether all was understood; else what to change."""
    said = assent(text)
    if said is Assent.YES and not has_but(text):
        return Taken(done(draft, Step.SUMMARY))
    topic = topic_in(text, draft)
    if topic:
        return Unclear(replace(draft, step=topic), "survey_change")
    return Unclear(draft, "survey_hint_summary")


def hear_leave(draft: Draft, text: str, _now: datetime) -> Answer:
    """Whether all is to be erased; anything but a yes goes on."""
    if assent(text) is Assent.YES or command_in(text) is Command.LEAVE:
        return Leaving()
    return Unclear(replace(draft, step=next_step(draft) or Step.SUMMARY), "survey_stays")


HEAR: dict[Step, Callable[[Draft, str, datetime], Answer]] = {
    Step.CALLED: hear_person.hear_called,
    Step.PLACE: hear_person.hear_place,
    Step.PLACE_CHECK: hear_person.hear_place_check,
    Step.DAYS: hear_days.hear_days,
    Step.TIMES: hear_days.hear_times,
    Step.WALK: hear_minutes.hear_walk,
    Step.JOG: hear_minutes.hear_jog,
    Step.WEEK: hear_minutes.hear_week,
    Step.LONGEST: hear_minutes.hear_longest,
    Step.RACE: hear_race.hear_race,
    Step.RACE_DAY: hear_race_day.hear_race_day,
    Step.SUMMARY: hear_summary,
    Step.CONSENT: hear_health.hear_consent,
    Step.ACTIVE: hear_health.hear_active,
    Step.DISEASE: hear_health.hear_disease,
    Step.SIGNS: hear_health.hear_signs,
    Step.PREGNANT: hear_health.hear_pregnant,
    Step.AGE: hear_health.hear_age,
    Step.ADULT: hear_health.hear_adult,
    Step.SIZE: hear_health.hear_size,
    Step.HEIGHT: hear_health.hear_height,
    Step.WEIGHT: hear_health.hear_weight,
    Step.ANY_SIGN: hear_health.hear_any_sign,
    Step.LEAVE: hear_leave,
}
