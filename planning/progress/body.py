"""What height, weight, age and time say: class of the body mass index, resting need, fuel for an outing."""

from dataclasses import dataclass

from planning.facts import load
from planning.terms.choices import Sex

TABLE = load("body")


@dataclass(frozen=True, slots=True)
class Range:
    """Lowest and highest value of something that is not known exactly."""

    low: float
    high: float


def bmi_class(bmi: float) -> str:
    """Class of an unrounded *bmi* (kg/m2): 29.96 is still below 30. Source: WHO (from memory)."""
    return str([each["name"] for each in TABLE["bmi"]["classes"] if bmi >= each["from"]][-1])


def resting_kcal(weight_kg: float, height_cm: float, age: int, sex: Sex | None) -> Range:
    """Resting energy need, kcal a day; a range if the sex was not said. Source: Mifflin et al. 1990 (from memory)."""
    rule = TABLE["resting"]
    base = rule["per_kg"] * weight_kg + rule["per_cm"] * height_cm + rule["per_year"] * age
    values = [base + rule[each] for each in (Sex if sex is None else (sex,))]
    return Range(min(values), max(values))


def carbohydrate_g(minutes: float) -> Range | None:
    """Grams to take in during an outing of *minutes*, in all; None where none are needed.

    Independent of body weight; at the low intensity of beginners the lower end is plenty. Source: Jeukendrup 2014.
    """
    rule = TABLE["carbohydrate"]
    if minutes < rule["from_min"]:
        return None
    low, high = (each * minutes / 60 for each in rule["g_per_hour"])
    return Range(low, high)


def least_intake_kcal(sex: Sex | None) -> int:
    """kcal a day below which nobody should eat without a clinician (from memory); sex not said: the higher."""
    return int(max(TABLE["floor"][each] for each in (Sex if sex is None else (sex,))))
