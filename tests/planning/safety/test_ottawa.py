"""The Ottawa rules: Stiell et al. 1992, 1994 (ankle and foot), 1995, 1996 (knee)."""

from dataclasses import dataclass, replace

import pytest

from planning.safety.ottawa import Steps, ankle_xray, foot_xray, knee_xray

COULD = Steps(at_once=True, now=True)
FOUR_STEPS = [
    (Steps(True, True), False),
    (Steps(True, False), False),
    (Steps(False, True), False),
    (Steps(False, False), True),
    (Steps(None, None), True),
    (Steps(None, True), False),
]
"""The rules need both: neither right after the injury nor now."""


@pytest.mark.parametrize(("steps", "xray"), FOUR_STEPS)
def test_four_steps_count_only_if_they_could_be_taken_neither_at_once_nor_now(steps: Steps, xray: bool) -> None:
    ankle = ankle_xray(malleolar_pain=True, lateral_tender=False, medial_tender=False, steps=steps)
    foot = foot_xray(midfoot_pain=True, fifth_base_tender=False, navicular_tender=False, steps=steps)
    knee = knee_xray(age=40, fibula_tender=False, only_kneecap_tender=False, bends_to_90=True, steps=steps)
    assert (ankle, foot, knee) == (xray, xray, xray)


@pytest.mark.parametrize(
    ("pain", "first", "second", "xray"),
    [
        (True, True, False, True),
        (True, False, True, True),
        (True, False, False, False),
        (False, True, True, False),
        (True, None, False, True),
        (None, True, False, True),
    ],
)
def test_ankle_and_foot_need_pain_in_the_zone_and_a_tender_bone(
    pain: bool | None, first: bool | None, second: bool | None, xray: bool
) -> None:
    assert ankle_xray(malleolar_pain=pain, lateral_tender=first, medial_tender=second, steps=COULD) is xray
    assert foot_xray(midfoot_pain=pain, fifth_base_tender=first, navicular_tender=second, steps=COULD) is xray


@dataclass(frozen=True, slots=True)
class Knee:
    """An acute knee injury with nothing found."""

    age: int | None = 40
    fibula: bool | None = False
    kneecap: bool | None = False
    bends: bool | None = True
    steps: Steps = COULD

    @property
    def xray(self) -> bool:
        return knee_xray(
            age=self.age,
            fibula_tender=self.fibula,
            only_kneecap_tender=self.kneecap,
            bends_to_90=self.bends,
            steps=self.steps,
        )


@pytest.mark.parametrize(
    ("knee", "xray"),
    [
        (Knee(), False),
        (Knee(age=54), False),
        (Knee(age=55), True),
        (Knee(age=None), True),
        (Knee(fibula=True), True),
        (Knee(kneecap=True), True),
        (Knee(bends=False), True),
        (Knee(bends=None), True),
        (replace(Knee(age=54), steps=Steps(True, False)), False),
    ],
)
def test_a_knee_needs_one_finding(knee: Knee, xray: bool) -> None:
    assert knee.xray is xray
