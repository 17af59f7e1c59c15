"""Age, height and weight. Units: inch 2.54 cm, pound 0.45359237 kg (international yard and pound agreement of 1959)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.conversation.survey.sizes import age_said, size_said

BOTH = [
    ("168 104", 168, 104),
    ("168cm, 104kg", 168, 104),
    ("168 cm and 104.5 kilos", 168, 104.5),
    ("1.68m 104 kg", 168, 104),
    ("1,68 m, 104 kg", 168, 104),
    ("1m68 / 104kg", 168, 104),
    ("170/95", 170, 95),
    ("1.70 95", 170, 95),
    ("5'6 16st 5", 167.64, 103.87),
    ("5'6\", 230 lb", 167.64, 104.33),
    ("5’6” and 230 pounds", 167.64, 104.33),
    ("5 ft 6, 16 st 5", 167.64, 103.87),
    ("five foot six, sixteen stone five", 167.64, 103.87),
    ("12 st 4 and 5ft 4", 162.56, 78.02),
    ("6ft, 18 stone", 182.88, 114.31),
    ("5 foot 10 inches 210lbs", 177.8, 95.25),
    ("66 inches, 104 kg", 167.64, 104),
    ("I'm 172 cm tall and weigh about a hundred and four kilos", 172, 104),
    ("sixteen and a half stone, 5 10", 177.8, 104.78),
    ("weight 104kg height 168cm", 168, 104),
]

HEIGHTS = [
    ("5 ft 6", 167.64),
    ("168", 168),
    ("1.68m", 168),
    ("5'11", 180.34),
    ("6'", 182.88),
    ("68 in", 172.72),
    ("1 m 7", 170),
]

WEIGHTS = [
    ("104 kg", 104),
    ("16 st 5", 103.87),
    ("230 lb", 104.33),
    ("104", 104),
    ("16 stone and a half", 104.78),
    ("16st5lb", 103.87),
]

AGES = [
    ("44", 44),
    ("I'm 44", 44),
    ("forty-four", 44),
    ("44yo", 44),
    ("44 years old", 44),
    ("born 1981", 45),
    ("12/05/1981", 45),
    ("17", 17),
    ("born in 2010", 16),
    ("100", 100),
    ("over 60", 60),
]


@pytest.mark.parametrize(("text", "cm", "kg"), BOTH)
def test_height_and_weight_are_read_together(text: str, cm: float, kg: float) -> None:
    said = size_said(text, True, True, pounds_likely=False)
    assert (said.height_cm, said.weight_kg) == (pytest.approx(cm, abs=0.006), pytest.approx(kg, abs=0.006))


@pytest.mark.parametrize(("text", "cm"), HEIGHTS)
def test_a_height_is_read_alone(text: str, cm: float) -> None:
    assert size_said(text, True, False, pounds_likely=False).height_cm == pytest.approx(cm, abs=0.006)


@pytest.mark.parametrize(("text", "kg"), WEIGHTS)
def test_a_weight_is_read_alone(text: str, kg: float) -> None:
    assert size_said(text, False, True, pounds_likely=False).weight_kg == pytest.approx(kg, abs=0.006)


@pytest.mark.parametrize(("text", "pounds_likely"), [("5'6, 230", False), ("168 230", False), ("168 180", True)])
def test_a_bare_weight_that_may_be_pounds_is_asked_back(text: str, pounds_likely: bool) -> None:
    said = size_said(text, True, True, pounds_likely)
    assert said.unit_open
    assert said.weight_kg is None


@pytest.mark.parametrize("text", ["90 cm", "3 kg", "400 kg", "16 168", "2.60m"])
def test_what_is_beyond_belief_is_not_taken(text: str) -> None:
    assert size_said(text, True, True, pounds_likely=False).odd


@pytest.mark.parametrize(("text", "age"), AGES)
def test_an_age_is_read(text: str, age: int) -> None:
    assert age_said(text, 2026) == age


@pytest.mark.parametrize("text", ["4", "101", "in my 40s", "60+", "skip", "", "2008", "born 1890"])
def test_what_is_no_sure_age_is_asked_again(text: str) -> None:
    assert age_said(text, 2026) is None


@given(st.text(max_size=200), st.booleans(), st.booleans(), st.booleans())
def test_any_text_gives_sizes_that_are_believed_or_none(text: str, height: bool, weight: bool, pounds: bool) -> None:
    said = size_said(text, height, weight, pounds)
    assert said.height_cm is None or 120 <= said.height_cm <= 230
    assert said.weight_kg is None or 30 <= said.weight_kg <= 350


@given(st.integers(48, 90))
def test_feet_and_inches_come_back_in_centimetres(inches: int) -> None:
    said = size_said(f"{inches // 12} ft {inches % 12}", True, False, False)
    assert said.odd or said.height_cm == pytest.approx(inches * 2.54, abs=0.006)
