"""The rules of triage: each has a name, a flag, what it leaves of training, who should look, and its source.

All rules are tried, and the most careful of those that hold wins. None of them diagnoses: they route people.
"""

from collections.abc import Callable
from dataclasses import dataclass

from planning.safety.case import ACCEPTABLE, TABLE, Case
from planning.terms.choices import Colour, Course, Part, Sense
from planning.terms.reasons import Reason
from planning.terms.triage import Condition, See, TriageDo

PRACTICE = "common practice, no source"
MONITORING = (
    "Thomee 1997, Physical Therapy 77:1690; Silbernagel et al. 2007, Am J Sports Med 35:897 (limits from memory)"
)
STRESS = "Bone stress injuries, review: PMC6226070; night pain: weak source"
CLOT = "Wells score items (NCBI PMH0055213), not scored: any of them is shown to somebody the same day"
SORENESS = "Cheung et al. 2003, Sports Medicine 33:145 (from memory)"


@dataclass(frozen=True, slots=True)
class Rule:
    """One reason for a flag. *holds* is asked of every complaint."""

    why: Reason
    colour: Colour
    do: TriageDo
    see: See
    source: str
    holds: Callable[[Case], bool]


def _red(why: Reason, see: See, source: str, holds: Callable[[Case], bool]) -> Rule:
    return Rule(why, Colour.RED, TriageDo.SEE_SOMEONE, see, source, holds)


def _amber(
    why: Reason, source: str, holds: Callable[[Case], bool], do: TriageDo = TriageDo.EASE, see: See = See.NOBODY
) -> Rule:
    return Rule(why, Colour.AMBER, do, see, source, holds)


def _green(why: Reason, source: str, holds: Callable[[Case], bool]) -> Rule:
    return Rule(why, Colour.GREEN, TriageDo.CARRY_ON, See.NOBODY, source, holds)


def _groin_or_hip(case: Case) -> bool:
    """Groin or front of the hip on loading. Of a groin, pain counts as such until somebody says it is not."""
    part, answers = case.said.part, case.answers
    if part is Part.GROIN:
        return case.is_loaded_pain
    hip_loaded = answers.on_loading is True and answers.front is not False
    return part is Part.HIP and (hip_loaded or (answers.front is True and case.is_loaded_pain))


def _bone_spot(case: Case) -> bool:
    return case.answers.one_spot is True or (case.of("bone") and case.answers.on_loading is True)


def _rest_or_night(case: Case) -> bool:
    return case.answers.at_rest is True and (case.of("bone") or case.said.part in (Part.HIP, Part.GROIN))


def _calf_vein(case: Case) -> bool:
    """One calf, no moment: swollen, hot, there at rest, or with a reason for a clot."""
    if case.said.part is not Part.CALF or not case.is_one_sided:
        return False
    signs = case.is_swollen or case.answers.at_rest is True or case.answers.hot is True
    return signs or (case.has(Condition.CLOT_RISK) and not case.had_moment)


def _diabetic_foot(case: Case) -> bool:
    answers = case.answers
    touched = case.said.sense in (Sense.SKIN, Sense.NUMB) or answers.wound is True or answers.hot is True
    return case.of("foot") and case.has(Condition.DIABETES) and (touched or case.is_swollen or answers.numb is True)


def _back_signs(case: Case) -> bool:
    answers, age = case.answers, case.context.age
    fell = answers.after_fall is True and (age is None or age >= TABLE["ages"]["fall"])
    known = case.has(Condition.FEVER, Condition.CANCER, Condition.STEROIDS)
    return case.of("back") and (known or fell or answers.both_legs is True or answers.at_rest is True)


def _tendon_torn(case: Case) -> bool:
    return case.of("tendon") and (case.answers.popped is True or case.answers.toe_rise is False)


def _maybe_bone(case: Case) -> bool:
    """A hip that hurts, or one groin that is sore, of which nobody knows yet whether loading hurts."""
    if case.answers.on_loading is not None:
        return False
    hip = case.said.part is Part.HIP and case.is_pain and case.answers.front is not False
    return hip or (case.said.part is Part.GROIN and case.is_sore and case.is_one_sided)


RED = (
    _red(
        Reason.CHEST_PART,
        See.EMERGENCY,
        PRACTICE,
        lambda c: c.said.part is Part.CHEST and c.said.sense is not Sense.SKIN,
    ),
    _red(Reason.HOT_JOINT, See.EMERGENCY, PRACTICE, lambda c: c.answers.hot is True and c.has(Condition.FEVER)),
    _red(Reason.NO_WEIGHT, See.SAME_DAY, "Ottawa rules: Stiell et al. 1992-1996", lambda c: c.bears_no_weight),
    _red(Reason.CALF_VEIN, See.SAME_DAY, CLOT, _calf_vein),
    _red(Reason.TENDON_TORN, See.SAME_DAY, PRACTICE, _tendon_torn),
    _red(Reason.KNEE_LOCKED, See.SAME_DAY, PRACTICE, lambda c: c.said.part is Part.KNEE and c.answers.locked is True),
    _red(Reason.BACK_SIGNS, See.SAME_DAY, PRACTICE, _back_signs),
    _red(Reason.GROIN_OR_HIP, See.SAME_DAY, STRESS, _groin_or_hip),
    _red(Reason.DIABETIC_FOOT, See.FOOT_TEAM, "NICE NG19: within one working day (from memory)", _diabetic_foot),
    _red(Reason.BONE_SPOT, See.DOCTOR, STRESS, _bone_spot),
    _red(Reason.REST_OR_NIGHT, See.DOCTOR, STRESS, _rest_or_night),
    _red(Reason.QUINOLONE, See.DOCTOR, PRACTICE, lambda c: c.has(Condition.QUINOLONE) and c.of("bearing")),
    _red(Reason.NUMBNESS, See.DOCTOR, PRACTICE, lambda c: c.said.sense is Sense.NUMB or c.answers.numb is True),
    _red(Reason.SWELLING, See.DOCTOR, PRACTICE, lambda c: c.is_swollen),
    _red(
        Reason.GIVES_WAY, See.DOCTOR, PRACTICE, lambda c: c.said.sense is Sense.UNSTABLE or c.answers.gives_way is True
    ),
    _red(Reason.ONE_MOMENT, See.PHYSIOTHERAPIST, PRACTICE, lambda c: c.had_moment),
    _red(Reason.LIMP, See.PHYSIOTHERAPIST, PRACTICE, lambda c: c.answers.limps is True),
    _red(Reason.PAIN_RED, See.PHYSIOTHERAPIST, MONITORING, lambda c: (c.said.level or 0) > ACCEPTABLE),
    _red(Reason.WORSE_ON_THE_WAY, See.PHYSIOTHERAPIST, PRACTICE, lambda c: c.said.course is Course.WORSE),
    _red(Reason.STANDING_RED, See.PHYSIOTHERAPIST, PRACTICE, lambda c: c.context.standing is Colour.RED),
)

AMBER = (
    _amber(Reason.MAYBE_BONE, STRESS, _maybe_bone, TriageDo.SWAP),
    _amber(
        Reason.CRAMP_AGAIN, PRACTICE, lambda c: c.answers.again_at_distance is True, TriageDo.SEE_SOMEONE, See.DOCTOR
    ),
    _amber(Reason.PAIN_AMBER, MONITORING, lambda c: c.level_is_amber and c.answers.next_morning is not False),
    _amber(
        Reason.GONE_BY_MORNING,
        MONITORING,
        lambda c: c.level_is_amber and c.answers.next_morning is False,
        TriageDo.CARRY_ON,
    ),
    _amber(Reason.PAIN_NO_NUMBER, PRACTICE, lambda c: c.is_pain and c.said.level is None),
    _amber(Reason.SAME_THROUGHOUT, PRACTICE, lambda c: c.was_same),
    _amber(Reason.NEXT_MORNING, MONITORING, lambda c: c.answers.next_morning is True and not c.is_normal_soreness),
    _amber(Reason.RISING_WEEKS, MONITORING, lambda c: c.rises),
    _amber(
        Reason.SORENESS_TOO_LONG,
        SORENESS,
        lambda c: c.is_sore and (c.context.days_since or 0) > TABLE["soreness"]["gone_days"],
    ),
    _amber(Reason.PAINKILLER, PRACTICE, lambda c: c.has(Condition.PAINKILLER)),
)

GREEN = (
    _green(Reason.SORENESS_NORMAL, SORENESS, lambda c: c.is_normal_soreness),
    _green(Reason.SORENESS_GREEN, SORENESS, lambda c: c.is_sore and not c.is_normal_soreness),
    _green(Reason.SKIN_OR_CRAMP, PRACTICE, lambda c: c.is_skin_or_cramp),
    _green(Reason.USUAL_LEVEL, PRACTICE, lambda c: c.context.usual is not None),
    _green(Reason.PAIN_SAFE, MONITORING, lambda c: c.is_pain),
)

RULES = RED + AMBER + GREEN
