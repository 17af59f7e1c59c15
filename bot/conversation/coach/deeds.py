"""What is to be done about a runner, in the words that follow the name."""

from datetime import date, datetime

from bot.conversation.answers import names_clinician
from bot.conversation.coach.days import amounts_in, days_in
from bot.conversation.coach.lexicon import bare, folded, whole, within
from bot.conversation.coach.orders import Clear, Deed, Drop, Ease, HoldWeek, Make, Move

MOST_MINUTES = 300
LONGEST_RECORD = 200
"""Characters of a clearance that go on record."""


def deed_of(rest: str, here: datetime) -> Deed | None:
    """What *rest* asks for; None: nothing that is surely meant. *here*: now on the runner's own clock."""
    said = folded(rest)
    if _speaks_of_clearing(said):
        return clearance(rest, here)
    if whole("deed", "hold", bare(rest)):
        return HoldWeek()
    return _change(rest, said, here)


def _speaks_of_clearing(said: str) -> bool:
    return bool(within("deed", "clear_words", said)) or (
        names_clinician(said) and within("deed", "clear_with_clinician", said) is not None
    )


def clearance(rest: str, here: datetime) -> Clear | None:
    """Who cleared somebody, and when: today if no day was said. None where it may be meant for later, or not at all."""
    said = folded(rest)
    days = days_in(rest, here)
    ahead = any(each > here.date() for each in days.coming) and not days.past
    if "?" in said or within("deed", "not_yet", said) or "n't" in said or ahead:
        return None
    by = " ".join(rest.split())[:LONGEST_RECORD] if names_clinician(said) else None
    return Clear(days.past[-1] if days.past else here.date(), by)


def _change(rest: str, said: str, here: datetime) -> Deed | None:
    """A session made otherwise, dropped, moved or eased."""
    if "?" in said:
        return None
    days = days_in(rest, here).coming
    on = days[0] if days else None
    if within("deed", "move", said) and days:
        return Move(days[0] if len(days) > 1 else None, days[-1])
    amounts = amounts_in(rest, here)
    if amounts.segments or amounts.minutes is not None:
        return _made(on, Make(on, amounts.segments, amounts.minutes), said)
    if within("deed", "drop", said) and (on or "next" in said):
        return Drop(on)
    return Ease(on) if within("deed", "ease", said) else None


def _made(on: date | None, make: Make, said: str) -> Make | None:
    """An amount is a change only with a day, or with a word that asks for one; and only a sane one."""
    minutes = sum(each.minutes for each in make.segments) if make.segments else make.minutes or 0
    wanted = on is not None or within("deed", "makes", said) is not None
    return make if wanted and minutes <= MOST_MINUTES else None
