"""How long the race will take: by the speeds of one's own log, as a time with its band, and against the limit."""

from bot.conversation.answers import speaks_of_cutoff
from bot.conversation.says import Kind, Say, Slot
from bot.conversation.scene import Part, Scene
from bot.conversation.survey.races import HALF_KM
from bot.conversation.survey.shown import show_km
from planning.progress.forecast import Against, Forecast, against, from_log, sure_from_km
from planning.terms.choices import RaceMode
from planning.terms.person import Race

STEP = 5
"""Minutes to which a finish is told."""

AGAINST = {Against.INSIDE: "cutoff_inside", Against.CLOSE: "cutoff_close", Against.OVER: "cutoff_over"}


def finish(scene: Scene) -> Part | None:
    """The expected finish with its band; None: too little is logged, or sessions are on hold, and the card says so."""
    race = _race(scene)
    found = from_log(scene.known.entries, race.km, scene.today, run_share=_run_share(scene, race))
    if found is None or scene.stopped:
        return None
    words = ("finish_band", "finish_wide" if found.wide else "finish_log", *_limit(scene, race, found))
    return Part((), (Say(scene.who, Kind.HELP, words, slots=_slots(scene, race, found)),))


def _race(scene: Scene) -> Race:
    """The race that is to come, else a half marathon without a date."""
    race = scene.profile.race
    return race if race is not None and race.on >= scene.today else Race(scene.today, HALF_KM)


def _run_share(scene: Scene, race: Race) -> float | None:
    """Part of the race that is to be run by the plan of its day; None: not planned yet."""
    if race.mode is RaceMode.WALK:
        return 0.0
    day = scene.known.plan.race_day if scene.known.plan else None
    if day is None or race is not scene.profile.race:
        return None
    whole = day.run_seconds + day.walk_seconds
    return day.run_seconds / whole if whole else 0.0


def _limit(scene: Scene, race: Race, found: Forecast) -> tuple[str, ...]:
    """How that stands against the limit of the race, if it has one or was asked about."""
    if race.cutoff_min is not None:
        return (AGAINST[against(found, race.cutoff_min)],)
    return ("cutoff_unknown",) if speaks_of_cutoff(scene.reading.text) else ()


def _slots(scene: Scene, race: Race, found: Forecast) -> tuple[Slot, ...]:
    units = scene.profile.units
    return (
        Slot("distance", show_km(race.km, units)),
        Slot("far", show_km(sure_from_km(race.km), units)),
        Slot("finish", clock_of(round(found.expected_min / STEP) * STEP)),
        Slot("quick", clock_of(found.quick_min // STEP * STEP)),
        Slot("slow", clock_of(-(-found.slow_min // STEP) * STEP)),
        Slot("cutoff", clock_of(race.cutoff_min or 0)),
    )


def clock_of(minutes: float) -> str:
    """A length as people say it: "2:50", or "45 min" within the hour."""
    hours, rest = divmod(round(minutes), 60)
    return f"{hours}:{rest:02}" if hours else f"{rest} min"
