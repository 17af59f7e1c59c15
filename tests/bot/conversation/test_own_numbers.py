"""Questions about one's own numbers: given where that is safe and something is known, else plain words."""

import tomllib
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from bot.conversation import asks_ahead, converse
from bot.conversation.changes import SetQuestion
from bot.conversation.events import Heard
from bot.conversation.known import Hold, Known, Question
from bot.conversation.says import Asks, Kind, Say
from bot.forms import profile_from_json
from bot.reading import read
from bot.words.render import render
from planning.plan.build import build_plan
from planning.progress.weight import Weighing
from planning.terms.choices import Activity, Danger
from planning.terms.entry import Entry, Status
from planning.terms.person import Screen
from tests.support.people import ada

NOW = datetime(2026, 3, 3, 12, tzinfo=UTC)
TODAY = date(2026, 3, 3)
NEVER = tomllib.loads(Path(__file__).with_name("not_own_numbers.toml").read_text(encoding="utf-8"))
HEART = Question(Asks.SCREEN, TODAY, said="tablets that slow the heart")


def known(**profile: object) -> Known:
    return Known("ada", profile=profile_from_json(ada(**profile)), since=NOW - timedelta(days=1))


def screened(**answers: bool) -> Known:
    person = known()
    assert person.profile is not None
    return replace(person, profile=replace(person.profile, screen=Screen(**answers)))


def told(text: str, person: Known) -> tuple[Say, Question | None]:
    """What the person is told when they write that, and the question that is open then."""
    outcome = converse(person, Heard("t-1", read(text, NOW.replace(tzinfo=None), "Europe/London")), NOW)
    asked = [each.question for each in outcome.changes if isinstance(each, SetQuestion)]
    return next(say for say in outcome.says if say.to == "ada"), asked[-1] if asked else person.question


def text_of(say: Say) -> str:
    return render(say, TODAY, "Europe/London").text


@pytest.mark.parametrize(("name", "text"), [(name, text) for name, texts in NEVER.items() for text in texts])
def test_what_asks_for_no_number_gets_none(name: str, text: str) -> None:
    assert f"card_{name}" not in told(text, known())[0].words


def test_enough_was_tried_that_asks_for_no_number() -> None:
    assert min(map(len, NEVER.values())) >= 20


def test_talk_comes_first_and_then_one_question() -> None:
    say, asked = told("what heart rate should I aim for?", known())
    assert (say.words, say.facts.asks) == (("card_heart_rate", "ask_heart_tablets"), Asks.SCREEN)
    assert asked == HEART
    assert render(say, TODAY, "Europe/London").labels == ("Yes", "No", "Not sure")


@pytest.mark.parametrize(("age", "low", "high"), [(20, 125, 145), (44, 115, 135), (60, 105, 125), (80, 95, 115)])
def test_without_tablets_there_is_a_range_by_age(age: int, low: int, high: int) -> None:
    """64 to 76 % (American College of Sports Medicine) of 208 - 0.7 x age (Tanaka et al. 2001, JACC 37:153), to 5."""
    say, asked = told("no", replace(known(age=age), question=HEART))
    assert f"some {low} to {high} beats" in text_of(say)
    assert "10 or so either way" in text_of(say)
    assert asked is None


@pytest.mark.parametrize("text", ["none of them", "no beta blockers", "No, I don't", "no tablets that slow the heart"])
def test_a_clear_no_is_understood(text: str) -> None:
    assert told(text, replace(known(), question=HEART))[0].words[0] == "heart_range"


@pytest.mark.parametrize(
    "text", ["yes", "not sure", "I don't know", "maybe", "bisoprolol", "metoprolol 50", "yes, I take a beta-blocker"]
)
def test_with_tablets_or_in_doubt_there_is_no_number(text: str) -> None:
    say, asked = told(text, replace(known(), question=HEART))
    assert say.words == ("heart_by_talk", "card_heart_rate_see")
    assert asked is None


@pytest.mark.parametrize("label", ["i take tablets that slow the heart", "not sure about tablets that slow the heart"])
def test_a_button_says_all_by_itself(label: str) -> None:
    assert told(label, known())[0].words[0] == "heart_by_talk"
    assert told("no tablets that slow the heart", known())[0].words[0] == "heart_range"


@pytest.mark.parametrize(
    "person",
    [screened(pregnant=True), screened(disease=True), screened(signs=True), known(age=None)],
    ids=["pregnant", "disease", "signs", "no age"],
)
@pytest.mark.parametrize("text", ["what heart rate should I aim for?", "no tablets that slow the heart"])
def test_some_get_no_number_whatever_they_take(person: Known, text: str) -> None:
    say, asked = told(text, person)
    assert not any(each in text_of(say) for each in ("beats a minute", "beta-blockers"))
    assert asked is None


def test_while_danger_stands_there_is_no_number() -> None:
    held = replace(known(), holds=(Hold((Danger.CHEST,), TODAY, "m-1"),))
    assert told("what should my pulse be?", held)[0].words == (
        "card_heart_rate",
        "card_heart_rate_see",
        "card_on_hold",
    )
    assert told("no tablets that slow the heart", held)[0].words[0] == "heart_by_talk"


def test_a_question_about_a_complaint_keeps_its_place() -> None:
    asked = Question(Asks.BEARS, TODAY)
    say, still = told("what should my pulse be?", replace(known(), question=asked))
    assert say.words == ("card_heart_rate", "card_heart_rate_see")
    assert still == asked


def test_days_later_a_bare_no_answers_nothing_about_tablets() -> None:
    old = replace(known(), question=replace(HEART, on=TODAY - timedelta(days=3)))
    assert "heart_range" not in told("no", old)[0].words


def test_a_no_with_danger_in_it_is_danger() -> None:
    say, _ = told("no, but my chest hurts", replace(known(), question=HEART))
    assert say.kind is Kind.URGENT


def outings(*entries: Entry, **profile: object) -> Known:
    return replace(known(weight_talk=True, **profile), entries=entries)


FAST_LOSS = tuple(Weighing(TODAY - timedelta(weeks=week), 94 + 1.6 * week) for week in range(6, -1, -1))
WALK = Entry(TODAY, kind=Activity.WALK, minutes=30, km=2.5)


def test_the_last_outing_is_told_rounded_and_without_leave_or_debt() -> None:
    """2.5 km in half an hour is 83.3 m/min: 0.1 x 83.3 ml/kg/min on top of resting (ACSM, 10th ed., table 6.3), 104 kg,
    5 kcal a litre: 130 kcal, told to 50."""
    text = text_of(told("how many calories did I burn?", outings(WALK))[0])
    assert "about 150 kcal" in text
    assert "nothing is owed" in text


def test_only_the_last_day_with_an_outing_counts() -> None:
    yesterday = replace(WALK, on=TODAY - timedelta(days=1), minutes=90, km=7.5)
    twice = outings(yesterday, WALK, WALK, Entry(TODAY, kind=Activity.STRENGTH, minutes=8))
    assert "about 250 kcal" in text_of(told("kcal for today?", twice)[0])


@pytest.mark.parametrize(
    "person",
    [
        replace(outings(WALK), profile=known().profile),
        outings(WALK, weight_kg=None),
        outings(WALK, weight_kg=50),
        replace(outings(WALK), weights=FAST_LOSS),
        replace(outings(WALK), holds=(Hold((Danger.CHEST,), TODAY, "m-1"),)),
    ],
    ids=["no talk of weight", "no weight", "a low weight", "a fast loss", "danger stands"],
)
def test_some_get_a_kind_word_and_no_number_of_energy(person: Known) -> None:
    say, _ = told("how many calories did I burn?", person)
    assert say.words[0] == "card_energy"
    assert "about" not in text_of(say).splitlines()[0]


@pytest.mark.parametrize(
    "text",
    ["how many calories can I eat?", "how many calories should I burn?", "how many calories to burn off a pizza?"],
)
def test_beside_food_nobody_gets_a_number_of_energy(text: str) -> None:
    assert "energy_last" not in told(text, outings(WALK))[0].words


def test_while_pregnant_energy_is_no_subject() -> None:
    person = outings(WALK)
    assert person.profile is not None
    expecting = replace(person, profile=replace(person.profile, screen=Screen(pregnant=True)))
    assert told("how many calories did I burn?", expecting)[0].words[0] == "card_pregnancy"


def test_a_sign_that_eating_hurts_is_answered_alone() -> None:
    say, _ = told("I made myself throw up, how many calories did I burn?", outings(WALK))
    assert (say.kind, say.also) == (Kind.CARE, ())
    assert "kcal" not in text_of(say)


def test_on_a_low_day_no_number_of_energy_is_told() -> None:
    say, _ = told("feeling really low, how many calories did I burn?", outings(WALK))
    assert say.kind is Kind.CARE
    assert "energy_last" not in say.words


@pytest.mark.parametrize("entries", [(), (Entry(TODAY, kind=Activity.SESSION),), (Entry(TODAY, Status.MISSED),)])
def test_of_what_is_not_known_no_energy_is_told(entries: tuple[Entry, ...]) -> None:
    assert told("kcal?", outings(*entries))[0].words == ("card_energy", "energy_not_known")


def going(km: float, minutes: float, **profile: object) -> Known:
    """Somebody with four run-walks of that length, one a week."""
    days = (TODAY - timedelta(weeks=week) for week in range(3, -1, -1))
    entries = tuple(Entry(on, kind=Activity.RUN_WALK, km=km, minutes=minutes) for on in days)
    return replace(known(**profile), entries=entries)


def race(**more: object) -> dict[str, object]:
    return {"race": {"date": "2026-11-01", "km": 21.0975} | more}


@pytest.mark.parametrize(
    ("km", "minutes", "said"),
    [
        (10, 90, ("about 3:10", "between 2:50 and 3:30", "your own log")),
        (5, 45, ("about 3:10", "between 2:45 and 3:55", "a guess")),
    ],
)
def test_a_finish_is_a_time_with_a_band_to_five_minutes(km: float, minutes: float, said: tuple[str, ...]) -> None:
    """21.0975 km at 6.67 km/h is 189.9 min; band 92 to 110 %, below 10 km in one go 88 to 122 % (common practice)."""
    text = text_of(told("how long will it take me?", going(km, minutes))[0])
    assert [each for each in said if each not in text] == []


@pytest.mark.parametrize(("cutoff_min", "words"), [(240, "cutoff_inside"), (200, "cutoff_close"), (180, "cutoff_over")])
def test_a_finish_is_told_against_the_limit(cutoff_min: int, words: str) -> None:
    say, _ = told("will I make the cut-off?", going(10, 90, **race(cutoff_min=cutoff_min)))
    assert say.words == ("finish_band", "finish_log", words)
    assert f"limit is {cutoff_min // 60}:{cutoff_min % 60:02}" in text_of(say)


def test_a_limit_that_nobody_named_is_asked_for() -> None:
    assert told("will I make the cut-off?", going(10, 90))[0].words[-1] == "cutoff_unknown"
    assert "cutoff_unknown" not in told("how long will it take me?", going(10, 90))[0].words


@pytest.mark.parametrize("person", [known(), replace(going(10, 90), entries=going(10, 90).entries[:2])])
def test_with_too_little_logged_it_is_said_what_a_finish_needs(person: Known) -> None:
    assert told("how long will it take me?", person)[0].words == ("card_finish",)


def test_while_danger_stands_no_finish_is_told() -> None:
    held = replace(going(10, 90), holds=(Hold((Danger.CHEST,), TODAY, "m-1"),))
    assert told("how long will it take me?", held)[0].words == ("card_finish", "card_on_hold")


def test_a_walk_is_forecast_by_walking_alone() -> None:
    person = going(10, 90, **race(mode="walk"))
    walks = tuple(Entry(TODAY - timedelta(days=day), kind=Activity.WALK, km=5, minutes=60) for day in (9, 6, 3))
    runs = tuple(Entry(TODAY - timedelta(days=day), kind=Activity.RUN, km=4, minutes=30) for day in (8, 5, 2))
    text = text_of(told("how long will it take me?", replace(person, entries=(*walks, *runs)))[0])
    assert "about 4:15" in text


def test_a_race_that_is_over_is_no_aim() -> None:
    person = going(5, 45, begin="2026-02-02", race={"date": "2026-03-01", "km": 5})
    assert "21.1 km" in text_of(told("how long will it take me?", person)[0])


@pytest.mark.parametrize(
    ("text", "ahead"),
    [
        ("how long will it take me?", True),
        ("done", False),
        ("what shoes?", False),
        ("did 20, when will I finish?", False),
    ],
)
def test_the_whole_plan_is_looked_up_for_these_questions_alone(text: str, ahead: bool) -> None:
    assert asks_ahead(Heard("t-1", read(text, NOW.replace(tzinfo=None), "Europe/London"))) is ahead


def on_the_way(race_on: str, *, done: bool = True, **more: object) -> Known:
    """Somebody eight weeks into a plan, who did all of it, or nothing."""
    person = known(begin="2026-01-05", race={"date": race_on, "km": 21.0975}, **more)
    assert person.profile is not None
    plan = build_plan(person.profile)
    past = [each for each in plan.sessions if each.on < TODAY] if done else []
    entries = tuple(Entry(each.on, kind=Activity.SESSION, planned_on=each.on) for each in past)
    return replace(person, plan=plan, entries=entries)


READY = "will I be ready by the race?"


@pytest.mark.parametrize(
    ("person", "words", "of_ten"),
    [
        (on_the_way("2026-12-06"), ("ready_likely", "ready_band"), "8 to 10"),
        (on_the_way("2026-08-30"), ("ready_even", "ready_band"), "1 to 10"),
        (on_the_way("2026-08-30", done=False), ("ready_unlikely", "ready_band", "ready_ways", "ready_later"), "0 to 1"),
        (on_the_way("2026-06-07"), ("ready_too_near", "ready_ways", "ready_later"), "3 to 10"),
    ],
    ids=["likely", "even", "unlikely", "the plan itself does not fit"],
)
def test_being_ready_is_told_in_words_and_a_band(person: Known, words: tuple[str, ...], of_ten: str) -> None:
    say, _ = told(READY, person)
    assert say.words == words
    assert next(slot.value for slot in say.slots if slot.name == "of_ten") == of_ten


def test_what_may_go_either_way_is_called_neither_likely_nor_unlikely() -> None:
    text = text_of(told(READY, on_the_way("2026-08-30"))[0])
    assert "either way" in text
    assert "likely" not in text


def test_too_soon_is_about_the_date_and_leaves_the_choice() -> None:
    text = text_of(told(READY, on_the_way("2026-08-30", done=False))[0])
    assert [each for each in ("not about you", "shorter race", "later one", "your choice") if each not in text] == []


def test_a_day_changes_nothing_about_being_ready() -> None:
    person = on_the_way("2026-08-30")
    bad_day = replace(person, entries=(*person.entries, Entry(TODAY, Status.MISSED, planned_on=TODAY)))
    assert told(READY, bad_day)[0] == told(READY, person)[0]


def test_before_four_weeks_it_is_said_that_they_are_needed() -> None:
    person = known()
    assert person.profile is not None
    assert told(READY, replace(person, plan=build_plan(person.profile)))[0].words == ("card_ready",)


def test_without_a_race_nothing_presses() -> None:
    person = on_the_way("2026-08-30")
    assert person.profile is not None
    assert told(READY, replace(person, profile=replace(person.profile, race=None)))[0].words == ("ready_no_date",)


def test_some_are_told_by_a_clinician_whether_they_are_ready() -> None:
    person = on_the_way("2026-08-30")
    assert person.profile is not None
    expecting = replace(person, profile=replace(person.profile, screen=Screen(pregnant=True)))
    held = replace(person, holds=(Hold((Danger.CHEST,), TODAY, "m-1"),))
    assert told(READY, expecting)[0].words == ("card_pregnancy", "card_pregnancy_see")
    assert told(READY, held)[0].words == ("card_ready", "card_on_hold")


def test_the_share_of_running_on_race_day_goes_into_the_finish() -> None:
    person = on_the_way("2026-12-06")
    days = range(9)
    kinds = [(Activity.WALK, 5.0), (Activity.RUN, 8.0), (Activity.STRETCH, 0.0)]
    log = [Entry(TODAY - timedelta(days=day), kind=kinds[day % 3][0], minutes=60, km=kinds[day % 3][1]) for day in days]
    assert person.plan is not None
    assert person.plan.race_day is not None
    run, walk = person.plan.race_day.run_seconds, person.plan.race_day.walk_seconds
    kmh = (8 * run + 5 * walk) / (run + walk)
    expected = round(21.0975 / kmh * 60 / 5) * 5
    text = text_of(told("how long will it take me?", replace(person, entries=tuple(log)))[0])
    assert f"about {expected // 60}:{expected % 60:02}," in text
