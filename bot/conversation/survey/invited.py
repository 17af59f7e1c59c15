"""Somebody sent a code: a runner is led through the survey as their coach's, a coach through two questions."""

from dataclasses import replace
from datetime import datetime

from bot.conversation.changes import Outcome, UseCode
from bot.conversation.draft import Draft, Step
from bot.conversation.events import Invited
from bot.conversation.known import Known
from bot.conversation.says import Kind, Say, Slot
from bot.conversation.survey.echo import Line
from bot.conversation.survey.tell import Turn, ask
from planning.terms.choices import Role


def invited(known: Known, event: Invited, now: datetime) -> Outcome:
    """What a code opens. A wrong, a used and an old one are answered alike."""
    if event.role is None:
        return Outcome((), (Say(known.who, Kind.STRANGER, ("survey_code_wrong",)),))
    turn = Turn(known.who, now, None)
    before = known.draft or Draft()
    draft = replace(before, coach=event.coach, role=event.role)
    if draft.step is Step.START or event.role is Role.COACH:
        draft = replace(draft, step=Step.CALLED)
    lines = (Line("survey_hello_coach"),) if event.role is Role.COACH else _hello(before)
    outcome = ask(turn, draft, lines, (Slot("coach", event.called),))
    return replace(outcome, changes=(*outcome.changes, UseCode(event.mark, now)))


def _hello(before: Draft) -> tuple[Line, ...]:
    """The coach's name first; the rules too if nothing was said yet."""
    invited_by = Line("survey_invited", ("coach",))
    if before.step is not Step.START:
        return (invited_by,)
    return (Line("survey_hello"), invited_by, Line("survey_hello_rules"))
