"""Days and times as people say them. Phrases of our own making; parts of a day are common practice, no source."""

from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation.survey.days import days_said
from planning.terms.choices import Weekday

MON, TUE, WED, THU, FRI, SAT, SUN = Weekday
WEEK = tuple(Weekday)


def at(*days: Weekday, hour: int, minute: int = 0) -> dict[Weekday, time]:
    return dict.fromkeys(days, time(hour, minute))


SAID = [
    ("Mondays and Thursdays before work, half six", at(MON, THU, hour=6, minute=30)),
    ("weekdays at 7", at(*WEEK[:5], hour=7)),
    ("tue thu 18:30 and sunday morning at 9", at(TUE, THU, hour=18, minute=30) | at(SUN, hour=9)),
    ("Mon 7, Wed 18:30, Fri 7, Sun 9", at(MON, FRI, hour=7) | at(WED, hour=18, minute=30) | at(SUN, hour=9)),
    ("every day at 6am", at(*WEEK, hour=6)),
    ("daily 6:45", at(*WEEK, hour=6, minute=45)),
    ("every day but sunday 7am", at(*WEEK[:6], hour=7)),
    ("any day except monday and friday, 8 in the morning", at(TUE, WED, THU, SAT, SUN, hour=8)),
    ("monday to friday except wednesday at 6", at(MON, TUE, THU, FRI, hour=6)),
    ("mon-fri 6.30", at(*WEEK[:5], hour=6, minute=30)),
    ("fri to mon 9", at(FRI, SAT, SUN, MON, hour=9)),
    ("mo we fr 7", at(MON, WED, FRI, hour=7)),
    ("every morning at 6", at(*WEEK, hour=6)),
    ("weekday lunchtimes", at(*WEEK[:5], hour=12, minute=30)),
    ("Tuesdays & Thursdays after 6pm and Saturday mornings", at(TUE, THU, hour=18) | at(SAT, hour=7)),
    ("weekends 10", at(SAT, SUN, hour=10)),
    ("sat & sun 9ish", at(SAT, SUN, hour=9)),
    ("7am mon wed fri, 9 sunday", at(MON, WED, FRI, hour=7) | at(SUN, hour=9)),
    ("7am on weekdays, sunday at 9", at(*WEEK[:5], hour=7) | at(SUN, hour=9)),
    ("at 6 on tuesday and at 8 on saturday", at(TUE, hour=6) | at(SAT, hour=8)),
    ("mwf 6pm", at(MON, WED, FRI, hour=18)),
    ("tu/th 1830", at(TUE, THU, hour=18, minute=30)),
    ("Tue + Thu @ 6:15pm", at(TUE, THU, hour=18, minute=15)),
    ("after work tue and thu", at(TUE, THU, hour=18, minute=30)),
    ("evenings mon thu", at(MON, THU, hour=18, minute=30)),
    ("mon and thu evenings at 7", at(MON, THU, hour=19)),
    ("7 in the evening on mondays", at(MON, hour=19)),
    ("at lunch on tuesdays and fridays", at(TUE, FRI, hour=12, minute=30)),
    ("wed lunch at 1", at(WED, hour=13)),
    ("sunday afternoon", at(SUN, hour=15)),
    ("sunday noon", at(SUN, hour=12)),
    ("wensday and saterday quarter past 8", at(WED, SAT, hour=8, minute=15)),
    ("thursdsay 7", at(THU, hour=7)),
    ("tues 20 to 7", at(TUE, hour=6, minute=40)),
    ("ten past six on fridays", at(FRI, hour=6, minute=10)),
    ("thursdays 10 to 7 pm", at(THU, hour=18, minute=50)),
    ("quarter to 7 pm tuesdays", at(TUE, hour=18, minute=45)),
    ("mondays half past five pm", at(MON, hour=17, minute=30)),
    ("monday, wednesday and friday at six thirty", at(MON, WED, FRI, hour=6, minute=30)),
    ("mon and thu, 0630", at(MON, THU, hour=6, minute=30)),
    ("mon 7 and thu", at(MON, THU, hour=7)),
    ("from 6 to 7 on mondays", at(MON, hour=6)),
    ("sat 07:00-08:00", at(SAT, hour=7)),
    ("mondays between 6 and 7 pm", at(MON, hour=18)),
    ("mon 6am, wed 6 am, sat 8.15 a.m.", at(MON, WED, hour=6) | at(SAT, hour=8, minute=15)),
    ("3 mornings a week, mon wed sat at 7", at(MON, WED, SAT, hour=7)),
    ("30 minutes on mondays at 7", at(MON, hour=7)),
    ("mon 12 at night", at(MON, hour=0)),
    ("fridays at 4", at(FRI, hour=16)),
    ("fridays at 04:30", at(FRI, hour=4, minute=30)),
    ("SATURDAY 9 O'CLOCK", at(SAT, hour=9)),
    ("sunday 9 in the morning, tuesday and thursday 7 in the evening", at(SUN, hour=9) | at(TUE, THU, hour=19)),
    ("I work late, so Tuesday and Saturday, 9:30", at(TUE, SAT, hour=9, minute=30)),
    ("monday\nthursday\n7:15", at(MON, THU, hour=7, minute=15)),
    ("Ｍｏｎ ７：００", at(MON, hour=7)),
]

NO_TIME = [
    ("tuesday", (TUE,)),
    ("every other day", (MON, WED, FRI)),
    ("any day", WEEK),
    ("not mondays", WEEK[1:]),
    ("weekdays", WEEK[:5]),
    ("no, tuesday and friday", (TUE, FRI)),
]


@pytest.mark.parametrize(("text", "expected"), SAID, ids=[text for text, _ in SAID])
def test_days_and_times_are_read_as_they_were_meant(text: str, expected: dict[Weekday, time]) -> None:
    said = days_said(text)
    assert dict(zip(said.days, said.times, strict=True)) == expected


@pytest.mark.parametrize(("text", "days"), NO_TIME, ids=[text for text, _ in NO_TIME])
def test_days_without_a_time_leave_the_time_open(text: str, days: tuple[Weekday, ...]) -> None:
    said = days_said(text)
    assert (said.days, said.times, said.at) == (days, (), None)


@pytest.mark.parametrize("text", ["", "I don't know", "three times a week", "some day", "munday", "20 minutes", "🙂"])
def test_text_without_days_gives_none(text: str) -> None:
    assert days_said(text).days == ()


def test_a_time_without_days_is_not_lost() -> None:
    assert days_said("at half six").at == time(6, 30)


@given(st.text(max_size=300))
def test_any_text_gives_as_many_times_as_days_or_none(text: str) -> None:
    said = days_said(text)
    assert len(said.times) in (0, len(said.days))
    assert said.days == tuple(sorted(set(said.days)))


@given(st.sets(st.sampled_from(Weekday), min_size=1), st.integers(0, 23), st.sampled_from([0, 5, 15, 30, 45]))
def test_written_out_days_and_a_24_hour_time_come_back(days: set[Weekday], hour: int, minute: int) -> None:
    text = " ".join(day.name.lower() for day in sorted(days)) + f" {hour:02}:{minute:02}"
    assert days_said(text).times == (time(hour, minute),) * len(days)
