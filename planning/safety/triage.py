"""From a complaint to a flag: what it leaves of training today, who should look at it, and what to ask next."""

from collections.abc import Iterator, Mapping, Sequence

from planning.safety.case import TABLE, Case
from planning.safety.rules import AMBER, GREEN, RED, Rule
from planning.terms.choices import Colour, Part
from planning.terms.entry import Complaint
from planning.terms.reasons import Reason
from planning.terms.triage import Ask, See, Triage, TriageContext, TriageDo, Triages

COLOURS = tuple(Colour)
DOS = tuple(TriageDo)
SEES = tuple(See)
NOTHING_KNOWN = TriageContext()
SWAPPED_FOR_PAIN = frozenset({Reason.PAIN_AMBER, Reason.PAIN_NO_NUMBER, Reason.SAME_THROUGHOUT, Reason.NEXT_MORNING})
"""Amber rules that take the impact away where what hurts has to bear weight."""

TO_BONE = (Part.GROIN, Part.HIP)


def triage(complaint: Complaint, context: TriageContext = NOTHING_KNOWN) -> Triage:
    """The flag of one *complaint*, by the most careful rule that holds.

    Green: carry on; amber: ease or swap, and rest at the second amber of a part within a week; red: see someone.
    """
    case = Case(complaint, context)
    for colour, rules in ((Colour.RED, RED), (Colour.AMBER, AMBER), (Colour.GREEN, GREEN)):
        held = [rule for rule in rules if rule.holds(case)]
        if held:
            return _flag(case, colour, held)
    raise AssertionError(f"no rule of triage holds for {complaint}")


def triage_all(
    complaints: Sequence[Complaint],
    context: TriageContext = NOTHING_KNOWN,
    own: Mapping[Part, TriageContext] | None = None,
) -> Triages:
    """The flags of all *complaints* of one reply, at least one; *own*: what is known of single parts."""
    each = tuple(triage(one, (own or {}).get(one.part, context)) for one in complaints)
    return Triages(max(each, key=gravity), each)


def gravity(flag: Triage) -> tuple[int, int, int]:
    """For sorting flags: higher is graver."""
    return COLOURS.index(flag.colour), DOS.index(flag.do), SEES.index(flag.see)


def _flag(case: Case, colour: Colour, held: list[Rule]) -> Triage:
    do = max((_do(case, rule) for rule in held), key=DOS.index)
    see = max((rule.see for rule in held), key=SEES.index)
    why = tuple(rule.why for rule in held)
    flag = Triage(case.said.part, colour, do, see, why, tuple(_asks(case, colour)))
    return _again(case, flag) if colour is Colour.AMBER else flag


def _do(case: Case, rule: Rule) -> TriageDo:
    sore_weight = case.is_pain and case.of("bearing")
    return TriageDo.SWAP if rule.why in SWAPPED_FOR_PAIN and sore_weight else rule.do


def _again(case: Case, flag: Triage) -> Triage:
    """An amber flag of a part that had one within the week: rest, then the physiotherapist first."""
    before = case.context.ambers_last_week
    if before < TABLE["again"]["rest_at"]:
        return flag
    do = TriageDo.SEE_SOMEONE if before >= TABLE["again"]["see_at"] else TriageDo.REST
    return Triage(
        flag.part,
        flag.colour,
        max(do, flag.do, key=DOS.index),
        max(See.PHYSIOTHERAPIST, flag.see, key=SEES.index),
        (*flag.why, Reason.TWO_AMBERS),
        flag.asks,
    )


def _asks(case: Case, colour: Colour) -> Iterator[Ask]:
    """Open questions whose answer could change the flag, or what is done about it."""
    answers = case.answers
    if _asks_steps(case, colour):
        yield Ask.BEARS
    if colour is Colour.AMBER:
        yield from _asks_of_amber(case)
    if colour is not Colour.RED and answers.next_morning is None:
        yield Ask.NEXT_MORNING


def _asks_steps(case: Case, colour: Colour) -> bool:
    """Four steps after an injury; loading or a hop where bone may be behind it."""
    answers = case.answers
    if answers.bears is not None or case.said.bears is not None:
        return False
    if colour is Colour.RED:
        return case.of("bearing") and (case.had_moment or case.is_swollen)
    maybe_bone = case.of("bone") or case.said.part in TO_BONE
    worth_asking = case.is_pain or (case.is_sore and colour is Colour.AMBER)
    return maybe_bone and worth_asking and answers.on_loading is None


def _asks_of_amber(case: Case) -> Iterator[Ask]:
    """The gravest first; of a calf, swelling before all else."""
    said, answers = case.said, case.answers
    open_ones = {
        Ask.MOMENT: not said.sudden and answers.moment is None,
        Ask.LEVEL: said.level is None,
        Ask.SWELLING: answers.swelling is None,
        Ask.COURSE: said.course is None,
        Ask.NUMB: answers.numb is None,
        Ask.SIDE: said.side is None,
    }
    first = [Ask.SWELLING] if said.part is Part.CALF else []
    yield from (ask for ask in dict.fromkeys((*first, *open_ones)) if open_ones[ask])
