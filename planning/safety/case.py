"""One complaint seen with all that was answered: the questions that the rules of triage put to it."""

from dataclasses import dataclass
from itertools import pairwise

from planning.facts import load
from planning.terms.choices import Course, Part, Sense, Side
from planning.terms.entry import Complaint
from planning.terms.triage import Answers, Condition, TriageContext

TABLE = load("triage")
SAFE: float = TABLE["levels"]["safe"]
ACCEPTABLE: float = TABLE["levels"]["acceptable"]
GROUPS = {name: frozenset(map(Part, parts)) for name, parts in TABLE["parts"].items()}


@dataclass(frozen=True, slots=True)
class Case:
    """A complaint and what is known around it. What nobody answered is never held against a person, nor for them."""

    said: Complaint
    context: TriageContext

    @property
    def answers(self) -> Answers:
        """What was answered so far."""
        return self.context.answers

    def of(self, group: str) -> bool:
        """Whether the part belongs to a *group* of the table."""
        return self.said.part in GROUPS[group]

    def has(self, *conditions: Condition) -> bool:
        """Whether any of these *conditions* was said."""
        return not self.context.conditions.isdisjoint(conditions)

    @property
    def is_pain(self) -> bool:
        """Pain, or a complaint of no said kind, which counts as pain."""
        return self.said.sense in (Sense.PAIN, None)

    @property
    def is_sore(self) -> bool:
        """Soreness of a muscle, by the word."""
        return self.said.sense is Sense.SORE

    @property
    def is_skin_or_cramp(self) -> bool:
        """Skin or cramp, which have a limit of their own."""
        return self.said.sense in (Sense.SKIN, Sense.CRAMP)

    @property
    def is_one_sided(self) -> bool:
        """On one side, or nobody knows."""
        return self.said.side is not Side.BOTH

    @property
    def had_moment(self) -> bool:
        """Came in one moment."""
        return self.said.sudden or self.answers.moment is True

    @property
    def is_swollen(self) -> bool:
        """Swollen, by the word or by the answer."""
        return self.said.sense is Sense.SWOLLEN or self.answers.swelling is True

    @property
    def bears_no_weight(self) -> bool:
        """Weight can't be put on it, or four steps can't be taken."""
        return self.said.bears is False or self.answers.bears is False

    @property
    def is_loaded_pain(self) -> bool:
        """Pain that loading brings on, or pain of which that is not known."""
        return self.answers.on_loading is True or (self.is_pain and self.answers.on_loading is None)

    @property
    def level_is_amber(self) -> bool:
        """A level above the safe one and the usual one of a long-standing complaint. Skin and cramp have none."""
        level = self.said.level
        return level is not None and not self.is_skin_or_cramp and level > max(SAFE, self.context.usual or 0)

    @property
    def is_normal_soreness(self) -> bool:
        """Soreness in its normal hours after something new, not on one side alone."""
        hours = self.context.hours_since_new
        sided = self.said.side in (Side.LEFT, Side.RIGHT)
        return self.is_sore and not sided and hours is not None and hours <= TABLE["soreness"]["peak_h"]

    @property
    def rises(self) -> bool:
        """Higher each week, over as many weeks as the table says, and no longer safe."""
        levels = (*self.context.weekly_levels, *(() if self.said.level is None else (self.said.level,)))
        last = levels[-TABLE["again"]["rising_weeks"] :]
        full = len(last) == TABLE["again"]["rising_weeks"]
        return full and last[-1] > SAFE and all(a < b for a, b in pairwise(last))

    @property
    def was_same(self) -> bool:
        """There throughout. Broken skin always is, so it doesn't count there."""
        return self.said.course is Course.SAME and self.said.sense is not Sense.SKIN
