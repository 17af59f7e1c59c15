"""The survey: one question a message, answered in one's own words; back and forth without loss.

It asks what the plan needs and nothing else. Whatever has to do with health is asked after the question whether it may
be kept; without that consent only what can be answered without being kept is asked, and the careful side is taken.
"""

from dataclasses import replace
from datetime import datetime

from bot.conversation.changes import Outcome
from bot.conversation.draft import Draft, Step
from bot.conversation.events import Heard, Opened
from bot.conversation.known import Known
from bot.conversation.survey.answer import Answer, Leaving, Taken, TooYoung, Unclear
from bot.conversation.survey.commands import Command, change_in, command_in, says_under_age
from bot.conversation.survey.echo import Line, echo
from bot.conversation.survey.hear import hear
from bot.conversation.survey.route import next_step, step_before, step_for
from bot.conversation.survey.tell import Turn, ask, erase, finish


def survey(known: Known, event: Heard | Opened, now: datetime) -> Outcome:
    """The next message of the survey, and what is to be kept. *known* has no profile; without a draft any first message
    begins. *now*: UTC. Exactly one message comes of each event.
    """
    turn = Turn(known.who, now, event.reading.text if isinstance(event, Heard) else None)
    draft = known.draft or Draft()
    if turn.text is not None and says_under_age(turn.text):
        return erase(turn, "survey_too_young")
    if draft.step is Step.START:
        return _begin(turn, draft)
    if isinstance(event, Opened):
        return ask(turn, replace(draft, step=step_for(event.asks, draft)))
    return _heard(turn, draft, event.reading.text)


def _heard(turn: Turn, draft: Draft, text: str) -> Outcome:
    if not text.strip():
        return ask(turn, draft)
    command = command_in(text) if draft.step is not Step.LEAVE else None
    if command is not None:
        return _steer(turn, draft, command)
    change = change_in(text, draft)
    if change:
        return ask(turn, replace(draft, step=change), (Line("survey_change"),))
    return _after(turn, draft.step, hear(draft, text, turn.now))


def _begin(turn: Turn, draft: Draft) -> Outcome:
    first = replace(draft, step=Step.CALLED)
    return ask(turn, first, (Line("survey_hello"), Line("survey_hello_rules")))


def _steer(turn: Turn, draft: Draft, command: Command) -> Outcome:
    match command:
        case Command.BACK:
            return _back(turn, draft)
        case Command.KEEP if draft.step in draft.answered:
            return _onward(turn, draft, (Line("survey_kept"),))
        case Command.KEEP:
            return ask(turn, draft)
        case Command.LEAVE:
            return ask(turn, replace(draft, step=Step.LEAVE))
        case Command.HELP:
            return ask(turn, draft, (Line("survey_help"),))
        case Command.WHY:
            return ask(turn, draft, (Line(f"survey_why_{draft.step}"),))
        case Command.RESTART:
            return _begin(turn, Draft(coach=draft.coach, role=draft.role))


def _back(turn: Turn, draft: Draft) -> Outcome:
    """The question before, with what was understood then."""
    step = step_before(draft)
    if step is None:
        return ask(turn, draft, (Line("survey_first"),))
    return ask(turn, replace(draft, step=step), (Line("survey_back"), echo(step, draft), Line("survey_keep_it")))


def _after(turn: Turn, step: Step, answer: Answer) -> Outcome:
    match answer:
        case Taken():
            return _onward(turn, answer.draft, (answer.got or echo(step, answer.draft),))
        case Unclear():
            return ask(turn, answer.draft, (Line(answer.hint),), answer.slots)
        case TooYoung():
            return erase(turn, "survey_too_young")
        case Leaving():
            return erase(turn, "survey_erased")


def _onward(turn: Turn, draft: Draft, before: tuple[Line, ...]) -> Outcome:
    """The first question that is still open, or the end."""
    step = next_step(draft)
    return finish(turn, draft, before) if step is None else ask(turn, replace(draft, step=step), before)
