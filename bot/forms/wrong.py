"""What pydantic finds wrong, as one line for each field: place, what was given, what to write."""

from enum import StrEnum

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from bot.forms.said import known_keys, parts, quote
from planning.terms.choices import RaceMode, Sex, Share, Units

CHOICES: dict[str, type[StrEnum]] = {"mode": RaceMode, "sex": Sex, "units": Units, "shares": Share}
WANTED = {
    "list_type": "write a list",
    "dict_type": "write an object",
    "model_type": "write an object",
    "model_attributes_type": "write an object",
    "string_type": "write text",
    "bool_type": "write true or false",
    "int_type": "write a whole number",
    "int_from_float": "write a whole number",
    "finite_number": "write a number",
    "string_too_short": "write a name",
}


def place_of(location: tuple[int | str, ...]) -> str:
    """`("milestones", 0, "km")` as `milestones[0].km`."""
    text = ""
    for each in location:
        text += f"[{each}]" if isinstance(each, int) else f".{each}" if text else each
    return text


def what_is_wrong(error: ErrorDetails, model: type[BaseModel]) -> str:
    """One line for one *error* found in *model*, without its place."""
    kind, given, limits = error["type"], error["input"], error.get("ctx", {})
    names = [each for each in error["loc"] if isinstance(each, str)]
    if kind == "said":
        return str(error["msg"])
    if kind == "missing":
        return "is missing"
    if kind == "extra_forbidden":
        owner = parts(model).get(names[-2]) if len(names) > 1 else model
        return f"is no known key; known are {known_keys(owner or model)}"
    if kind == "enum" and names[-1] in CHOICES:
        known = ", ".join(f'"{each.value}"' for each in CHOICES[names[-1]])
        return f"{quote(given)} is none of {known}"
    if kind in ("greater_than_equal", "less_than_equal", "too_long", "string_too_long"):
        return f"{quote(given)} is out of range; {range_of(names, limits)}"
    if kind == "string_pattern_mismatch":
        return f'{quote(given)} is no country code; write two capital letters like "GB"'
    return f"{quote(given)} does not fit; {WANTED.get(kind, error['msg'])}"


RANGES = {
    "age": "write 18 to 100",
    "height_cm": "write 100 to 250",
    "weight_kg": "write 25 to 400",
    "week_min": "write 0 to 3000",
    "km": "write 1 to 100",
    "cutoff_min": "write 10 to 1440",
    "milestones": "write at most 20",
    "who": "write at most 200 characters",
    "called": "write at most 200 characters",
    "coach": "write at most 200 characters",
}


def range_of(names: list[str], limits: dict[str, object]) -> str:
    """The accepted range of a field, in words."""
    return RANGES.get(names[-1], "write 0 to 600") if limits else "see its range"


def lines_of(error: ValidationError, model: type[BaseModel]) -> tuple[str, ...]:
    """One line for each wrong field."""
    found = error.errors(include_url=False)
    return tuple(f"{place_of(each['loc'])}: {what_is_wrong(each, model)}" for each in found)
