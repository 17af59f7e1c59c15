"""Four weeks in numbers, with what changed since the four before and what is next: never day against day."""

from datetime import date

from bot.conversation.known import Known
from bot.conversation.says import Facts, Kind, Say, Slot
from planning.progress.review import Review, WeekNumbers, review

SAME_MIN = 15
"""Four weeks whose minutes differ by less than this are called alike."""


def four_weeks(known: Known, today: date, key: str | None = None) -> Say:
    """The four weeks up to *today*. *key*: the natural key where they come by the clock."""
    numbers = review(known.entries, known.sessions, today)
    words = (_sum(numbers), *_changed(numbers.change)) if numbers.sessions else (_quiet(known, today),)
    facts = Facts(weeks=numbers.weeks, next=None)
    return Say(known.who, Kind.REVIEW, (*words, "next_step"), facts, slots=_slots(numbers), key=key)


def _sum(numbers: Review) -> str:
    return "review" if numbers.sessions > 1 else "review_one"


def _slots(numbers: Review) -> tuple[Slot, ...]:
    change = numbers.change
    return (
        Slot("minutes_done", f"{numbers.minutes:.0f}"),
        Slot("sessions_done", str(numbers.sessions)),
        Slot("longest_done", f"{max(each.longest_min for each in numbers.weeks):.0f}"),
        Slot("minutes_more", f"{change.minutes:.0f}" if change else ""),
        Slot("longest_more", f"{change.longest_min:.0f}" if change else ""),
    )


def _changed(change: WeekNumbers | None) -> tuple[str, ...]:
    """What to say of the difference: more as a number, less without one, for nobody is shown a loss."""
    if change is None:
        return ()
    if change.minutes >= SAME_MIN:
        return ("review_more",) if change.longest_min < 1 else ("review_more_and_longer",)
    if change.longest_min >= 1:
        return ("review_longer",)
    return ("review_less",) if change.minutes <= -SAME_MIN else ("review_same",)


def _quiet(known: Known, today: date) -> str:
    """Nothing was logged: since somebody has not begun, or has been quiet."""
    begun = any(each.on < today for each in known.sessions)
    return "review_quiet" if begun else "review_new"
