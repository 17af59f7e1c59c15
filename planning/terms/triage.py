"""The words of a body complaint: what is asked, what is known around it, and what comes of it."""

from dataclasses import dataclass
from enum import StrEnum

from planning.terms.choices import Alarm, Colour, Danger, Part
from planning.terms.reasons import Reason


class TriageDo(StrEnum):
    """What a complaint leaves of training, the least careful first."""

    CARRY_ON = "carry_on"
    EASE = "ease"
    SWAP = "swap"
    REST = "rest"
    SEE_SOMEONE = "see_someone"


class Ask(StrEnum):
    """Questions that can change a flag.

    `BEARS` asks for four steps; on groin, hip, shin, foot and heel also whether loading or a hop hurts.
    """

    MOMENT = "moment"
    SIDE = "side"
    LEVEL = "level"
    COURSE = "course"
    SWELLING = "swelling"
    NUMB = "numb"
    BEARS = "bears"
    NEXT_MORNING = "next_morning"
    SEEN = "seen"


class See(StrEnum):
    """Who should have a look, the least urgent first."""

    NOBODY = "nobody"
    PHARMACIST = "pharmacist"
    PHYSIOTHERAPIST = "physiotherapist"
    DOCTOR = "doctor"
    FOOT_TEAM = "foot_team"
    SAME_DAY = "same_day"
    EMERGENCY = "emergency"


class Condition(StrEnum):
    """What a person said of their health that makes a complaint graver."""

    DIABETES = "diabetes"
    CANCER = "cancer"
    STEROIDS = "steroids"
    BLOOD_THINNER = "blood_thinner"
    CLOT_RISK = "clot_risk"
    QUINOLONE = "quinolone"
    FEVER = "fever"
    PAINKILLER = "painkiller"
    HEAT_MEDICINE = "heat_medicine"


@dataclass(frozen=True, slots=True)
class Answers:
    """Answers to what was asked of one complaint; None: not known.

    *moment*: it came in one moment; *swelling*, *numb*, *limps*, *gives_way*, *locked*, *hot*: is so; *bears*: four
    steps are possible; *on_loading*: hurts on loading or hopping; *front*: of the hip; *one_spot*: one sore spot of
    bone; *at_rest*: there at rest or at night; *popped*: a pop was felt; *toe_rise*: can rise on the toes; *wound*:
    broken skin; *again_at_distance*: comes at the same distance time after time and goes on standing still;
    *both_legs*: of a back, felt in both; *after_fall*: after a fall; *next_morning*: still there or back then.
    """

    moment: bool | None = None
    swelling: bool | None = None
    numb: bool | None = None
    limps: bool | None = None
    gives_way: bool | None = None
    bears: bool | None = None
    on_loading: bool | None = None
    front: bool | None = None
    one_spot: bool | None = None
    at_rest: bool | None = None
    popped: bool | None = None
    toe_rise: bool | None = None
    locked: bool | None = None
    hot: bool | None = None
    wound: bool | None = None
    again_at_distance: bool | None = None
    both_legs: bool | None = None
    after_fall: bool | None = None
    next_morning: bool | None = None


@dataclass(frozen=True, slots=True)
class TriageContext:
    """What is known around a complaint.

    *usual*: usual level of that part, 0-10, where it is a long-standing one; *days_since*: days since it began;
    *ambers_last_week*: amber flags of that part in the 7 days before; *hours_since_new*: hours since something new or
    longer was done; *weekly_levels*: its highest level in each of the weeks before, oldest first; *standing*: the flag
    that the part already has.
    """

    answers: Answers = Answers()
    usual: float | None = None
    days_since: float | None = None
    ambers_last_week: int = 0
    hours_since_new: float | None = None
    weekly_levels: tuple[float, ...] = ()
    age: int | None = None
    conditions: frozenset[Condition] = frozenset()
    standing: Colour | None = None


@dataclass(frozen=True, slots=True)
class Triage:
    """What comes of one complaint. *asks*: questions that could still change it, the most useful one first."""

    part: Part
    colour: Colour
    do: TriageDo
    see: See
    why: tuple[Reason, ...]
    asks: tuple[Ask, ...] = ()


@dataclass(frozen=True, slots=True)
class Triages:
    """All complaints of one reply: the gravest, and each in the order said."""

    gravest: Triage
    each: tuple[Triage, ...]


class Tier(StrEnum):
    """How soon help is needed."""

    NOW = "now"
    TODAY = "today"
    SOON = "soon"


class Advice(StrEnum):
    """What the published pre-participation table says."""

    NOT_NEEDED = "not_needed"
    BEFORE_ANY = "before_any"
    BEFORE_VIGOROUS = "before_vigorous"
    STOP_AND_SEEK = "stop_and_seek"


@dataclass(frozen=True, slots=True)
class Screening:
    """May they start, and how hard. *vigorous*: vigorous effort is open to them now, in time; *midwife*: pregnant, or a
    birth within 12 months: no rise of load without midwife or doctor, and no weight talk.
    """

    may_start: bool
    advice: Advice
    vigorous: bool
    midwife: bool = False


Sign = Danger | Alarm
"""Any sign that is answered with help instead of training."""
