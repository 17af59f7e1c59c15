"""How soon help is needed."""

import pytest

from planning.safety import first_aid, needs_care, soonest, tier
from planning.terms.choices import Alarm, Danger
from planning.terms.triage import Tier

SIGNS = [*Danger, *Alarm]
NOW, TODAY, SOON = Tier


@pytest.mark.parametrize("code", SIGNS)
def test_every_sign_has_a_tier_and_a_first_line(code: Danger | Alarm) -> None:
    assert tier(code) in Tier
    assert first_aid(code)


@pytest.mark.parametrize(
    ("code", "expected"),
    [
        (Danger.CHEST, NOW),
        (Danger.BREATH, NOW),
        (Danger.FAINT, NOW),
        (Danger.STROKE, NOW),
        (Danger.HEAT, NOW),
        (Danger.NERVE, NOW),
        (Danger.SELF_HARM, NOW),
        (Alarm.SEIZURE, NOW),
        (Alarm.ALLERGY, NOW),
        (Alarm.OTHER, NOW),
        (Danger.CLOT, TODAY),
        (Danger.URINE, TODAY),
        (Danger.BONE, TODAY),
        (Danger.HEART, TODAY),
        (Danger.EATING, SOON),
    ],
)
def test_emergency_words_are_an_emergency_and_the_rest_the_same_day(code: Danger | Alarm, expected: Tier) -> None:
    """Signs and symptoms list of the American College of Sports Medicine (from memory); dark urine: NIOSH."""
    assert tier(code) is expected


@pytest.mark.parametrize(
    ("code", "others"),
    [
        (Danger.CLOT, (Danger.BREATH,)),
        (Danger.CLOT, (Danger.CHEST,)),
        (Danger.HEART, (Danger.FAINT,)),
        (Danger.SUGAR, (Danger.FAINT,)),
        (Alarm.HEAD, (Alarm.SEIZURE,)),
        (Alarm.PREGNANCY, (Danger.BREATH,)),
    ],
)
def test_a_second_sign_makes_it_an_emergency(code: Danger | Alarm, others: tuple[Danger | Alarm, ...]) -> None:
    """A clot with breathlessness or chest pain: emergency (NCBI PMH0055213); the rest common practice, no source."""
    assert (tier(code), tier(code, others)) == (TODAY, NOW)


def test_a_blow_to_the_head_on_blood_thinners_is_an_emergency() -> None:
    assert (tier(Alarm.HEAD), tier(Alarm.HEAD, blood_thinner=True)) == (TODAY, NOW)


def test_several_signs_take_the_soonest_tier() -> None:
    assert soonest([Danger.EATING, Danger.URINE]) is TODAY
    assert soonest([Danger.URINE, Danger.CHEST]) is NOW


def test_low_mood_and_eating_are_answered_with_care() -> None:
    assert [needs_care([each]) for each in (Danger.SELF_HARM, Danger.EATING, Danger.CHEST)] == [True, True, False]
