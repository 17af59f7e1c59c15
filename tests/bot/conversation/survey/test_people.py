"""Three people, all invented, answer the survey from the first word to the profile."""

from datetime import UTC, date, datetime, time

from planning.terms.choices import RaceMode, Units, Weekday
from planning.terms.person import DayTime, Profile, Race, Screen
from tests.bot.conversation.survey.talking import MONDAY_EVENING, Talk

HALF = 21.0975


def test_somebody_in_leeds_who_walks_and_has_a_race_in_mind() -> None:
    talk = Talk(
        "hello there",
        "I'm Sam",
        "near Leeds",
        "Mondays and Thursdays before work, half six",
        "20 minutes",
        "none yet",
        "about 60, longest 25",
        "10k first on 3 may",
        "half marathon on 1 nov 2026",
        "yes",
        "yes",
        *("no", "no", "no", "no"),
        "44",
        "5 ft 6, 16 st 5",
    )
    assert talk.profile == Profile(
        who="sam",
        tz="Europe/London",
        days=(DayTime(Weekday.MON, time(6, 30)), DayTime(Weekday.THU, time(6, 30))),
        begin=date(2026, 3, 3),
        called="Sam",
        walk_min=20,
        jog_min=0,
        week_min=60,
        longest_min=25,
        race=Race(date(2026, 11, 1), HALF),
        milestones=(Race(date(2026, 5, 3), 10),),
        age=44,
        height_cm=167.64,
        weight_kg=103.87,
        country="GB",
    )


def test_somebody_in_texas_with_diabetes_who_goes_back_and_forth() -> None:
    talk = Talk("/start", "call me Jo please", "Austin, TX", "weekdays at 7", "2 miles", "back", "30", "5", "back", "3")
    for text in (
        "90",
        "30",
        "half in october",
        "sunday 18",
        "change days",
        "tue thu 18:30 and sunday morning at 9",
        "looks good",
    ):
        talk.say(text)
    for text in ("ok", "no", "type 2 diabetes", "none of these", "no", "rather not say", "yes", "5'6, 230 lb"):
        talk.say(text)
    assert talk.profile == Profile(
        who="sam",
        tz="America/Chicago",
        days=(
            DayTime(Weekday.TUE, time(18, 30)),
            DayTime(Weekday.THU, time(18, 30)),
            DayTime(Weekday.SUN, time(9)),
        ),
        begin=date(2026, 3, 3),
        called="Jo",
        walk_min=30,
        jog_min=3,
        week_min=90,
        longest_min=30,
        race=Race(date(2026, 10, 18), HALF),
        height_cm=167.64,
        weight_kg=104.33,
        units=Units.MILES,
        screen=Screen(disease=True),
        country="US",
    )
    assert "please see a doctor" in talk.text
    assert "stay yours" in talk.text


def test_somebody_in_auckland_who_keeps_health_to_herself() -> None:
    morning = datetime(2026, 3, 1, 17, 30, tzinfo=UTC)  # Monday 2 March, 06:30 in Auckland
    talk = Talk("kia ora", "Ana", "Auckland", "mon wed sat at 8", "5", "0", "nothing", now=morning)
    for text in ("half 1 nov, I'll walk it, cut-off 4 hours", "yes", "no", "yes", "no"):
        talk.say(text)
    assert talk.profile == Profile(
        who="sam",
        tz="Pacific/Auckland",
        days=tuple(DayTime(day, time(8)) for day in (Weekday.MON, Weekday.WED, Weekday.SAT)),
        begin=date(2026, 3, 2),
        called="Ana",
        walk_min=5,
        race=Race(date(2026, 11, 1), HALF, RaceMode.WALK, 240),
        country="NZ",
    )
    assert talk.kept is not None
    assert (talk.kept.since, talk.kept.consent_at) == (morning, None)


def test_the_draft_is_over_when_the_profile_is_kept() -> None:
    talk = Talk(
        "hi", "Sam", "Leeds", "tue 7", "20", "0", "0", "none", "yes", "yes", "no", "no", "no", "no", "44", "skip"
    )
    assert (talk.profile is not None, talk.draft) == (True, None)
    assert talk.kept is not None
    assert talk.kept.consent_at == MONDAY_EVENING
