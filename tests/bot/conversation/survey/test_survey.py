"""The survey as a talk: one question at a time, nothing lost, whatever is said."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from bot.conversation.draft import Draft, Step
from bot.conversation.says import Asks, Kind
from planning.terms.person import Race
from tests.bot.conversation.survey.talking import TO_CONSENT, TO_SUMMARY, Talk


def test_any_first_message_begins_with_the_name() -> None:
    talk = Talk("K7Q2-M9RT")
    assert (talk.last.kind, talk.asks) == (Kind.ASK, Asks.CALLED)
    assert "a bot" in talk.text
    assert "not a doctor" in talk.text


def test_the_questions_come_in_order() -> None:
    talk = Talk()
    asked = [talk.say(text).facts.asks for text in (*TO_CONSENT, "yes", "no", "no", "no", "no", "44")]
    order = [Asks.CALLED, Asks.TZ, Asks.DAYS, Asks.WALK, Asks.JOG, Asks.RECENT, Asks.RECENT, Asks.RACE, Asks.CONFIRM]
    assert asked == [*order, Asks.CONSENT, *[Asks.SCREEN] * 4, Asks.AGE, Asks.SIZE]


def test_every_question_begins_with_what_was_understood() -> None:
    talk = Talk("hi", "Sam", "Leeds", "mondays and thursdays before work, half six")
    assert talk.text.splitlines()[0] == "Your days: Mon, Thu 06:30."


def test_the_clock_is_shown_with_the_city() -> None:
    assert "So it is 12:05 with you now?" in Talk("hi", "Sam", "Texas").text
    assert "so it is 18:05 with you now" in Talk("hi", "Sam", "Leeds").text


@pytest.mark.parametrize("text", ["no", "no, it's 19:05", "wrong"])
def test_a_wrong_clock_leads_back_to_the_city(text: str) -> None:
    assert Talk("hi", "Sam", "Leeds", text).asks is Asks.TZ
    assert Talk("hi", "Sam", "Texas", text).asks is Asks.TZ


def test_another_city_answers_the_question_about_the_clock() -> None:
    talk = Talk("hi", "Sam", "Texas", "no, El Paso")
    assert talk.draft is not None
    assert talk.draft.tz == "America/Denver"


def test_days_without_a_time_bring_the_question_of_the_time() -> None:
    talk = Talk("hi", "Sam", "Leeds", "tuesdays and saturdays")
    assert talk.asks is Asks.DAYS
    assert talk.say("half six").facts.asks is Asks.WALK


def test_a_time_that_came_before_the_days_is_not_lost() -> None:
    talk = Talk("hi", "Sam", "Leeds", "three times a week at 7", "tue thu sat")
    assert "Tue, Thu, Sat 07:00" in talk.text


@pytest.mark.parametrize(
    ("said", "begin"),
    [
        ("tue thu 18:30 starting next monday", date(2026, 3, 9)),
        ("tue thu 18:30, start on 10 march", date(2026, 3, 10)),
        ("tue thu 18:30 from next week", date(2026, 3, 9)),
        ("tue thu 18:30", date(2026, 3, 3)),
        ("mon thu 20:00", date(2026, 3, 2)),
        ("mon thu 19:00", date(2026, 3, 3)),
    ],
)
def test_the_plan_begins_tomorrow_unless_today_is_still_ahead_or_another_day_is_said(said: str, begin: date) -> None:
    talk = Talk("hi", "Sam", "Leeds", said, "20", "0", "0", "none", "yes", "yes", "no", "no", "no", "no", "44", "skip")
    assert talk.profile is not None
    assert talk.profile.begin == begin


def test_more_jog_than_walk_is_asked_again() -> None:
    talk = Talk("hi", "Sam", "Leeds", "tue 7", "5", "20")
    assert talk.asks is Asks.JOG
    assert "20 min of jog but 5 min of walk" in talk.text
    assert talk.say("2").facts.asks is Asks.RECENT


def test_a_walk_that_falls_below_the_jog_brings_the_jog_again() -> None:
    talk = Talk("hi", "Sam", "Leeds", "tue 7", "20", "10", "change walk", "5")
    assert talk.asks is Asks.JOG


@pytest.mark.parametrize(
    "text",
    ["half on 1 january 2026", "half tomorrow", "half today", "half 31 feb", "marathon in may", "half 2040-01-01"],
)
def test_a_race_that_can_not_be_is_asked_again(text: str) -> None:
    talk = Talk(*TO_SUMMARY[:-1], text)
    assert talk.asks is Asks.RACE
    assert talk.say("no race yet").facts.asks is Asks.CONFIRM


def test_a_month_is_asked_for_its_day_and_the_first_sunday_stands_in() -> None:
    talk = Talk(*TO_SUMMARY[:-1], "half in october")
    assert talk.asks is Asks.RACE
    talk.say("not sure")
    assert talk.draft is not None
    assert talk.draft.race_on == date(2026, 10, 4)


def test_a_shorter_race_said_first_is_kept_on_the_way() -> None:
    talk = Talk(*TO_SUMMARY[:-1], "10k first on 3 may")
    assert talk.asks is Asks.RACE
    talk.say("none yet")
    assert talk.draft is not None
    assert (talk.draft.race_on, talk.draft.milestones) == (None, (Race(date(2026, 5, 3), 10),))


@pytest.mark.parametrize("text", ["asdf", "hmm", "🙂", "{called}", "%s", "maybe"])
def test_an_answer_that_is_not_understood_loses_nothing(text: str) -> None:
    for count in range(2, len(TO_SUMMARY)):
        talk = Talk(*TO_SUMMARY[:count])
        before, asks = talk.draft, talk.asks
        talk.say(text)
        assert (talk.draft, talk.asks) == (before, asks)


def test_back_shows_the_answer_and_keep_leaves_it() -> None:
    talk = Talk(*TO_SUMMARY[:5], "back")
    assert talk.asks is Asks.WALK
    assert "Walk: 20 min" in talk.text
    assert talk.say("keep").facts.asks is Asks.JOG


def test_going_all_the_way_back_keeps_every_answer() -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", "no")
    before = talk.draft
    assert before is not None
    asked = [talk.say("back").facts.asks for _ in range(len(before.answered) + 2)]
    assert asked[-1] is Asks.CALLED
    assert talk.say("keep").facts.asks is Asks.SCREEN
    assert talk.draft == before


def test_a_change_at_the_summary_comes_back_to_it() -> None:
    talk = Talk(*TO_SUMMARY, "change days")
    assert talk.asks is Asks.DAYS
    talk.say("mon 7")
    assert talk.asks is Asks.CONFIRM
    assert "Days: Mon 07:00" in talk.text


@pytest.mark.parametrize(
    ("text", "asks"),
    [("the race is wrong", Asks.RACE), ("no, my name", Asks.CALLED), ("city", Asks.TZ), ("jog", Asks.JOG)],
)
def test_the_summary_hears_what_is_to_be_changed(text: str, asks: Asks) -> None:
    assert Talk(*TO_SUMMARY, text).asks is asks


def test_a_no_to_the_summary_asks_what_to_change() -> None:
    talk = Talk(*TO_SUMMARY, "no")
    assert talk.asks is Asks.CONFIRM
    assert "what to change" in talk.text


def test_a_button_that_opens_a_question_opens_one_that_was_reached() -> None:
    talk = Talk(*TO_SUMMARY)
    assert talk.open(Asks.DAYS).facts.asks is Asks.DAYS
    assert talk.open(Asks.SIZE).facts.asks is Asks.DAYS


@pytest.mark.parametrize("word", ["stop", "leave", "/stop", "delete me"])
def test_stop_asks_once_and_erases_after_a_yes(word: str) -> None:
    talk = Talk(*TO_SUMMARY, word)
    assert (talk.asks, talk.erased) == (Asks.CONFIRM, False)
    talk.say("yes")
    assert (talk.last.kind, talk.erased) == (Kind.GONE, True)


def test_after_stop_and_no_all_goes_on_as_before() -> None:
    talk = Talk(*TO_SUMMARY[:5])
    before, asks = talk.draft, talk.asks
    talk.say("stop")
    talk.say("no")
    assert (talk.draft, talk.asks) == (before, asks)


def test_why_is_answered_at_every_question() -> None:
    for step in (step for step in Step if step not in (Step.START, Step.LEAVE)):
        talk = Talk("why", draft=replace(full_draft(), step=step))
        assert talk.last.words[0] == f"survey_why_{step}"
        assert talk.text


def test_help_and_a_pressed_start_say_what_can_be_said_and_ask_again() -> None:
    for word in ("help", "/start", "?"):
        talk = Talk(*TO_SUMMARY[:4], word)
        assert (talk.last.words[0], talk.asks) == ("survey_help", Asks.WALK)


def test_start_over_begins_anew() -> None:
    assert Talk(*TO_SUMMARY, "start over").draft == Draft(step=Step.CALLED)


def test_the_answer_carries_the_reading_of_the_message() -> None:
    talk = Talk("hi", "Sam")
    assert talk.last.facts.reading is not None
    assert talk.last.facts.reading.text == "Sam"


def test_the_coach_whose_code_was_sent_is_named_in_the_profile_and_told_of_at_consent() -> None:
    talk = Talk(*TO_CONSENT, draft=Draft(coach="kim"))
    assert "Your coach" in talk.text
    for text in ("yes", "no", "no", "no", "no", "44", "skip"):
        talk.say(text)
    assert talk.profile is not None
    assert talk.profile.coach == "kim"


def full_draft() -> Draft:
    """A draft with something in every field, of somebody invented."""
    talk = Talk(*TO_SUMMARY[:-1], "10k on 3 may, half in october", "18", "yes", "yes", "no", "no", "no", "no", "44")
    assert talk.draft is not None
    return replace(talk.draft, height_cm=168.0, weight_kg=104.0, consent_at=datetime(2026, 3, 2, tzinfo=UTC))
