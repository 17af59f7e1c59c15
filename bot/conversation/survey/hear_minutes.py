"""Answers about minutes: what somebody can do for sure, and has done lately."""

from dataclasses import replace
from datetime import datetime

from bot.conversation.draft import Draft, Step
from bot.conversation.says import Slot
from bot.conversation.survey.amounts import JOG_KMH, WALK_KMH, Amounts, amounts_said
from bot.conversation.survey.answer import Answer, Taken, Unclear
from bot.conversation.survey.route import done, undone
from planning.terms.choices import Units

MOST_SESSION = 600
MOST_WEEK = 3000
"""Minutes that are believed of one outing and of one week. Common practice, no source."""


def hear_walk(draft: Draft, text: str, _now: datetime) -> Answer:
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


def hear_jog(draft: Draft, text: str, _now: datetime) -> Answer:
    """Minutes that somebody can surely jog: nobody jogs longer than they can walk."""
    said = amounts_said(text, JOG_KMH)
    if said is None or not said.minutes[0] <= MOST_SESSION:
        return Unclear(draft, "survey_hint_jog")
    kept = _units(replace(draft, jog_min=said.minutes[0]), said)
    if kept.jog_min > draft.walk_min:
        return Unclear(replace(draft, jog_min=0), "survey_hint_jog_over_walk", _both(kept))
    return Taken(done(kept, Step.JOG))


def hear_week(draft: Draft, text: str, _now: datetime) -> Answer:
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


def hear_longest(draft: Draft, text: str, _now: datetime) -> Answer:
    """Minutes of the longest outing of the last 30 days."""
    said = amounts_said(text, WALK_KMH)
    if said is None or not said.minutes[0] <= MOST_SESSION:
        return Unclear(draft, "survey_hint_minutes")
    return Taken(done(_units(replace(draft, longest_min=said.minutes[0]), said), Step.LONGEST))


def _units(draft: Draft, said: Amounts) -> Draft:
    return replace(draft, units=Units.MILES) if said.miles else draft


def _both(draft: Draft) -> tuple[Slot, ...]:
    return Slot("walk", f"{draft.walk_min:g}"), Slot("jog", f"{draft.jog_min:g}")
