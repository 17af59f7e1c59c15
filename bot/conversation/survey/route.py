"""Which question comes next, and which one came before."""

from dataclasses import replace

from bot.conversation.draft import Draft, Step
from bot.conversation.says import Asks
from planning.terms.choices import Role

ORDER = tuple(step for step in Step if step not in (Step.START, Step.LEAVE))
SCREEN = (Step.ACTIVE, Step.DISEASE, Step.SIGNS, Step.PREGNANT)
HEALTH = (*SCREEN, Step.AGE, Step.ADULT, Step.SIZE, Step.HEIGHT, Step.WEIGHT, Step.ANY_SIGN)
"""What is asked after the question of consent."""

OF_COACH = (Step.CALLED, Step.PLACE, Step.PLACE_CHECK)
"""What a coach is asked."""

ASKS = {
    Step.CALLED: Asks.CALLED,
    Step.PLACE: Asks.TZ,
    Step.PLACE_CHECK: Asks.TZ,
    Step.DAYS: Asks.DAYS,
    Step.TIMES: Asks.DAYS,
    Step.WALK: Asks.WALK,
    Step.JOG: Asks.JOG,
    Step.WEEK: Asks.RECENT,
    Step.LONGEST: Asks.RECENT,
    Step.RACE: Asks.RACE,
    Step.RACE_DAY: Asks.RACE,
    Step.SUMMARY: Asks.CONFIRM,
    Step.CONSENT: Asks.CONSENT,
    Step.ACTIVE: Asks.SCREEN,
    Step.DISEASE: Asks.SCREEN,
    Step.SIGNS: Asks.SCREEN,
    Step.PREGNANT: Asks.SCREEN,
    Step.ANY_SIGN: Asks.SCREEN,
    Step.AGE: Asks.AGE,
    Step.ADULT: Asks.AGE,
    Step.SIZE: Asks.SIZE,
    Step.HEIGHT: Asks.SIZE,
    Step.WEIGHT: Asks.SIZE,
    Step.LEAVE: Asks.CONFIRM,
}
"""What each question asks for, in the words that other programs read."""


def applies(step: Step, draft: Draft) -> bool:
    """Whether *step* is a question for this person, after what was answered so far."""
    done = step in draft.answered
    if draft.role is Role.COACH and step not in OF_COACH:
        return False
    match step:
        case Step.PLACE_CHECK:
            return not draft.place_sure
        case Step.TIMES:
            return done or (Step.DAYS in draft.answered and not draft.times)
        case Step.LONGEST:
            return draft.week_min > 0
        case Step.RACE_DAY:
            return done or (draft.race_km is not None and draft.race_on is None)
        case Step.ADULT:
            return draft.consent is False or (
                draft.consent is True and Step.AGE in draft.answered and draft.age is None
            )
        case Step.ANY_SIGN:
            return draft.consent is False
        case Step.HEIGHT:
            return done or (draft.consent is True and draft.weight_kg is not None and draft.height_cm is None)
        case Step.WEIGHT:
            return done or (draft.consent is True and draft.height_cm is not None and draft.weight_kg is None)
        case _:
            return step not in HEALTH or draft.consent is True


def next_step(draft: Draft) -> Step | None:
    """The first question that is still open; None: all is answered."""
    return next((step for step in ORDER if step not in draft.answered and applies(step, draft)), None)


def step_before(draft: Draft) -> Step | None:
    """The question that was answered before the one that is open, in the order of the survey."""
    place = ORDER.index(draft.step) if draft.step in ORDER else len(ORDER)
    before = (step for step in reversed(ORDER[:place]) if step in draft.answered and applies(step, draft))
    return next(before, None)


def step_for(asks: Asks, draft: Draft) -> Step:
    """The question that *asks* for that, if it has been reached; else the one that is open."""
    reached = (step for step in ORDER if ASKS[step] is asks and applies(step, draft) and step in draft.answered)
    return next(reached, draft.step)


def done(draft: Draft, *steps: Step) -> Draft:
    """The *draft* with these questions answered."""
    return replace(draft, answered=tuple(dict.fromkeys((*draft.answered, *steps))))


def undone(draft: Draft, *steps: Step) -> Draft:
    """The *draft* with these questions open again."""
    return replace(draft, answered=tuple(step for step in draft.answered if step not in steps))
