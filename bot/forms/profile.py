"""A profile from JSON to the planner's values and back."""

from typing import TypeVar

from pydantic import BaseModel, ValidationError

from bot.forms.said import DAY_NAMES, SaidCoach, SaidDays, SaidRunner, quote
from bot.forms.wrong import lines_of
from planning.errors import ProfileError
from planning.terms.choices import Role, Share, Weekday
from planning.terms.person import DayTime, Profile, Race, Screen, coach_profile

Model = TypeVar("Model", bound=BaseModel)


def profile_from_json(value: object) -> Profile:
    """The profile that *value* (parsed JSON) describes.

    Raises `ProfileError` with one line for each field that is wrong or does not go with the others.
    """
    if not isinstance(value, dict):
        raise ProfileError((f"{quote(value)} is no profile; write an object",))
    if value.get("role", "runner") not in ("runner", "coach"):
        raise ProfileError((f'role: {quote(value["role"])} is none of "runner", "coach"',))
    if value.get("role") == "coach":
        return coach_of(_checked(SaidCoach, value))
    said = _checked(SaidRunner, value)
    if "walk_min" not in said.model_fields_set:
        said = said.model_copy(update={"walk_min": said.jog_min})
    lines = (*_clashes(said), *_late_dates(said))
    if lines:
        raise ProfileError(lines)
    return runner_of(said)


def _checked(model: type[Model], value: object) -> Model:
    try:
        return model.model_validate(value)
    except ValidationError as error:
        raise ProfileError(lines_of(error, model)) from None


def _clashes(said: SaidRunner) -> tuple[str, ...]:
    """Fields that can't all be true, one line each."""
    rows = (
        ("days", not any(said.days.model_dump().values()), 'is empty; give one day at least, like {"mon": "07:00"}'),
        ("jog_min", said.jog_min > said.walk_min, f"jogs {said.jog_min:g} but walks {said.walk_min:g}: who jogs so "
         "long also walks so long; raise walk_min"),
        ("shares", len(set(said.shares)) < len(said.shares), "names something twice"),
    )  # fmt: skip
    return tuple(f"{place}: {text}" for place, holds, text in rows if holds)


def _late_dates(said: SaidRunner) -> tuple[str, ...]:
    """Races before the first day, and shorter races that are no step on the way, one line each."""
    lines = []
    if said.race and said.race.date < said.begin:
        lines.append(f"race.date: {said.race.date} lies before begin {said.begin}; write a later day")
    for index, each in enumerate(said.milestones):
        if each.date < said.begin:
            lines.append(f"milestones[{index}].date: {each.date} lies before begin {said.begin}; write a later day")
        elif said.race and each.date >= said.race.date:
            lines.append(f"milestones[{index}].date: {each.date} is not before the race; write an earlier day")
    if len({each.date for each in said.milestones}) < len(said.milestones):
        lines.append("milestones: two on one day; write one")
    return tuple(lines)


def coach_of(said: SaidCoach) -> Profile:
    """A coach's profile: no days, no plan."""
    return coach_profile(said.who, said.tz, said.called, said.deputy)


def days_of(said: SaidDays) -> tuple[DayTime, ...]:
    """The given days in order of the week."""
    pairs = [(Weekday(index), getattr(said, name)) for index, name in enumerate(DAY_NAMES)]
    return tuple(DayTime(day, at) for day, at in pairs if at is not None)


def runner_of(said: SaidRunner) -> Profile:
    """A runner's profile."""
    plain = said.model_dump(exclude={"days", "race", "milestones", "screen", "role", "shares"})
    race = Race(said.race.date, said.race.km, said.race.mode, said.race.cutoff_min) if said.race else None
    return Profile(
        **plain,
        days=days_of(said.days),
        race=race,
        milestones=tuple(Race(each.date, each.km) for each in sorted(said.milestones, key=lambda each: each.date)),
        screen=Screen(**said.screen.model_dump()),
        shares=frozenset(said.shares),
    )


def race_to_json(race: Race) -> dict[str, object]:
    """A race as it is written."""
    cutoff = {} if race.cutoff_min is None else {"cutoff_min": race.cutoff_min}
    return {"date": race.on.isoformat(), "km": race.km, "mode": race.mode.value, **cutoff}


def profile_to_json(profile: Profile) -> dict[str, object]:
    """The profile as it is written; what was not said is left out."""
    if profile.role is Role.COACH:
        coach = {
            "who": profile.who,
            "role": "coach",
            "called": profile.called,
            "tz": profile.tz,
            "deputy": profile.deputy,
        }
        return {key: value for key, value in coach.items() if value is not None}
    screen = profile.screen
    said: dict[str, object] = {
        "who": profile.who,
        "role": "runner",
        "called": profile.called,
        "tz": profile.tz,
        "coach": profile.coach,
        "days": {each.day.name.lower(): each.at.strftime("%H:%M") for each in profile.days},
        "begin": profile.begin.isoformat(),
        "walk_min": profile.walk_min,
        "jog_min": profile.jog_min,
        "week_min": profile.week_min,
        "longest_min": profile.longest_min,
        "race": profile.race and race_to_json(profile.race),
        "milestones": [{"date": each.on.isoformat(), "km": each.km} for each in profile.milestones] or None,
        "age": profile.age,
        "sex": profile.sex and profile.sex.value,
        "height_cm": profile.height_cm,
        "weight_kg": profile.weight_kg,
        "units": profile.units.value,
        "weight_talk": profile.weight_talk,
        "screen": {name: getattr(screen, name) for name in ("active", "disease", "signs", "pregnant")},
        "cleared": profile.cleared,
        "bed": profile.bed and profile.bed.strftime("%H:%M"),
        "wake": profile.wake and profile.wake.strftime("%H:%M"),
        "nudge": profile.nudge and profile.nudge.strftime("%H:%M"),
        "country": profile.country,
        "shares": [each.value for each in Share if each in profile.shares],
    }
    return {key: value for key, value in said.items() if value is not None}
