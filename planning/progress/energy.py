"""Energy of walking and running, part by part: a mean speed over both would be wrong for either."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from planning.facts import load
from planning.terms.choices import Activity, Do
from planning.terms.entry import Entry
from planning.terms.plan import Segment, Session

TABLE = load("energy")
REST: float = TABLE["rest"]["vo2"]
KMH = 1000 / 60
"""Metres a minute in one km/h."""


class Intensity(StrEnum):
    """How hard an activity is for an average adult; for a beginner the talk test comes first."""

    LIGHT = "light"
    MODERATE = "moderate"
    VIGOROUS = "vigorous"


@dataclass(frozen=True, slots=True)
class Energy:
    """Energy in kcal: all of it, and what came on top of resting. "Burnt" is the second."""

    gross: float
    net: float


@dataclass(frozen=True, slots=True)
class Piece:
    """Minutes at one gait and one speed in km/h; *grade* as a fraction (0.05 is 5 %)."""

    gait: Do
    minutes: float
    kmh: float
    grade: float = 0.0


def oxygen(gait: Do, kmh: float, grade: float = 0.0) -> float:
    """Gross VO2 in ml/kg/min of walking (3 to 6 km/h) or running (from 4.8 km/h on, if truly run); standing is resting.

    The gait is never guessed from the speed: at 6.4 km/h the two differ by 10.67. Source: ACSM, 10th ed., table 6.3.
    """
    if gait not in (Do.WALK, Do.RUN):
        return REST
    row = TABLE["running" if gait is Do.RUN else "walking"]
    speed = kmh * KMH
    return float(REST + row["flat"] * speed + row["grade"] * speed * grade)


def mets(vo2: float) -> float:
    """*vo2* (ml/kg/min) in METs of 3.5 ml/kg/min."""
    return vo2 / REST


def kcal(vo2: float, weight_kg: float, minutes: float) -> float:
    """Energy in kcal at *vo2* (ml/kg/min), 5 kcal a litre of oxygen: 1 MET is 3.5 x kg / 200 a minute."""
    return float(vo2 * weight_kg / 1000 * TABLE["rest"]["kcal_per_litre"] * minutes)


def intensity(met: float) -> Intensity:
    """Band of an activity of *met* METs."""
    if met < TABLE["bands"]["moderate"]:
        return Intensity.LIGHT
    return Intensity.VIGOROUS if met >= TABLE["bands"]["vigorous"] else Intensity.MODERATE


def energy(pieces: Iterable[Piece], weight_kg: float) -> Energy:
    """Energy of several *pieces* of one outing."""
    each = [(oxygen(piece.gait, piece.kmh, piece.grade), piece.minutes) for piece in pieces]
    return Energy(
        sum(kcal(vo2, weight_kg, minutes) for vo2, minutes in each),
        sum(kcal(vo2 - REST, weight_kg, minutes) for vo2, minutes in each),
    )


def energy_planned(segments: Iterable[Segment], weight_kg: float, walk_kmh: float, jog_kmh: float) -> Energy:
    """Energy of planned *segments* at these speeds."""
    speeds = {Do.WALK: walk_kmh, Do.RUN: jog_kmh}
    return energy((Piece(each.do, each.minutes, speeds.get(each.do, 0.0)) for each in segments), weight_kg)


def energy_logged(entry: Entry, weight_kg: float) -> Energy | None:
    """Energy of what was logged: by speed where one kind and its distance are known, else by the Compendium; None
    without minutes, or for what it can't know.
    """
    if not entry.minutes or entry.kind is None:
        return None
    gait = {Activity.WALK: Do.WALK, Activity.RUN: Do.RUN}.get(entry.kind)
    if gait and entry.km:
        return energy((Piece(gait, entry.minutes, entry.km / entry.minutes * 60),), weight_kg)
    met = TABLE["compendium"].get(entry.kind.value)
    return None if met is None else energy_of_mets(met, weight_kg, entry.minutes)


def energy_done(
    entry: Entry, session: Session | None, weight_kg: float, walk_kmh: float, jog_kmh: float
) -> Energy | None:
    """Energy of a logged *entry* that may have said no more than how much of its planned *session* was done.

    What was walked and run of the plan is taken in the share that was done, at these speeds. None: nobody can tell.
    """
    logged = energy_logged(entry, weight_kg)
    if logged is not None or entry.kind is not Activity.SESSION or session is None or not session.minutes:
        return logged
    share = entry.share if entry.minutes is None else entry.minutes / session.minutes
    whole = energy_planned(session.segments, weight_kg, walk_kmh, jog_kmh)
    return Energy(*(amount * (1.0 if share is None else share) for amount in (whole.gross, whole.net)))


def energy_of_mets(met: float, weight_kg: float, minutes: float) -> Energy:
    """Energy of an activity of *met* METs."""
    return Energy(kcal(met * REST, weight_kg, minutes), kcal((met - 1) * REST, weight_kg, minutes))


def shown(amount_kcal: float) -> int:
    """*amount_kcal* as people are told it: rounded to 50, below 100 to 10."""
    rule = TABLE["shown"]
    step = rule["small_step_kcal"] if amount_kcal < rule["small_below_kcal"] else rule["step_kcal"]
    return int(amount_kcal / step + 0.5) * int(step)
