"""A plan as JSON values: the shape that other programs rely on."""

from datetime import date

from bot.forms.texts import caution_text, warning_text
from planning.plan.care import beside, race_of
from planning.terms.plan import Plan, RaceDay, Segment, Session, Strength, Week, in_minutes

Json = dict[str, object]


def segment_to_json(segment: Segment) -> Json:
    """One segment: what is done, for how many minutes."""
    return {"do": segment.do.value, "minutes": segment.minutes}


def session_to_json(session: Session) -> Json:
    """One session; `at` is the local time of its message."""
    return {
        "date": session.on.isoformat(),
        "at": session.at.strftime("%H:%M"),
        "purpose": session.purpose.value,
        "minutes": session.minutes,
        "effort": list(session.effort),
        "segments": [segment_to_json(each) for each in session.segments],
        "after": [segment_to_json(each) for each in session.after],
    }


def session_of_plan_to_json(session: Session, race: date | None) -> Json:
    """One session with what goes with it: `notes` on what to mind, `stretches` by part of the body."""
    what = beside(session, race)
    notes = {"notes": [each.value for each in what.care], "stretches": [each.value for each in what.stretches]}
    return session_to_json(session) | notes


def strength_to_json(strength: Strength) -> Json:
    """One strength session: its minutes and the names of its moves."""
    return {"date": strength.on.isoformat(), "minutes": strength.minutes, "moves": list(strength.moves)}


def week_to_json(week: Week, race: date | None) -> Json:
    """One week with its sessions, on the way to the *race*; the minutes leave a race out."""
    return {
        "number": week.number,
        "monday": week.monday.isoformat(),
        "kind": week.kind.value,
        "minutes": week.minutes,
        "sessions": [session_of_plan_to_json(each, race) for each in week.sessions],
        "strength": [strength_to_json(each) for each in week.strength],
    }


def race_day_to_json(day: RaceDay) -> Json:
    """Race day: expected minutes, the band, splits, the run-walk rhythm, food and cautions."""
    food = day.carbohydrate_g_per_hour
    return {
        "expected_min": day.expected_min,
        "band_min": list(day.band_min),
        "splits": [{"km": each.km, "minutes": each.minutes} for each in day.splits],
        "run_min": in_minutes(day.run_seconds),
        "walk_min": in_minutes(day.walk_seconds),
        "carbohydrate_g_per_hour": list(food) if food else [0, 0],
        "drink": "to_thirst",
        "cautions": list(day.cautions),
        "advice": [caution_text(each) for each in day.cautions],
    }


def plan_to_json(plan: Plan) -> Json:
    """The whole plan."""
    race = race_of(plan)
    return {
        "who": plan.who,
        "begin": plan.begin.isoformat(),
        "may_start": plan.may_start,
        "fits": plan.fits,
        "earliest_race": plan.earliest_race.isoformat() if plan.earliest_race else None,
        "weeks": [week_to_json(each, race) for each in plan.weeks],
        "race_day": race_day_to_json(plan.race_day) if plan.race_day else None,
        "warnings": [{"name": str(each), "text": warning_text(each)} for each in plan.warnings],
    }
