"""Whatever is written at whatever step: no failure, one message, one question, and the answers stay."""

from datetime import datetime, timedelta

from hypothesis import example, given, settings
from hypothesis import strategies as st
from pydantic import TypeAdapter

from bot.conversation.changes import KeepDraft
from bot.conversation.draft import Draft, Step
from bot.conversation.events import Heard
from bot.conversation.known import Known
from bot.conversation.survey import survey
from bot.reading.facts import Reading
from tests.bot.conversation.survey.talking import MONDAY_EVENING, Talk, shown
from tests.bot.conversation.survey.test_survey import full_draft

PHRASES = (
    *("hi", "Sam", "Leeds", "Texas", "yes", "no", "not sure", "skip", "back", "keep", "why", "help", "change days"),
    *("tue thu 18:30", "weekdays", "at 7", "20", "none", "60, longest 25", "half on 1 nov", "half in october", "18"),
    *(
        "no race yet",
        "10k first on 3 may",
        "type 2 diabetes",
        "44",
        "168 104",
        "5'6",
        "16 st 5",
        "change walk",
        "2 miles",
    ),
)
DRAFT = TypeAdapter(Draft)


@given(st.sampled_from(Step), st.one_of(st.text(max_size=200), st.sampled_from(PHRASES)))
@example(Step.WALK, "9" * 4000)
@example(Step.RACE, "1/" * 2000)
@example(Step.DAYS, "mon " * 1000)
@example(Step.PLACE, "a" * 4096)
@example(Step.RACE_DAY, "29 feb 2027")
@example(Step.CALLED, "\u202e\ud800\x00")
@settings(max_examples=300, deadline=None)
def test_any_text_at_any_step_gives_one_message_that_can_be_worded(step: Step, text: str) -> None:
    draft = Draft(**{**{name: getattr(FULL, name) for name in Draft.__slots__}, "step": step})
    outcome = survey(Known("sam", draft=draft), Heard("m", Reading(text, MONDAY_EVENING)), MONDAY_EVENING)
    (say,) = outcome.says
    assert shown(say)


@given(st.lists(st.sampled_from(PHRASES), max_size=40))
@settings(max_examples=150, deadline=None)
def test_any_talk_goes_on_with_a_draft_that_can_be_stored(texts: list[str]) -> None:
    talk = Talk()
    for text in texts:
        talk.say(text)
        if talk.draft is None:
            break
        assert DRAFT.validate_json(DRAFT.dump_json(talk.draft)) == talk.draft
        assert talk.draft.consent or {talk.draft.age, talk.draft.weight_kg, talk.draft.disease, talk.draft.signs} == {
            None
        }


@given(st.lists(st.sampled_from(["back", "keep", "why", "help"]), max_size=30), st.integers(1, 16))
@settings(max_examples=100, deadline=None)
def test_going_back_and_forth_keeps_the_answers(moves: list[str], steps: int) -> None:
    texts = ("hi", "Sam", "Leeds", "tue 7", "20", "2", "60", "25", "none", "yes", "yes", "no", "no", "no", "no", "44")
    talk = Talk(*texts[:steps])
    before = answers(talk.draft)
    for move in moves:
        talk.say(move)
    assert answers(talk.draft) == before


@given(st.integers(0, 5 * 365 * 24 * 60).map(lambda minutes: MONDAY_EVENING + timedelta(minutes=minutes)))
@settings(max_examples=60, deadline=None)
def test_the_profile_begins_today_or_tomorrow_and_the_race_lies_ahead(now: datetime) -> None:
    talk = Talk("hi", "Sam", "Leeds", "daily 7", "20", "0", "0", "half in 30 weeks", now=now)
    for text in ("yes", "yes", "no", "no", "no", "no", "44", "skip"):
        talk.say(text)
    assert talk.profile is not None
    assert talk.profile.race is not None
    assert 0 <= (talk.profile.begin - now.date()).days <= 2
    assert talk.profile.race.on > talk.profile.begin


def answers(draft: Draft | None) -> dict[str, object]:
    return {name: getattr(draft, name) for name in Draft.__slots__ if name != "step"}


def test_every_outcome_keeps_the_draft_until_the_end() -> None:
    outcome = survey(Known("sam"), Heard("m", Reading("hi", MONDAY_EVENING)), MONDAY_EVENING)
    assert outcome.changes == (KeepDraft(Draft(step=Step.CALLED)),)


FULL = full_draft()
