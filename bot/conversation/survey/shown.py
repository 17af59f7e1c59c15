"""What was understood, as people read it: the values that sentences have slots for."""

from collections.abc import Callable
from datetime import date, datetime, time, timedelta

from bot.conversation.draft import Draft
from bot.conversation.says import Slot
from bot.conversation.survey.amounts import KM_IN_A_MILE
from bot.conversation.survey.dates import show_date, show_month
from bot.conversation.survey.gazetteer import country_of
from bot.conversation.survey.lexicon import words
from bot.conversation.survey.races import HALF_KM
from bot.conversation.survey.sizes import CM_IN_AN_INCH, KG_IN_A_POUND
from planning.calendar import instant, local
from planning.terms.choices import Units, Weekday

AHEAD = timedelta(hours=1)
"""How far today's first session has to be ahead for today to be the first day."""


def slots(names: tuple[str, ...], draft: Draft, now: datetime) -> tuple[Slot, ...]:
    """The slots of these *names*, each once."""
    return tuple(Slot(name, _shown(name, draft, now)) for name in dict.fromkeys(names))


def _shown(name: str, draft: Draft, now: datetime) -> str:
    return TIMELY[name](draft, now) if name in TIMELY else TIMELESS[name](draft)


def begins_on(draft: Draft, now: datetime) -> date:
    """The local day from which on sessions are planned: the one that was said, else tomorrow; today if that is a day of
    theirs with more than an hour to go.
    """
    zone = draft.tz or "UTC"
    today = local(now, zone).date()
    if draft.begin and draft.begin > today:
        return draft.begin
    hours = dict(zip(draft.days, draft.times, strict=False))
    at = hours.get(Weekday(today.weekday()))
    return today if at and instant(today, at, zone) > now + AHEAD else today + timedelta(days=1)


def _first_day(draft: Draft, now: datetime) -> date:
    """The first of the person's days from the begin on."""
    begin = begins_on(draft, now)
    week = [begin + timedelta(days=ahead) for ahead in range(7)]
    return next((day for day in week if day.weekday() in draft.days), begin)


def show_days(draft: Draft) -> str:
    """Days with their times: "Tue, Thu 18:30; Sun 09:00"; days alone while the times are open."""
    names = words("show", "days")
    if not draft.times:
        return ", ".join(names[day] for day in draft.days)
    by_time: dict[time, list[str]] = {}
    for day, at in zip(draft.days, draft.times, strict=True):
        by_time.setdefault(at, []).append(names[day])
    return "; ".join(f"{', '.join(days)} {at:%H:%M}" for at, days in by_time.items())


def show_km(km: float, units: Units) -> str:
    """A distance in the unit that the person reads; whole kilometres stay so ("10 km")."""
    return f"{km / KM_IN_A_MILE:.3g} miles" if units is Units.MILES and km % 1 else f"{km:.3g} km"


def show_height(cm: float) -> str:
    """A height in cm and in feet."""
    inches = round(cm / CM_IN_AN_INCH)
    return f"{cm:.0f} cm ({inches // 12} ft {inches % 12})"


def show_weight(kg: float) -> str:
    """A weight in kg and pounds."""
    return f"{kg:.0f} kg ({kg / KG_IN_A_POUND:.0f} lb)"


def _race_on(draft: Draft) -> str:
    if draft.race_on:
        return show_date(draft.race_on)
    return show_month(draft.race_month) if draft.race_month else ""


def _stops(draft: Draft) -> str:
    return "; ".join(f"{show_km(race.km, draft.units)} {show_date(race.on)}" for race in draft.milestones)


def _number(name: str) -> Callable[[Draft], str]:
    return lambda draft: f"{getattr(draft, name):g}"


TIMELESS: dict[str, Callable[[Draft], str]] = {
    "country": lambda draft: draft.country or "",
    "here": lambda draft: country_of(draft.tz or "") or "",
    "called": lambda draft: draft.called,
    "place": lambda draft: draft.place,
    "days": show_days,
    "walk": _number("walk_min"),
    "jog": _number("jog_min"),
    "week": _number("week_min"),
    "longest": _number("longest_min"),
    "distance": lambda draft: show_km(draft.race_km or HALF_KM, draft.units),
    "race_on": _race_on,
    "stops": _stops,
    "age": lambda draft: str(draft.age or ""),
    "height": lambda draft: show_height(draft.height_cm) if draft.height_cm else "",
    "weight": lambda draft: show_weight(draft.weight_kg) if draft.weight_kg else "",
}
TIMELY: dict[str, Callable[[Draft, datetime], str]] = {
    "time": lambda draft, now: f"{local(now, draft.tz or 'UTC'):%H:%M}",
    "begin": lambda draft, now: show_date(_first_day(draft, now)),
}
