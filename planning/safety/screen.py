"""May they start? The published decision table, and nothing beside it: weight and age bar nobody."""

from planning.facts import load
from planning.terms.person import Screen
from planning.terms.triage import Advice, Screening

ROWS = {(row["active"], row["disease"], row["signs"]): row for row in load("screening")["row"]}
BARRING = frozenset({Advice.BEFORE_ANY, Advice.STOP_AND_SEEK})


def screen(answers: Screen, cleared: bool, wishes_vigorous: bool = False) -> Screening:
    """What the table says to these *answers*. *cleared*: a clinician has cleared them since.

    The wished intensity matters in one row only: known disease, active, no signs: without the wish for vigorous effort
    nothing is needed there. Source: Riebe et al. 2015, Medicine & Science in Sports & Exercise 47:2473.
    """
    row = ROWS[answers.active, answers.disease, answers.signs]
    if cleared:
        return Screening(True, Advice.NOT_NEEDED, True, answers.pregnant)
    advice = Advice(row["advice"])
    if advice is Advice.BEFORE_VIGOROUS and not wishes_vigorous:
        advice = Advice.NOT_NEEDED
    return Screening(advice not in BARRING, advice, row["vigorous"], answers.pregnant)
