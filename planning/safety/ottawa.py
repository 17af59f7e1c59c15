"""When an acute ankle, foot or knee injury needs an X-ray: the Ottawa rules, as information, never as a diagnosis.

A chat can't press on bone: the person is asked to. What they are not sure of, or can't feel, counts as yes; it refers.
Sources: Stiell et al. 1992 and 1994 (ankle and foot), 1995 and 1996 (knee); adults from 18 on, acute injuries.
"""

from dataclasses import dataclass

KNEE_AGE = 55
"""Years from which on an acute knee injury is shown on an X-ray whatever else is found."""


@dataclass(frozen=True, slots=True)
class Steps:
    """Four steps, a limp included, right after the injury and now. None: not sure."""

    at_once: bool | None
    now: bool | None

    @property
    def could_not(self) -> bool:
        """Neither right away nor now: the rules need both."""
        return self.at_once is not True and self.now is not True


def _is_or_unsure(*findings: bool | None) -> bool:
    return any(each is not False for each in findings)


def ankle_xray(
    *, malleolar_pain: bool | None, lateral_tender: bool | None, medial_tender: bool | None, steps: Steps
) -> bool:
    """Pain in the malleolar zone, and bone tender along the last 6 cm or the tip of a malleolus, or no four steps."""
    found = _is_or_unsure(lateral_tender, medial_tender) or steps.could_not
    return _is_or_unsure(malleolar_pain) and found


def foot_xray(
    *, midfoot_pain: bool | None, fifth_base_tender: bool | None, navicular_tender: bool | None, steps: Steps
) -> bool:
    """Pain in the midfoot, and the base of the fifth metatarsal or the navicular tender, or no four steps."""
    found = _is_or_unsure(fifth_base_tender, navicular_tender) or steps.could_not
    return _is_or_unsure(midfoot_pain) and found


def knee_xray(
    *,
    age: int | None,
    fibula_tender: bool | None,
    only_kneecap_tender: bool | None,
    bends_to_90: bool | None,
    steps: Steps,
) -> bool:
    """Any of: age from 55 on, head of the fibula or kneecap alone tender, can't bend to 90 degrees, no four steps."""
    old = age is None or age >= KNEE_AGE
    return old or _is_or_unsure(fibula_tender, only_kneecap_tender) or bends_to_90 is not True or steps.could_not
