"""Health facts are kept only after a clear yes, and adults only.

The start follows the published pre-participation table: Riebe et al. 2015, Medicine & Science in Sports & Exercise
47:2473.
"""

import pytest

from bot.conversation.draft import Draft, Step
from bot.conversation.events import Heard
from bot.conversation.known import Known
from bot.conversation.says import Asks, Kind
from bot.conversation.survey import survey, with_sign
from bot.reading.facts import Reading
from planning.terms.choices import Mood
from tests.bot.conversation.survey.talking import MONDAY_EVENING, TO_CONSENT, TO_SUMMARY, Talk

HEALTH = ("active", "disease", "signs", "pregnant", "age", "height_cm", "weight_kg")
TELLING = "I'm 44, 168 cm and 104 kg, diabetic, with chest pain, pregnant"


def health_of(draft: Draft | None) -> set[object]:
    return {getattr(draft, name) for name in HEALTH} if draft else {None}


@pytest.mark.parametrize("steps", range(1, len(TO_CONSENT) + 1))
def test_no_health_fact_is_kept_before_consent_whatever_is_said(steps: int) -> None:
    talk = Talk(*TO_CONSENT[:steps])
    assert health_of(talk.draft) == {None}
    talk.say(TELLING)
    assert health_of(talk.draft) == {None}


def test_no_health_fact_of_the_reading_goes_into_the_answer() -> None:
    reading = Reading("104 kg, ill, low", MONDAY_EVENING, ill=True, weight_kg=104, mood=Mood.LOW)
    (say,) = survey(Known("sam"), Heard("m", reading), MONDAY_EVENING).says
    assert say.facts.reading == Reading("104 kg, ill, low", MONDAY_EVENING)


@pytest.mark.parametrize(
    "text", ["maybe", "what for", "sure, but not my weight", "yes except my weight", "hmm", "not sure"]
)
def test_what_is_no_clear_yes_is_no_consent(text: str) -> None:
    talk = Talk(*TO_CONSENT, text)
    assert talk.asks is Asks.CONSENT
    assert talk.draft is not None
    assert talk.draft.consent is None


@pytest.mark.parametrize("text", ["yes", "ok", "I agree", "sure", "no problem", "go ahead", "👍"])
def test_a_clear_yes_is_consent_with_its_time(text: str) -> None:
    talk = Talk(*TO_CONSENT, text)
    assert talk.draft is not None
    assert (talk.draft.consent, talk.draft.consent_at) == (True, talk.now)


def test_consent_taken_back_takes_the_answers_with_it() -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", "no", "no", "no", "44", "change consent", "no")
    assert health_of(talk.draft) == {None}
    assert talk.draft is not None
    assert (talk.draft.consent, talk.draft.consent_at) == (False, None)


def test_without_consent_a_clean_answer_goes_on_with_care_and_keeps_nothing() -> None:
    talk = Talk(*TO_CONSENT, "no", "yes", "none of these")
    assert talk.profile is not None
    assert (talk.profile.age, talk.profile.bmi, talk.profile.screen.disease) == (None, None, False)
    assert "careful side" in talk.text


@pytest.mark.parametrize("text", ["yes", "not sure", "I have diabetes", "rather not say", "no but sometimes dizzy"])
def test_without_consent_a_sign_leads_to_a_doctor_and_back_to_the_question_of_consent(text: str) -> None:
    talk = Talk(*TO_CONSENT, "no", "yes", text)
    assert (talk.asks, talk.profile) == (Asks.CONSENT, None)
    assert "see a doctor" in talk.text
    assert health_of(talk.draft) == {None}
    assert talk.say("no").facts.asks is Asks.SCREEN


@pytest.mark.parametrize(
    ("active", "disease", "signs", "starts"),
    [
        ("no", "no", "no", True),
        ("no", "yes", "no", False),
        ("no", "no", "yes", False),
        ("no", "yes", "yes", False),
        ("yes", "no", "no", True),
        ("yes", "yes", "no", True),
        ("yes", "no", "yes", False),
        ("yes", "yes", "yes", False),
        ("not sure", "yes", "no", False),
        ("no", "not sure", "no", False),
        ("no", "rather not say", "no", False),
        ("no", "no", "not sure", False),
    ],
)
def test_the_end_says_who_has_to_be_seen_first(active: str, disease: str, signs: str, starts: bool) -> None:
    talk = Talk(*TO_CONSENT, "yes", active, disease, signs, "no", "44", "skip")
    assert talk.last.kind is Kind.CHANGED
    assert ("see a doctor" not in talk.text) is starts


def test_with_a_disease_alone_the_own_walks_stay_and_with_signs_nothing_does() -> None:
    disease = Talk(*TO_CONSENT, "yes", "no", "yes", "no", "no", "44", "skip")
    signs = Talk(*TO_CONSENT, "yes", "no", "no", "yes", "no", "44", "skip")
    assert "survey_done_walks" in disease.last.words
    assert "survey_done_signs" in signs.last.words


@pytest.mark.parametrize("text", ["yes", "not sure", "rather not say", "yes, in June"])
def test_pregnancy_or_a_birth_sends_to_the_midwife(text: str) -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", "no", "no", text, "44", "skip")
    assert talk.profile is not None
    assert talk.profile.screen.pregnant
    assert "midwife" in talk.text


@pytest.mark.parametrize(
    ("text", "disease"),
    [
        ("type 2 diabetes", True),
        ("had a stent put in", True),
        ("no, but I'm diabetic", True),
        ("no heart or kidney trouble", False),
        ("nope", False),
    ],
)
def test_a_named_disease_is_a_yes(text: str, disease: bool) -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", text)
    assert talk.draft is not None
    assert talk.draft.disease is disease


@pytest.mark.parametrize("text", ["high blood pressure", "asthma"])
def test_what_is_not_on_the_published_list_is_asked_back(text: str) -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", text)
    assert talk.draft is not None
    assert (talk.draft.step, talk.draft.disease) == (Step.DISEASE, None)


@pytest.mark.parametrize("text", ["16", "17", "I'm 15", "born in 2010", "sixteen"])
def test_under_18_is_a_friendly_stop_with_nothing_kept(text: str) -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", "no", "no", "no", text)
    assert (talk.last.kind, talk.erased, talk.draft) == (Kind.GONE, True, None)
    assert talk.last.facts.reading is None


@pytest.mark.parametrize("steps", range(len(TO_SUMMARY)))
def test_an_age_under_18_stops_the_survey_wherever_it_is_said(steps: int) -> None:
    assert Talk(*TO_SUMMARY[:steps], "hi, I'm 16 and want to run").erased


@pytest.mark.parametrize("text", ["I'm 16 stone", "17 st", "I am 15 min from the park", "my son is 12 years old"])
def test_other_numbers_are_no_age(text: str) -> None:
    assert not Talk(*TO_CONSENT, "yes", "no", "no", "no", "no", text).erased


def test_who_skips_the_age_is_asked_whether_they_are_18() -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", "no", "no", "no", "skip")
    assert talk.asks is Asks.AGE
    assert talk.say("yes").facts.asks is Asks.SIZE
    assert Talk(*TO_CONSENT, "no", "no").erased


def test_height_and_weight_may_come_one_by_one_or_not_at_all() -> None:
    start = (*TO_CONSENT, "yes", "no", "no", "no", "no", "44")
    one_by_one, halfway, none = Talk(*start, "168", "104"), Talk(*start, "168", "skip"), Talk(*start, "rather not say")
    sizes = [(talk.profile.height_cm, talk.profile.weight_kg) for talk in (one_by_one, halfway, none) if talk.profile]
    assert sizes == [(168, 104), (168, None), (None, None)]


def test_a_danger_sign_said_in_the_survey_is_a_yes_to_signs_where_it_may_be_kept() -> None:
    talk = Talk(*TO_CONSENT, "yes", "no", "no")
    assert talk.draft is not None
    told = with_sign(talk.draft)
    assert (told.signs, told.step) == (True, Step.PREGNANT)
    end = Talk("no", "44", "skip", draft=told)
    assert "survey_done_signs" in end.last.words


def test_a_danger_sign_said_without_consent_keeps_nothing_and_nobody_goes_on() -> None:
    talk = Talk(*TO_CONSENT, "no", "yes")
    assert talk.draft is not None
    told = with_sign(talk.draft)
    assert (told.step, health_of(told)) == (Step.CONSENT, {None})
    assert Talk("no", draft=told).profile is None


def test_a_danger_sign_said_before_consent_changes_no_answer() -> None:
    talk = Talk(*TO_SUMMARY)
    assert talk.draft is not None
    assert with_sign(talk.draft) == talk.draft
