"""Food and drink for a session, by its length and the weather: to thirst, and never as a target."""

from bot.conversation.says import Slot
from planning.progress.body import carbohydrate_g
from planning.terms.plan import Session


def fuel(session: Session) -> tuple[tuple[str, ...], tuple[Slot, ...]]:
    """Words and slots for what to take along; nothing for an outing that needs none.

    At the low effort of beginners the lower end of the published range is plenty (Jeukendrup 2014, from 60 minutes on).
    """
    wanted = carbohydrate_g(session.minutes)
    if wanted is None:
        return (), ()
    return ("fuel",), (Slot("sugar_g", f"{round(wanted.low / 5) * 5:g}"),)
